import { checkPosition, type GivenPosition } from '../model';
import { wrapAzimuth } from './azimuth';
import { WGS84 } from './ellipsoid';

/** The geodesic between two positions. */
export interface InverseResult {
  /** Metres. */
  readonly distance: number;
  /** Degrees clockwise from north at `from`, [0, 360). */
  readonly initialAzimuth: number;
  /** Degrees clockwise from north at `to`, in the direction of travel, [0, 360). */
  readonly finalAzimuth: number;
}

/**
 * Length in metres and azimuths in degrees of the shortest geodesic between two positions on WGS 84.
 *
 * Coincident positions have distance 0 and both azimuths 180; at a pole the azimuths are those of leaving along the
 * meridian of `to`. Between exactly antipodal positions one of the equally short geodesics is taken. Heights are ignored.
 *
 * @example
 * inverse([5, 52], [6, 51.4]).distance // → 96103.975…
 *
 * @throws {InputError} a position that is not on the globe
 * @remarks Distances to 15 nm, azimuths so that they turn neither end by more; constant time, about 1 µs.
 * @see Karney, Algorithms for geodesics, J. Geod. 87 (2013), doi:10.1007/s00190-012-0578-z
 */
export function inverse(from: GivenPosition, to: GivenPosition): InverseResult {
  checkPosition(from, 'from');
  checkPosition(to, 'to');
  const { s12, azi1, azi2 } = WGS84.Inverse(from[1], from[0], to[1], to[0]);
  return { distance: s12!, initialAzimuth: wrapAzimuth(azi1!), finalAzimuth: wrapAzimuth(azi2!) };
}
