import type { Vertices } from './Vertices';

/**
 * The longest leash in metres of two walkers who hop from vertex to vertex, always to the nearest next pair: an upper bound
 * of both Fréchet distances.
 */
export function greedyWalk(a: Vertices, b: Vertices): number {
  let [i, j] = [0, 0];
  let longest = a.distance(0, b, 0);
  while (i < a.count - 1 || j < b.count - 1) {
    const [moreA, moreB] = [i < a.count - 1, j < b.count - 1];
    const both = moreA && moreB ? a.distance(i + 1, b, j + 1) : Infinity;
    const first = moreA ? a.distance(i + 1, b, j) : Infinity;
    const second = moreB ? a.distance(i, b, j + 1) : Infinity;
    const least = Math.min(both, first, second);
    if (least === both || least === first) i++;
    if (least === both || least !== first) j++;
    longest = Math.max(longest, least);
  }
  return longest;
}
