import type { Position } from 'geojson';
import { checkNumber } from '../internal/checkNumber';
import { checkPosition } from '../internal/checkPosition';
import { wrapLongitude } from '../internal/longitude';
import { Geodesic, WGS84 } from './ellipsoid';

/** A plane touching the ellipsoid at its origin. */
export interface LocalPlane {
  /** Metres east and north of the origin. */
  toPlane(position: Position): [east: number, north: number];
  toPosition(plane: readonly [east: number, north: number]): Position;
}

/**
 * The azimuthal equidistant projection about `origin`: distances and directions from the origin are true.
 *
 * @example
 * localPlane([5, 52]).toPlane([5.01, 52]) // → [686.78…, 0.04…]
 *
 * @throws {InputError} a position not on the globe
 */
export function localPlane(origin: Position): LocalPlane {
  checkPosition(origin, 'origin');
  const [lon, lat] = origin;
  return {
    toPlane(position) {
      checkPosition(position, 'position');
      const { s12, azi1 } = WGS84.Inverse(lat, lon, position[1], position[0], Geodesic.DISTANCE | Geodesic.AZIMUTH);
      const azimuth = (azi1! * Math.PI) / 180;
      return [s12! * Math.sin(azimuth), s12! * Math.cos(azimuth)];
    },
    toPosition([east, north]) {
      checkNumber(east, 'plane[0]');
      checkNumber(north, 'plane[1]');
      const azimuth = (Math.atan2(east, north) * 180) / Math.PI;
      const { lat2, lon2 } = WGS84.Direct(
        lat,
        lon,
        azimuth,
        Math.hypot(east, north),
        Geodesic.LATITUDE | Geodesic.LONGITUDE,
      );
      return [wrapLongitude(lon2!), lat2!];
    },
  };
}
