import type { Position } from 'geojson';
import { WGS84 } from '../../src/geodesy/ellipsoid';

/** Judge of the discrete Fréchet distance: the whole table of exact distances, every pair of vertices. */
export function tableFrechet(a: readonly Position[], b: readonly Position[]): number {
  const best: number[][] = [];
  for (const [i, p] of a.entries()) {
    best.push([]);
    for (const [j, q] of b.entries()) {
      const { s12 } = WGS84.Inverse(p[1], p[0], q[1], q[0]);
      const before =
        i + j === 0
          ? 0
          : Math.min(best[i - 1]?.[j] ?? Infinity, best[i][j - 1] ?? Infinity, best[i - 1]?.[j - 1] ?? Infinity);
      best[i].push(Math.max(s12!, before));
    }
  }
  return best[a.length - 1][b.length - 1];
}
