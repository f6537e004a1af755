import type { Curve } from './Curve';

/**
 * For every edge the first that lies on it, vertex on vertex either way: itself where none before does. Undefined where no two
 * edges are alike.
 */
export function firstAlike({ vertices, edges, gap }: Curve): Int32Array | undefined {
  const { x, y, z } = vertices;
  // the same in both directions; edges that share it by chance are compared with the first of them only
  const key = new Float64Array(edges);
  for (let i = 0; i < edges; i++) key[i] = x[i] + x[i + 1] + 2 * (y[i] + y[i + 1]) + 4 * (z[i] + z[i + 1]);
  const isSame = (i: number, j: number) => x[i] === x[j] && y[i] === y[j] && z[i] === z[j];
  let alike: Int32Array | undefined;
  // the first with each key, found by its bits
  const bits = new Int32Array(key.buffer);
  const firsts = new Int32Array(2 ** Math.ceil(Math.log2(2 * edges))).fill(-1);
  const mask = firsts.length - 1;
  for (let edge = 0; edge < edges; edge++) {
    if (gap?.[edge] === 1) continue;
    const mixed = Math.imul(bits[2 * edge] ^ Math.imul(bits[2 * edge + 1], 0x85ebca6b), 0x9e3779b1);
    let at = (mixed ^ (mixed >>> 15)) & mask;
    while (firsts[at] >= 0 && key[firsts[at]] !== key[edge]) at = (at + 1) & mask;
    const first = firsts[at];
    if (first < 0) firsts[at] = edge;
    else if (
      (isSame(edge, first) && isSame(edge + 1, first + 1)) ||
      (isSame(edge, first + 1) && isSame(edge + 1, first))
    ) {
      alike ??= Int32Array.from({ length: edges }, (_, each) => each);
      alike[edge] = first;
    }
  }
  return alike;
}
