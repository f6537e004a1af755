import type { Curve } from './Curve';
import { type Farthest, farthest } from './farthest';
import { NearestEdge } from './NearestEdge';

/** Where either curve is farthest from the other, and on which of them that is: on `a` where both are equal. */
export function farthestOfBoth(a: Curve, b: Curve): Farthest & { readonly farther: 'a' | 'b' } {
  const there = farthest(a, new NearestEdge(b))!;
  const back = farthest(b, new NearestEdge(a), there.distance);
  return back ? { ...back, farther: 'b' } : { ...there, farther: 'a' };
}
