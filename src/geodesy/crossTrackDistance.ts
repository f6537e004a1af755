import type { Position } from 'geojson';
import { pointToGeodesic } from './pointToGeodesic';

/**
 * Signed distance in metres of `point` from the endless geodesic through `from` and `to`.
 *
 * - positive: `point` lies right of the direction of travel
 * - negative: left
 * - 0: on the line
 *
 * `from` and `to` the same: the distance from there, unsigned.
 *
 * @example
 * crossTrackDistance([5.5, 52], [5, 52], [6, 51.4]) // → -23767.7241…
 *
 * @throws {InputError} a position not on the globe
 * @remarks The `crossTrack` of {@link pointToGeodesic}: more on accuracy and ties there.
 */
export function crossTrackDistance(point: Position, from: Position, to: Position): number {
  return pointToGeodesic(point, from, to).crossTrack;
}
