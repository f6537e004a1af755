import { differenceLimits, type TwoMeans } from './differenceLimits';
import { studentWithin } from './studentWithin';

/**
 * Probability of limits that exclude 0 as far out, were the means equal: agrees with {@link differenceLimits} at every level.
 *
 * @param widening - factor of the half widths, 1 or more
 */
export function differencePValue(means: TwoMeans, degrees: number, widening: number): number {
  const { first, second } = means;
  if (first === second) return 1;
  const excludes = (quantile: number) => {
    const [low, high] = differenceLimits(means, quantile);
    return first > second ? low > 0 : high < 0;
  };
  let low = 0;
  let high = 1;
  while (excludes(high)) {
    low = high;
    high *= 2;
    // nothing that varies: no chance at all
    if (high > 1e9) return 0;
  }
  for (let i = 0; i < 50; i++) {
    const middle = (low + high) / 2;
    if (excludes(middle)) low = middle;
    else high = middle;
  }
  return 1 - studentWithin(low / widening, degrees);
}
