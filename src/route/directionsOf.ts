import { ECCENTRICITY2, RADIAN } from '../geodesy';
import type { LineColumns } from '../model';

/** Cosine of 30°: within it two directions are the same way, or opposite ones. */
export const SAME_WAY = Math.cos(Math.PI / 6);

/** The unit vectors of a line's edges, east and north, and the cosine between two of them. */
export function directionsOf({ lon, lat }: LineColumns): { cosine: (a: number, b: number) => number } {
  const east = new Float64Array(lon.length - 1);
  const north = new Float64Array(lon.length - 1);
  for (let i = 0; i + 1 < lon.length; i++) {
    const sin = Math.sin(((lat[i] + lat[i + 1]) / 2) * RADIAN);
    const x = (lon[i + 1] - lon[i]) * Math.sqrt(1 - sin * sin);
    const y = ((lat[i + 1] - lat[i]) * (1 - ECCENTRICITY2)) / (1 - ECCENTRICITY2 * sin * sin);
    const size = Math.hypot(x, y) || 1;
    east[i] = x / size;
    north[i] = y / size;
  }
  return { cosine: (a, b) => east[a] * east[b] + north[a] * north[b] };
}
