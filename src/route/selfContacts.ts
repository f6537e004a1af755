import { SegmentTree } from '../index';
import type { Route } from '../model';
import { directionsOf, SAME_WAY } from './directionsOf';
import { longestEdge } from './longestEdge';
import type { RepeatedStretch } from './RepeatedStretch';
import { type Meeting, Repetitions, SHORTEST } from './Repetitions';

/** Every two stretches of a route that run along each other within so many metres. */
export function selfContacts(
  { lon, lat, alongTrack }: Pick<Route, 'lon' | 'lat' | 'alongTrack'>,
  maxDistance: number,
): RepeatedStretch[] {
  const last = lon.length - 2;
  const { cosine } = directionsOf({ lon, lat });
  const tree = new SegmentTree(lon, lat);
  const repetitions = new Repetitions(maxDistance, longestEdge(alongTrack));
  for (let i = 0; i <= last + 1; i++) {
    const edge = Math.min(i, last);
    const meetings: Meeting[] = [];
    for (const j of tree.within(lon[i], lat[i], maxDistance)) {
      if (j <= edge) continue;
      const way = cosine(edge, j);
      if (Math.abs(way) <= SAME_WAY) continue;
      const distance = tree.measure(j);
      const at = alongTrack[j] + tree.fraction * (alongTrack[j + 1] - alongTrack[j]);
      if (way > 0 && at - alongTrack[i] < SHORTEST * maxDistance) continue;
      meetings.push({ direction: way > 0 ? 'same' : 'opposite', at, distance });
    }
    repetitions.add(i, alongTrack[i], meetings);
  }
  repetitions.end();
  return repetitions.repeats;
}
