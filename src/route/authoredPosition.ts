import type { Position } from 'geojson';

/** Whether both coordinates are whole multiples of 10⁻⁵ degrees, to the rounding of a double. */
export function isCoarse([longitude, latitude]: Position): boolean {
  return isWhole(longitude * 1e5) && isWhole(latitude * 1e5);
}

function isWhole(value: number): boolean {
  return Math.abs(value - Math.round(value)) < 1e-6;
}

/** Degrees: only a leap of kilometres is looked at. */
const LEAP = 0.05;

/** Times nearer that a position must come by exchanging its coordinates. */
const MUCH_NEARER = 50;

/** Whether a position leaps away from the one before, and wouldn't with longitude and latitude exchanged. */
export function isSwapSuspected([fromLon, fromLat]: Position, [lon, lat]: Position): boolean {
  if (Math.abs(lon) > 90) return false;
  const leap = Math.hypot(lon - fromLon, lat - fromLat);
  return leap > LEAP && Math.hypot(lat - fromLon, lon - fromLat) * MUCH_NEARER < leap;
}
