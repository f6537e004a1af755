import type { KnotStates } from './KnotStates';

/** States that weigh less than this share of the heaviest go no further: it is less than it takes to get there at any time. */
export const HOPELESS = 1e-18;

/** Nor do more states than so many, the heaviest, however many laps there are: half a dozen passes. */
export const MOST = 96;

/** Where there are more, the share below which states are dropped is a hundred times larger, and again. */
const SHARES = [HOPELESS, 1e-16, 1e-14, 1e-12, 1e-10, 1e-8, 1e-6, 1e-4, 1e-2];

/**
 * Drops the states from which no path worth a thought goes on, before their fix is weighed: a state is worth what the heaviest
 * path into it weighs beside the heaviest of all, or what all into it do, and as much as it fits.
 *
 * @param topBest - The most that `best` is of any state, and `topSum` of `sum`.
 */
export function dropHopeless(states: KnotStates, topBest: number, topSum: number): void {
  const { size, best, sum, fit, worth, marked } = states;
  let top = 0;
  for (let j = 0; j < size; j++) {
    worth[j] = Math.max(best[j] / topBest, sum[j] / topSum) * fit[j];
    if (worth[j] > top) top = worth[j];
  }
  let least = HOPELESS * top;
  if (size > MOST) {
    // the least of the shares that leaves few enough, or the greatest
    for (let low = 0, high = SHARES.length - 1; low < high; ) {
      const middle = (low + high) >> 1;
      least = SHARES[middle] * top;
      let left = 0;
      for (let j = 0; j < size; j++) if (worth[j] >= least) left++;
      if (left > MOST) low = middle + 1;
      else high = middle;
      least = SHARES[low] * top;
    }
  }
  for (let j = 0; j < size; j++) marked[j] = worth[j] < least ? 1 : 0;
  states.drop();
}
