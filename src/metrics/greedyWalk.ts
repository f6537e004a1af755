import type { Vertices } from '../index';

/** The longest leash of a walk: its square, and the pair of vertices that it held together. */
export interface GreedyWalk {
  readonly squared: number;
  readonly i: number;
  readonly j: number;
}

/**
 * Two walkers who hop from vertex to vertex, always to the nearest next pair: their longest leash is an upper bound of both
 * Fréchet distances.
 */
export function greedyWalk(a: Vertices, b: Vertices): GreedyWalk {
  let [i, j] = [0, 0];
  let longest = { squared: a.squaredDistance(0, b, 0), i, j };
  while (i < a.count - 1 || j < b.count - 1) {
    const [moreA, moreB] = [i < a.count - 1, j < b.count - 1];
    const both = moreA && moreB ? a.squaredDistance(i + 1, b, j + 1) : Infinity;
    const first = moreA ? a.squaredDistance(i + 1, b, j) : Infinity;
    const second = moreB ? a.squaredDistance(i, b, j + 1) : Infinity;
    const least = Math.min(both, first, second);
    if (least === both || least === first) i++;
    if (least === both || least !== first) j++;
    if (least > longest.squared) longest = { squared: least, i, j };
  }
  return longest;
}
