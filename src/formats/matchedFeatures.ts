import type { Feature, Position } from 'geojson';
import { cutAtAntimeridian } from '../geodesy';
import { type Recording, sectionFinder } from '../model';
import type { Matched } from './Matched';
import { writeTime } from './writeTime';

/** A point for each fix with its place on the route, and a line for each excursion: fixes in a row farther off than `maxDistance`. */
export function matchedFeatures(recording: Recording, matched: Matched, maxDistance: number | undefined): Feature[] {
  const { lon, lat, time, height, gapBefore } = recording;
  const { alongTrack, crossTrack, distance, state } = matched.snapped;
  const known = (value: number | undefined) => (value === undefined || Number.isNaN(value) ? null : value);
  const at = (i: number) => (known(time?.[i]) === null ? null : writeTime(time![i], `recording.time[${i}]`));
  const place = (i: number): Position =>
    known(height?.[i]) === null ? [lon[i], lat[i]] : [lon[i], lat[i], height![i]];
  const sectionsAt = sectionFinder(matched.route);
  const sections = Array.from(alongTrack, (s) => sectionsAt(s).at(0));
  const number = (i: number) => matched.fixes?.[i] ?? i;
  const features: Feature[] = [];
  for (let i = 0; i < lon.length; i++) {
    features.push({
      type: 'Feature',
      geometry: { type: 'Point', coordinates: place(i) },
      properties: {
        kind: 'fix',
        fix: number(i),
        ...(time ? { time: at(i) } : {}),
        alongTrack: known(alongTrack[i]),
        crossTrack: known(crossTrack[i]),
        distance: known(distance[i]),
        section: sections[i]?.name ?? null,
        ...(sections[i]?.lap === undefined ? {} : { lap: sections[i]!.lap }),
        state: state[i],
      },
    });
  }
  const away = (i: number) =>
    state[i] === 'off' || (state[i] === 'on' && distance[i] > (maxDistance ?? sections[i]?.halfWidth ?? Infinity));
  for (let from = 0; from < lon.length; from++) {
    if (!away(from)) continue;
    let to = from + 1;
    while (to < lon.length && away(to) && !gapBefore[to]) to++;
    // with the fixes beside it, so that even one fix far out is a line
    const first = from > 0 && !gapBefore[from] ? from - 1 : from;
    const last = to < lon.length && !gapBefore[to] ? to : to - 1;
    const positions = Array.from({ length: last - first + 1 }, (_, k) => [lon[first + k], lat[first + k]]);
    let peak = from;
    for (let i = from; i < to; i++) if (!(distance[i] <= distance[peak])) peak = Number.isNaN(distance[i]) ? peak : i;
    const parts = cutAtAntimeridian(positions.length > 1 ? positions : [positions[0], positions[0]]);
    features.push({
      type: 'Feature',
      geometry:
        parts.length === 1
          ? { type: 'LineString', coordinates: parts[0].positions }
          : { type: 'MultiLineString', coordinates: parts.map((part) => part.positions) },
      properties: {
        kind: 'excursion',
        firstFix: number(from),
        lastFix: number(to - 1),
        from: known(alongTrack[from]),
        to: known(alongTrack[to - 1]),
        section: sections[peak]?.name ?? null,
        peak: known(crossTrack[peak]),
        ...(time ? { duration: known((time[to - 1] - time[from]) / 1000) } : {}),
      },
    });
    from = to - 1;
  }
  return features;
}
