import { Vertices } from '../index';
import { Curve } from './Curve';

/**
 * The curve less every edge that lies on an earlier one, vertex on vertex either way: the same set of places, for a line that
 * comes back over itself. Itself where there is none.
 */
export function withoutRepeats(curve: Curve): Curve {
  const { vertices, edges, longest } = curve;
  const repeated = repeatedEdges(curve);
  if (repeated === undefined) return curve;
  const isKept = (edge: number) => edge >= 0 && edge < edges && repeated[edge] !== 1 && curve.gap?.[edge] !== 1;
  let count = 0;
  for (let i = 0; i <= edges; i++) if (isKept(i - 1) || isKept(i)) count++;
  const kept = new Vertices(count);
  const gap = new Uint8Array(count);
  let at = 0;
  for (let i = 0; i <= edges; i++) {
    if (!isKept(i - 1) && !isKept(i)) continue;
    kept.copy(at, vertices, i);
    if (!isKept(i)) gap[at] = 1;
    at++;
  }
  return new Curve(kept, longest, gap);
}

/** 1 for every edge that lies on an earlier one; undefined where none does. */
function repeatedEdges({ vertices, edges, gap }: Curve): Uint8Array | undefined {
  const { x, y, z } = vertices;
  // the same in both directions; edges that share it by chance are compared with the first of them only
  const key = new Float64Array(edges);
  for (let i = 0; i < edges; i++) key[i] = x[i] + x[i + 1] + 2 * (y[i] + y[i + 1]) + 4 * (z[i] + z[i + 1]);
  const order = Int32Array.from(key.keys()).sort((i, j) => key[i] - key[j] || i - j);
  const isSame = (i: number, j: number) => x[i] === x[j] && y[i] === y[j] && z[i] === z[j];
  let repeated: Uint8Array | undefined;
  for (let k = 1, first = order[0]; k < edges; k++) {
    const edge = order[k];
    if (key[edge] !== key[first] || gap?.[first] === 1) {
      first = edge;
      continue;
    }
    if ((isSame(edge, first) && isSame(edge + 1, first + 1)) || (isSame(edge, first + 1) && isSame(edge + 1, first))) {
      repeated ??= new Uint8Array(edges);
      repeated[edge] = 1;
    }
  }
  return repeated;
}
