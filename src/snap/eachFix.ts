import type { FixTrack } from './FixTrack';

/** Calls with every fix, the knots around it, and what share of the time between them has passed. */
export function eachFix(
  { clock, count }: FixTrack,
  knots: Int32Array,
  call: (fix: number, knot: number, next: number, share: number) => void,
): void {
  const last = knots.length - 1;
  let knot = 0;
  for (let i = 0; i < count; i++) {
    while (knot < last && knots[knot + 1] <= i) knot++;
    const next = Math.min(knot + 1, last);
    const begun = clock[knots[knot]];
    const span = clock[knots[next]] - begun;
    call(i, knot, next, i > knots[knot] && span > 0 ? (clock[i] - begun) / span : 0);
  }
}
