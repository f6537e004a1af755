import type { Position } from 'geojson';
import { pointToGeodesic } from './pointToGeodesic';

/**
 * Metres from `from` to the foot of `point` along the endless geodesic through `from` and `to`.
 *
 * Negative behind `from`, more than the distance between the two beyond `to`; 0 where they are the same.
 *
 * @example
 * alongTrackDistance([5.5, 52], [5, 52], [6, 51.4]) // → 24784.2884…
 *
 * @throws {InputError} a position not on the globe
 * @remarks The `alongTrack` of {@link pointToGeodesic}: more on accuracy and ties there.
 */
export function alongTrackDistance(point: Position, from: Position, to: Position): number {
  return pointToGeodesic(point, from, to).alongTrack;
}
