import type { Position } from 'geojson';
import { checkNumber } from '../internal/checkNumber';
import { checkPosition } from '../internal/checkPosition';
import { wrapLongitude } from '../internal/longitude';
import { Geodesic, WGS84 } from './ellipsoid';

/**
 * The position `distance` metres from `from` on the geodesic towards `to`; beyond either end it goes on along it.
 *
 * @example
 * interpolate([5, 52], [6, 51.4], 1000) // → [5.0105…, 51.9938…]
 *
 * @throws {InputError} a position not on the globe, or a distance that is not finite
 */
export function interpolate(from: Position, to: Position, distance: number): Position {
  checkPosition(from, 'from');
  checkPosition(to, 'to');
  checkNumber(distance, 'distance');
  const line = WGS84.InverseLine(from[1], from[0], to[1], to[0], Geodesic.STANDARD | Geodesic.DISTANCE_IN);
  const { lat2, lon2 } = line.Position(distance, Geodesic.LATITUDE | Geodesic.LONGITUDE);
  return [wrapLongitude(lon2!), lat2!];
}
