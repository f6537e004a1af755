import { ECCENTRICITY2, RADIAN, SEMI_MAJOR } from './ellipsoid';

/** A position on the ellipsoid in earth-centred metres. */
export function earthCentred(lon: number, lat: number): [x: number, y: number, z: number] {
  const sinLat = Math.sin(lat * RADIAN);
  const cosLat = Math.cos(lat * RADIAN);
  const normal = SEMI_MAJOR / Math.sqrt(1 - ECCENTRICITY2 * sinLat * sinLat);
  return [
    normal * cosLat * Math.cos(lon * RADIAN),
    normal * cosLat * Math.sin(lon * RADIAN),
    normal * (1 - ECCENTRICITY2) * sinLat,
  ];
}
