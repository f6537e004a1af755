import type { Position } from 'geojson';

/** Degrees, a tenth of a millimetre: edges that cross by less only touch. */
const TOUCH = 1e-9;

/** Up to so many edges each is compared with each. */
const FEW = 12;

/** A place at which a ring crosses itself, and the edges that do. */
interface RingCrossing {
  readonly at: Position;
  readonly edges: readonly [number, number];
}

/**
 * Where a closed ring crosses itself: the first place found, and the edges that meet there; undefined where it doesn't. Edges
 * that touch, or run along each other, don't cross.
 *
 * @param x - Longitudes, continuous, the last vertex again the first.
 * @remarks Edges are compared with those whose longitudes overlap: n log n for rings of short edges.
 */
export function ringCrossing(x: ArrayLike<number>, y: ArrayLike<number>): RingCrossing | undefined {
  const edges = x.length - 1;
  if (edges <= FEW) {
    for (let i = 0; i < edges; i++) {
      for (let j = i + 2; j < edges; j++) {
        const share = crossingShare(x, y, i, j);
        if (share !== undefined) return crossing(x, y, i, j, share);
      }
    }
    return undefined;
  }
  const west = Float64Array.from({ length: edges }, (_, i) => Math.min(x[i], x[i + 1]));
  const order = Int32Array.from({ length: edges }, (_, i) => i).sort((a, b) => west[a] - west[b]);
  for (let k = 0; k < edges; k++) {
    const i = order[k];
    const east = Math.max(x[i], x[i + 1]);
    const south = Math.min(y[i], y[i + 1]);
    const north = Math.max(y[i], y[i + 1]);
    for (let l = k + 1; l < edges && west[order[l]] <= east; l++) {
      const j = order[l];
      if (Math.max(y[j], y[j + 1]) < south || Math.min(y[j], y[j + 1]) > north) continue;
      const share = crossingShare(x, y, i, j);
      if (share !== undefined) return crossing(x, y, i, j, share);
    }
  }
  return undefined;
}

function crossing(x: ArrayLike<number>, y: ArrayLike<number>, i: number, j: number, share: number): RingCrossing {
  const at = [x[i] + share * (x[i + 1] - x[i]), y[i] + share * (y[i + 1] - y[i])];
  return { at, edges: [Math.min(i, j), Math.max(i, j)] };
}

/** Where edge `i` crosses edge `j`, as a share of it: both ends of each surely on two sides of the other. */
function crossingShare(x: ArrayLike<number>, y: ArrayLike<number>, i: number, j: number): number | undefined {
  const ix = x[i + 1] - x[i];
  const iy = y[i + 1] - y[i];
  const first = ix * (y[j] - y[i]) - iy * (x[j] - x[i]);
  const second = ix * (y[j + 1] - y[i]) - iy * (x[j + 1] - x[i]);
  if (first * second >= 0) return undefined;
  const jx = x[j + 1] - x[j];
  const jy = y[j + 1] - y[j];
  const third = jx * (y[i] - y[j]) - jy * (x[i] - x[j]);
  const fourth = jx * (y[i + 1] - y[j]) - jy * (x[i + 1] - x[j]);
  if (third * fourth >= 0) return undefined;
  const least = TOUCH * Math.hypot(ix, iy);
  const little = TOUCH * Math.hypot(jx, jy);
  if (Math.min(Math.abs(first), Math.abs(second)) <= least) return undefined;
  return Math.min(Math.abs(third), Math.abs(fourth)) <= little ? undefined : third / (third - fourth);
}
