import { Vertices } from '../index';
import { Curve } from './Curve';
import { firstAlike } from './firstAlike';

/**
 * The curve less every edge that lies on an earlier one, vertex on vertex either way: the same set of places, for a line that
 * comes back over itself. Itself where there is none.
 */
export function withoutRepeats(curve: Curve): Curve {
  const { vertices, edges, longest } = curve;
  const alike = firstAlike(curve);
  if (alike === undefined) return curve;
  const isKept = (edge: number) => edge >= 0 && edge < edges && alike[edge] === edge && curve.gap?.[edge] !== 1;
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
