import { MOST_KEPT } from './KeptStates';
import type { KnotStates } from './KnotStates';

/** States that weigh less than this share of another within reach go no further. */
const OUTWEIGHED = 1e-3;

/** Nor do any that weigh less than this share of the heaviest, less than it takes to get there from it at any time. */
export const HOPELESS = 1e-18;

/** Nor more states than so many, the heaviest, however many laps there are: half a dozen passes. */
const MOST = 96;

/** Where there are more, the share below which states are dropped is so many times larger, and again. */
const STRICTER = 100;

/** Where the heaviest state fits its fix worse than this, 4 standard deviations, the body may be on any other pass. */
const LOST = 0.01;

/**
 * Drops the states that no path worth a thought goes on from, and says of the knot which is the heaviest and whether it is
 * lost. A state is worth what the heaviest path into it weighs beside the heaviest of all, or what all into it do.
 *
 * @param within - Bins within which a state may outweigh another.
 */
export function pruneStates(states: KnotStates, within: number): void {
  const { bin, best, sum, fit, worth, queue, marked } = states;
  const { size } = states;
  let heaviest = 0;
  for (let j = 1; j < size; j++) if (best[j] > best[heaviest]) heaviest = j;
  states.heaviest = bin[heaviest];
  states.lost = fit[heaviest] < LOST;
  const top = best[heaviest];
  for (let j = 0; j < size; j++) worth[j] = Math.max(best[j] / top, sum[j]);
  let least = HOPELESS;
  let left = size;
  while (left > MOST) {
    left = 0;
    for (let j = 0; j < size; j++) if (worth[j] * fit[j] >= STRICTER * least) left++;
    // unless all weigh alike
    if (left > 0) least *= STRICTER;
  }
  for (let j = 0; j < size; j++) marked[j] = worth[j] * fit[j] < least ? 1 : 0;
  states.drop();
  // the heaviest within the window comes first in the queue, behind it those that will be once it has fallen behind
  let head = 0;
  let tail = 0;
  let next = 0;
  for (let j = 0; j < states.size; j++) {
    for (; next < states.size && bin[next] <= bin[j] + within; next++) {
      while (tail > head && worth[queue[tail - 1]] <= worth[next]) tail--;
      queue[tail++] = next;
    }
    while (bin[queue[head]] < bin[j] - within) head++;
    marked[j] = worth[j] < OUTWEIGHED * worth[queue[head]] ? 1 : 0;
  }
  states.drop();
  if (states.size > MOST_KEPT) states.size = MOST_KEPT;
}
