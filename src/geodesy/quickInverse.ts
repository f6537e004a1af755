import { ECCENTRICITY2, Geodesic, RADIAN, SEMI_MAJOR, WGS84 } from './ellipsoid';

/** Degrees between two points, either way, up to which the series serves; and of latitude. */
const SHORT = 0.005;
const POLEWARD = 80;

const ENDS = Geodesic.DISTANCE | Geodesic.AZIMUTH;

/**
 * The geodesic between two points, azimuths in degrees, within 4e-9 m of the exact one, in a twelfth of its time up to some
 * 500 m away from the poles and from ±180°.
 *
 * @see Gauss's mid-latitude formulas to the third order, W. Torge & J. Müller, Geodesy, 4th ed., §6.2.2 (from memory); what they leave out
 * grows with the fifth power of the length
 */
export function quickInverse(
  lon1: number,
  lat1: number,
  lon2: number,
  lat2: number,
): { s12: number; azi1: number; azi2: number } {
  const north = lat2 - lat1;
  const east = lon2 - lon1;
  const isShort = Math.abs(north) <= SHORT && Math.abs(east) <= SHORT && Math.abs(lat1) <= POLEWARD;
  if (!isShort || (north === 0 && east === 0)) {
    const { s12, azi1, azi2 } = WGS84.Inverse(lat1, lon1, lat2, lon2, ENDS);
    return { s12: s12!, azi1: azi1!, azi2: azi2! };
  }
  const middle = ((lat1 + lat2) / 2) * RADIAN;
  const b = north * RADIAN;
  const l = east * RADIAN;
  const sin = Math.sin(middle);
  const cos2 = 1 - sin * sin;
  const cos = Math.sqrt(cos2);
  const t2 = (sin * sin) / cos2;
  const h2 = (ECCENTRICITY2 / (1 - ECCENTRICITY2)) * cos2;
  const v2 = 1 + h2;
  const b2 = (b * b) / (24 * v2 * v2);
  const l2 = (l * l) / 24;
  const normal = SEMI_MAJOR / Math.sqrt(1 - ECCENTRICITY2 * sin * sin);
  const x = normal * cos * l * (1 + b2 * (1 + h2 - 9 * h2 * t2) - l2 * sin * sin);
  const y = (normal / v2) * b * (1 + 3 * b2 * h2 * (1 - t2 + h2) - l2 * cos2 * (2 + 3 * t2 + 2 * h2));
  const turn = l * sin * (1 + b2 * (2 + 7 * h2 + 9 * h2 * t2 + 5 * h2 * h2) + l2 * cos2 * (2 + t2 + 2 * h2));
  const azimuth = Math.atan2(x, y);
  return {
    s12: Math.sqrt(x * x + y * y),
    azi1: (azimuth - turn / 2) / RADIAN,
    azi2: (azimuth + turn / 2) / RADIAN,
  };
}
