import type { Position } from 'geojson';
import { InputError } from '../errors';
import { checkNumber } from '../internal/checkNumber';
import { checkPosition } from '../internal/checkPosition';
import { wrapLongitude } from '../internal/longitude';
import { Geodesic, RADIAN, WGS84 } from './ellipsoid';

/** A plane touching the ellipsoid at its origin. */
export interface LocalPlane {
  /** Metres east and north of the origin. */
  toPlane(position: Position): [east: number, north: number];
  /** The position at so many metres east and north. */
  toPosition(plane: readonly [east: number, north: number]): Position;
}

/**
 * The azimuthal equidistant projection about `origin`, in metres: distances and directions from the origin are true.
 *
 * Between two other places, d metres from the origin, lengths across the direction to it are stretched by d²/6R²: 0.4 mm a
 * kilometre at 10 km. At a pole the longitude of `origin` says where the axes point: at the south pole, north lies along
 * that meridian; at the north pole, along the one opposite. The position exactly opposite on the globe lies on a whole
 * circle; one place of it is given. Heights are ignored.
 *
 * @example
 * localPlane([5, 52]).toPlane([5.01, 52]) // → [686.78…, 0.04…]
 * localPlane([5, 52]).toPosition([0, -1000]) // → [5, 51.9910…]
 *
 * @throws {InputError} a position not on the globe, a plane place that is not two finite numbers
 * @remarks 15 nm; about 1.5 µs each way.
 * @see Karney, Algorithms for geodesics, J. Geod. 87 (2013), §8, doi:10.1007/s00190-012-0578-z
 */
export function localPlane(origin: Position): LocalPlane {
  checkPosition(origin, 'origin');
  const [lon, lat] = origin;
  return {
    toPlane(position) {
      checkPosition(position, 'position');
      const { s12, azi1 } = WGS84.Inverse(lat, lon, position[1], position[0], Geodesic.DISTANCE | Geodesic.AZIMUTH);
      const azimuth = azi1! * RADIAN;
      return [s12! * Math.sin(azimuth) + 0, s12! * Math.cos(azimuth) + 0]; // never -0
    },
    toPosition(plane) {
      if (!Array.isArray(plane)) {
        throw new InputError({ reason: 'wrong-type', argument: 'plane', rule: '[east, north]', value: plane });
      }
      const [east, north] = plane;
      checkNumber(east, 'plane[0]');
      checkNumber(north, 'plane[1]');
      const { lat2, lon2 } = WGS84.Direct(
        lat,
        lon,
        Math.atan2(east, north) / RADIAN,
        Math.hypot(east, north),
        Geodesic.LATITUDE | Geodesic.LONGITUDE,
      );
      return [wrapLongitude(lon2!), lat2!];
    },
  };
}
