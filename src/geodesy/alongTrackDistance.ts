import type { GivenPosition } from '../model';
import { pointToGeodesic } from './pointToGeodesic';

/**
 * Metres from `from` to the foot of `point` along the endless geodesic through `from` and `to`.
 *
 * Negative behind `from`, more than the distance between the two beyond `to`; 0 where they are the same. Heights are
 * ignored.
 *
 * @example
 * alongTrackDistance([5.5, 52], [5, 52], [6, 51.4]) // → 24784.2884…
 *
 * @throws {InputError} a position not on the globe
 * @remarks The `alongTrack` of {@link pointToGeodesic}, at its accuracy and cost, with its ties.
 * @see Karney, Algorithms for geodesics, J. Geod. 87 (2013), §8, doi:10.1007/s00190-012-0578-z
 */
export function alongTrackDistance(point: GivenPosition, from: GivenPosition, to: GivenPosition): number {
  return pointToGeodesic(point, from, to).alongTrack;
}
