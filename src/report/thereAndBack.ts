import type { Trace } from './Trace';

/** Along one line and back along another: the way round what lies between them. */
export function thereAndBack(out: Trace, back: Trace): Trace {
  const joined = (a: ArrayLike<number>, b: ArrayLike<number>) => [...Array.from(a), ...Array.from(b).reverse()];
  return { x: joined(out.x, back.x), y: joined(out.y, back.y) };
}
