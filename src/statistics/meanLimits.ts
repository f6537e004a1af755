import { FARTHEST_RATIO } from './differenceLimits';
import type { Interval } from './Interval';

/**
 * Limits of a mean above 0 whose scatter grows with it, even on the scale of logarithms: mean ÷ and × e^(`quantile` √variance).
 *
 * @param variance of the mean, in the square of its unit
 */
export function meanLimits(mean: number, variance: number, quantile: number): Interval {
  if (!(mean > 0)) return [0, 0];
  const factor = Math.exp(Math.min(FARTHEST_RATIO, (quantile * Math.sqrt(variance)) / mean));
  return [mean / factor, mean * factor];
}
