import type { Position } from 'geojson';
import { checkFinite, type GivenPosition } from '../model';
import { edgeLine, positionAlong } from './edgeLine';
import { POINTLIKE } from './interception';
import { wrapLongitude } from './longitude';

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
 * @param distance metres from `from`
 * @throws {InputError} a position not on the globe, or a distance that is not finite
 * @remarks 15 nm between the ends; beyond them an edge of `l` metres has its direction to 3e-9/l radians. Constant time, about
 * 3 µs.
 * @see Karney, Algorithms for geodesics, J. Geod. 87 (2013), doi:10.1007/s00190-012-0578-z
 */
export function interpolate(from: GivenPosition, to: GivenPosition, distance: number): Position {
  const line = edgeLine(from, to);
  checkFinite(distance, 'distance');
  return line.s13 > POINTLIKE ? positionAlong(line, distance) : [wrapLongitude(from[0]), from[1]];
}
