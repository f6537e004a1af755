import type { Position } from 'geojson';
import { checkNumber } from '../internal/checkNumber';
import { checkPosition } from '../internal/checkPosition';
import { wrapLongitude } from '../internal/longitude';
import { Geodesic, WGS84 } from './ellipsoid';
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
  checkPosition(from, 'from');
  checkPosition(to, 'to');
  checkNumber(distance, 'distance');
  const line = WGS84.InverseLine(from[1], from[0], to[1], to[0]);
  if (!(line.s13 > POINTLIKE)) return [wrapLongitude(from[0]), from[1]];
  const { lat2, lon2 } = line.Position(distance, Geodesic.LATITUDE | Geodesic.LONGITUDE);
  return [wrapLongitude(lon2!), lat2!];
}
