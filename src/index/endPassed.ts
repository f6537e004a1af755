import { Geodesic, RADIAN, WGS84 } from '../geodesy';
import type { Route } from '../model';
import { directedEdge } from './directedEdge';
import { placeOnEdge } from './placeOnEdge';

/** A position must lie further before the start or past the end than this, in metres, to have passed it: rounding. */
const PASSED = 1e-6;

/**
 * The end that a position lies beyond whose nearest place on the route is that end: before the start, or past the end.
 * Straight beside an end is not beyond it; nor is any position whose foot lies between the ends.
 */
export function endPassed(
  { lon, lat, alongTrack }: Pick<Route, 'lon' | 'lat' | 'alongTrack'>,
  { segment, fraction }: { readonly segment: number; readonly fraction: number },
  position: readonly number[],
): 'start' | 'end' | undefined {
  const begin = alongTrack[segment];
  const end = alongTrack[segment + 1];
  const atStart = begin === 0 && (fraction === 0 || end === 0);
  const length = alongTrack[alongTrack.length - 1];
  if (!atStart && !(end === length && (fraction === 1 || begin === length))) return undefined;
  const edge = directedEdge(alongTrack, segment);
  const place = placeOnEdge(lon, lat, edge, atStart ? 0 : 1, alongTrack[edge + 1] - alongTrack[edge]);
  const mask = Geodesic.AZIMUTH | Geodesic.DISTANCE;
  const { azi1, s12 } = WGS84.Inverse(place.lat, place.lon, position[1], position[0], mask);
  const ahead = s12! * Math.cos((azi1! - place.azimuth) * RADIAN);
  if (atStart) return ahead < -PASSED ? 'start' : undefined;
  return ahead > PASSED ? 'end' : undefined;
}
