import type { Position } from 'geojson';
import { checkFinite, checkPosition, type GivenPosition } from '../model';
import { direct } from './direct';
import { RADIAN } from './ellipsoid';
import { inverse } from './inverse';

/** A plane touching the ellipsoid at its origin. */
export interface LocalPlane {
  /** Metres east and north of the origin. */
  toPlane(position: GivenPosition): [east: number, north: number];
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
 * @remarks 15 nm; constant time, about 1.5 µs each way.
 * @see Karney, Algorithms for geodesics, J. Geod. 87 (2013), §8, doi:10.1007/s00190-012-0578-z
 */
export function localPlane(origin: GivenPosition): LocalPlane {
  checkPosition(origin, 'origin');
  const center = [...origin]; // as it is now, whatever becomes of it
  return {
    toPlane(position) {
      checkPosition(position, 'position');
      const { distance, initialAzimuth } = inverse(center, position);
      const azimuth = initialAzimuth * RADIAN;
      return [distance * Math.sin(azimuth) + 0, distance * Math.cos(azimuth) + 0]; // never -0
    },
    toPosition(plane) {
      const east = checkFinite(plane?.[0], 'plane[0]');
      const north = checkFinite(plane?.[1], 'plane[1]');
      return direct(center, Math.atan2(east, north) / RADIAN, Math.hypot(east, north)).position;
    },
  };
}
