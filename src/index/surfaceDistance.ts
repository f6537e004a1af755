import type { Position } from 'geojson';
import { ECCENTRICITY2, SEMI_MAJOR, WGS84, wrapLongitude } from '../geodesy';

const DEGREE = 180 / Math.PI;
const INVERSE_A2 = 1 / (SEMI_MAJOR * SEMI_MAJOR);
const INVERSE_B2 = INVERSE_A2 / (1 - ECCENTRICITY2);

// The series below is off by 0.3 µm at 100 km and by 8 µm at 200 km.
const SERIES_REACH2 = 100_000 ** 2;

/** Metres along the surface between two of its points, given as earth-centred coordinates; 1e-6 m at any distance. */
export function surfaceDistance(ax: number, ay: number, az: number, bx: number, by: number, bz: number): number {
  const dx = bx - ax;
  const dy = by - ay;
  const dz = bz - az;
  const horizontal2 = dx * dx + dy * dy;
  const chord2 = horizontal2 + dz * dz;
  if (chord2 > SERIES_REACH2) return exactDistance(ax, ay, az, bx, by, bz);
  if (chord2 === 0) return 0;
  // curvature of the normal section along the chord, at the surface above its middle
  const mx = (ax + bx) / 2;
  const my = (ay + by) / 2;
  const mz = (az + bz) / 2;
  const m2 = (mx * mx + my * my) * INVERSE_A2;
  const z2 = mz * mz * INVERSE_B2;
  const along = (horizontal2 * INVERSE_A2 + dz * dz * INVERSE_B2) / chord2;
  const curvature2 = (along * along * (m2 + z2)) / (m2 * INVERSE_A2 + z2 * INVERSE_B2);
  const turn2 = chord2 * curvature2;
  return Math.sqrt(chord2) * (1 + (turn2 / 24) * (1 + (turn2 * 9) / 80));
}

function exactDistance(ax: number, ay: number, az: number, bx: number, by: number, bz: number): number {
  return WGS84.Inverse(latitudeOf(ax, ay, az), longitudeOf(ax, ay), latitudeOf(bx, by, bz), longitudeOf(bx, by)).s12!;
}

/** Degrees of latitude of a point of the surface. */
export function latitudeOf(x: number, y: number, z: number): number {
  return Math.atan2(z, (1 - ECCENTRICITY2) * Math.hypot(x, y)) * DEGREE;
}

/** Degrees of longitude within [-180, 180]. */
export function longitudeOf(x: number, y: number): number {
  return Math.atan2(y, x) * DEGREE;
}

/** The position at a point of the surface, longitude within [-180, 180). */
export function positionOf(x: number, y: number, z: number): Position {
  return [wrapLongitude(longitudeOf(x, y)), latitudeOf(x, y, z)];
}
