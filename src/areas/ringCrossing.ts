import type { Position } from 'geojson';

/** Degrees, a tenth of a millimetre: edges that cross by less only touch. */
const TOUCH = 1e-9;

/**
 * Where a closed ring crosses itself: the first place found, and the edges that meet there; undefined where it doesn't. Edges
 * that touch, or run along each other, don't cross.
 *
 * @param x - Longitudes, continuous, the last vertex again the first.
 * @remarks Edges are compared with those whose longitudes overlap: n log n for rings of short edges.
 */
export function ringCrossing(
  x: ArrayLike<number>,
  y: ArrayLike<number>,
): { readonly at: Position; readonly edges: readonly [number, number] } | undefined {
  const edges = x.length - 1;
  const west = (i: number) => Math.min(x[i], x[i + 1]);
  const order = Array.from({ length: edges }, (_, i) => i);
  // a handful needs no order
  if (edges > 16) order.sort((a, b) => west(a) - west(b));
  for (let k = 0; k < edges; k++) {
    const i = order[k];
    const east = Math.max(x[i], x[i + 1]);
    const south = Math.min(y[i], y[i + 1]);
    const north = Math.max(y[i], y[i + 1]);
    for (let l = k + 1; l < edges; l++) {
      const j = order[l];
      if (west(j) > east) {
        if (edges > 16) break;
        continue;
      }
      if (Math.max(y[j], y[j + 1]) < south || Math.min(y[j], y[j + 1]) > north) continue;
      const share = crossingShare(x, y, i, j);
      if (share === undefined) continue;
      const at = [x[i] + share * (x[i + 1] - x[i]), y[i] + share * (y[i + 1] - y[i])];
      return { at, edges: [Math.min(i, j), Math.max(i, j)] };
    }
  }
  return undefined;
}

/** Where edge `i` crosses edge `j`, as a share of it: both ends of each surely on two sides of the other. */
function crossingShare(x: ArrayLike<number>, y: ArrayLike<number>, i: number, j: number): number | undefined {
  const [ix, iy] = [x[i + 1] - x[i], y[i + 1] - y[i]];
  const [jx, jy] = [x[j + 1] - x[j], y[j + 1] - y[j]];
  const first = ix * (y[j] - y[i]) - iy * (x[j] - x[i]);
  const second = ix * (y[j + 1] - y[i]) - iy * (x[j + 1] - x[i]);
  const least = TOUCH * Math.hypot(ix, iy);
  if (!(Math.min(first, second) < -least && Math.max(first, second) > least)) return undefined;
  const third = jx * (y[i] - y[j]) - jy * (x[i] - x[j]);
  const fourth = jx * (y[i + 1] - y[j]) - jy * (x[i + 1] - x[j]);
  const little = TOUCH * Math.hypot(jx, jy);
  if (!(Math.min(third, fourth) < -little && Math.max(third, fourth) > little)) return undefined;
  return third / (third - fourth);
}
