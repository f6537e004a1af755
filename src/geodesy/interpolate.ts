import type { Position } from 'geojson';
import { checkFinite } from '../internal/checkFinite';
import { wrapLongitude } from '../internal/longitude';
import { edgeLine, positionAlong } from './edgeLine';
import { POINTLIKE } from './interception';

/**
 * The position `distance` metres from `from` on the geodesic towards `to`.
 *
 * Beyond either end it goes on along the same geodesic; a negative distance lies behind `from`. Where `from` and `to` are
 * the same there is no direction, and the position is `from` whatever the distance. Heights are ignored.
 *
 * @example
 * interpolate([5, 52], [6, 51.4], 1000) // → [5.0105…, 51.9938…]
 * interpolate([179.9, 0], [-179.9, 0], 20000) // → [-179.92…, 0]
 *
 * @throws {InputError} a position not on the globe, or a distance that is not finite
 * @remarks 15 nm; about 3 µs.
 */
export function interpolate(from: Position, to: Position, distance: number): Position {
  const line = edgeLine(from, to);
  checkFinite(distance, 'distance');
  return line.s13 > POINTLIKE ? positionAlong(line, distance) : [wrapLongitude(from[0]), from[1]];
}
