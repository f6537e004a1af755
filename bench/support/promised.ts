import type { BenchRow } from './Bench';
import { showTime } from './showTime';

/** A peer’s time here in this run and, in the same unit, there where the promise was made. */
export interface Yardstick {
  readonly here: number;
  readonly there: number;
}

/**
 * The cells `ours`, `promise` and `held` of a time in milliseconds that should be `most` at the most.
 *
 * A promise in plain milliseconds is one about a machine. Where a peer was measured beside the promise, the yardstick
 * says how much slower this machine is, and the promise may hold as a ratio.
 */
export function promised(
  ours: number,
  most: number,
  yardstick?: Yardstick,
): Required<Pick<BenchRow, 'ours' | 'promise' | 'held'>> {
  const slower = yardstick ? yardstick.here / yardstick.there : 1;
  const held = ours <= most || (ours <= most * slower && 'as a ratio');
  const beside = yardstick ? `, a peer there ${showTime(yardstick.there)}` : '';
  return { ours: showTime(ours), promise: `≤ ${showTime(most)}${beside}`, held };
}
