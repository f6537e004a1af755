import { MOST_KEPT } from './KeptStates';
import type { KnotStates } from './KnotStates';

/** States that weigh less than this share of another within reach go no further. */
const OUTWEIGHED = 1e-2;

/** Where the heaviest state fits its fix worse than this, 4 standard deviations, the body may be on any other pass. */
const LOST = 0.01;

/**
 * Drops the states that others nearby outweigh, and says of the knot which is the heaviest and whether it is lost. A state is
 * worth what the heaviest path into it weighs beside the heaviest of all, or what all into it do.
 *
 * @param heaviest - The state that the heaviest path leads to.
 * @param within - Bins within which a state may outweigh another.
 * @param all - What all paths into the state weigh that most lead to.
 */
export function pruneStates(states: KnotStates, heaviest: number, within: number, all: number): void {
  const { size, bin, best, sum, fit, worth, queue, marked } = states;
  states.heaviest = bin[heaviest];
  states.lost = fit[heaviest] < LOST;
  const top = best[heaviest];
  for (let j = 0; j < size; j++) worth[j] = Math.max(best[j] / top, sum[j] / all);
  // the heaviest within the window comes first in the queue, behind it those that will be once it has fallen behind
  let head = 0;
  let tail = 0;
  let next = 0;
  for (let j = 0; j < size; j++) {
    for (; next < size && bin[next] <= bin[j] + within; next++) {
      while (tail > head && worth[queue[tail - 1]] <= worth[next]) tail--;
      queue[tail++] = next;
    }
    while (bin[queue[head]] < bin[j] - within) head++;
    marked[j] = worth[j] < OUTWEIGHED * worth[queue[head]] ? 1 : 0;
  }
  states.drop();
  if (states.size > MOST_KEPT) states.size = MOST_KEPT;
}
