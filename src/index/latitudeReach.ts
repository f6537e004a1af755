import { FLATTENING, Geodesic, RADIAN, WGS84 } from '../geodesy';

/**
 * The latitude furthest towards a pole that the geodesic between two vertices reaches, degrees; never short of it, over
 * it by a tenth of the bulge at most (by more where the ends differ in latitude).
 *
 * @see Clairaut's relation: the sine of the azimuth times the cosine of the reduced latitude is constant on a geodesic
 */
export function latitudeReach(lon1: number, lat1: number, lon2: number, lat2: number): number {
  const higher = Math.abs(lat1) > Math.abs(lat2) ? lat1 : lat2;
  const span = Math.abs(lon2 - lon1);
  // Of all edges that span so much longitude the one between equal latitudes bulges most: span² sin 2φ / 16 in radians,
  // 0.00109° for 1°.
  if (span < 1) return higher + Math.sign(higher) * 0.0012 * span * span;
  const { azi1, azi2 } = WGS84.Inverse(lat1, lon1, lat2, lon2, Geodesic.AZIMUTH);
  const northward = Math.cos(azi1! * RADIAN);
  if (northward * Math.cos(azi2! * RADIAN) >= 0) return higher;
  const reduced = Math.atan((1 - FLATTENING) * Math.tan(lat1 * RADIAN));
  const cosine = Math.abs(Math.sin(azi1! * RADIAN)) * Math.cos(reduced);
  const top = Math.atan2(Math.sqrt(Math.max(1 - cosine * cosine, 0)), cosine * (1 - FLATTENING)) / RADIAN;
  return Math.sign(northward) * Math.min(top + 1e-9, 90);
}
