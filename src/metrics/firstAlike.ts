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
  const inOrder = key.slice().sort();
  let k = 1;
  while (k < edges && inOrder[k] !== inOrder[k - 1]) k++;
  if (!(k < edges)) return undefined;
  const isSame = (i: number, j: number) => x[i] === x[j] && y[i] === y[j] && z[i] === z[j];
  const firsts = new Map<number, number>();
  const alike = new Int32Array(edges);
  for (let edge = 0; edge < edges; edge++) {
    alike[edge] = edge;
    if (gap?.[edge] === 1) continue;
    const first = firsts.get(key[edge]);
    if (first === undefined) firsts.set(key[edge], edge);
    else if (
      (isSame(edge, first) && isSame(edge + 1, first + 1)) ||
      (isSame(edge, first + 1) && isSame(edge + 1, first))
    ) {
      alike[edge] = first;
    }
  }
  return alike;
}
