import type { GivenPosition } from '../model';
import { pointToGeodesic } from './pointToGeodesic';

/**
 * Signed distance in metres of `point` from the endless geodesic through `from` and `to`.
 *
 * - positive: `point` lies right of the direction of travel
 * - negative: left
 * - 0: on the line
 *
 * `from` and `to` the same: the distance from there, unsigned. Heights are ignored.
 *
 * @example
 * crossTrackDistance([5.5, 52], [5, 52], [6, 51.4]) // → -23767.7241…
 *
 * @throws {InputError} a position not on the globe
 * @remarks The `crossTrack` of {@link pointToGeodesic}, at its accuracy and cost, with its ties.
 * @see Karney, Algorithms for geodesics, J. Geod. 87 (2013), §8, doi:10.1007/s00190-012-0578-z
 */
export function crossTrackDistance(point: GivenPosition, from: GivenPosition, to: GivenPosition): number {
  return pointToGeodesic(point, from, to).crossTrack;
}
