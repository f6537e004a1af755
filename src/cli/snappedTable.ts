import { csvTable } from '../formats';
import { type Recording, type Route, type Snapped, sectionFinder } from '../model';
import type { CommandArguments } from './CommandArguments';
import { shownFixes } from './shownFixes';

const head = [
  'fix',
  'time (s)',
  'along track (m)',
  'cross track (m; right positive)',
  'distance (m)',
  'section',
  'lap',
  'also in',
  'state',
  'confidence',
  'longitude',
  'latitude',
];

/**
 * One row a fix as CSV (RFC 4180). Times count from the first one, unless they are asked for; positions are those on the route
 * only: what may be passed on.
 */
export function snappedTable(
  route: Route,
  recording: Recording,
  snapped: Snapped,
  times: CommandArguments['times'],
): string {
  const { time, lon, lat } = recording;
  const start = time?.find((value) => !Number.isNaN(value)) ?? 0;
  const rounded = (value: number) => Number(value.toFixed(3));
  const shown = new Set(shownFixes(route, recording, snapped));
  const utc = (i: number) => (time && Number.isFinite(time[i]) ? new Date(time[i]).toISOString() : null);
  const sectionsAt = sectionFinder(route);
  const rows = snapped.state.map((state, i) => {
    const [section, ...others] = sectionsAt(snapped.alongTrack[i]);
    return [
      i,
      time === undefined ? null : rounded((time[i] - start) / 1000),
      rounded(snapped.alongTrack[i]),
      rounded(snapped.crossTrack[i]),
      rounded(snapped.distance[i]),
      section?.name ?? null,
      section?.lap ?? null,
      others.map(({ name }) => name).join('; ') || null,
      state,
      rounded(snapped.confidence[i]),
      ...(shown.has(i) ? [lon[i], lat[i]] : [null, null]),
      ...(times === 'absolute' ? [shown.has(i) ? utc(i) : null] : []),
    ];
  });
  return csvTable([[...head, ...(times === 'absolute' ? ['time (UTC)'] : [])], ...rows]);
}
