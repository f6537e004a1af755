import type { KnotStates } from './KnotStates';

/** States that weigh less than this share of the heaviest go no further: it is less than it takes to get there at any time. */
export const HOPELESS = 1e-18;

/** Nor do more states than so many, the heaviest, however many laps there are: half a dozen passes. */
const MOST = 96;

/** Where there are more, the share below which states are dropped is so many times larger, and again, up to this one. */
const STRICTER = 100;
const ALIKE = 0.1;

/**
 * Drops the states from which no path worth a thought goes on, before their fix is weighed: a state is worth what the heaviest
 * path into it weighs beside the heaviest of all, or what all into it do, and as much as it fits.
 */
export function dropHopeless(states: KnotStates): void {
  const { size, best, sum, fit, worth, marked } = states;
  let topBest = 0;
  let topSum = 0;
  for (let j = 0; j < size; j++) {
    if (best[j] > topBest) topBest = best[j];
    if (sum[j] > topSum) topSum = sum[j];
  }
  let top = 0;
  for (let j = 0; j < size; j++) {
    worth[j] = Math.max(best[j] / topBest, sum[j] / topSum) * fit[j];
    if (worth[j] > top) top = worth[j];
  }
  let least = HOPELESS * top;
  let left = 0;
  for (let j = 0; j < size; j++) if (worth[j] >= least) left++;
  while (left > MOST && STRICTER * least < ALIKE * top) {
    least *= STRICTER;
    left = 0;
    for (let j = 0; j < size; j++) if (worth[j] >= least) left++;
  }
  for (let j = 0; j < size; j++) marked[j] = worth[j] < least ? 1 : 0;
  states.drop();
}
