import type { Interval } from './Interval';

/** Logarithm of more than any ratio of metres; with it squares of metres stay finite. */
export const FARTHEST_RATIO = 200;

/** Two means above 0 and the variances of their logarithms, to first order those of what they are off by as a share of them. */
export interface TwoMeans {
  readonly first: number;
  readonly second: number;
  readonly firstVariance: number;
  readonly secondVariance: number;
  /** Variance of the logarithm of their ratio: errors in common cancel by themselves. */
  readonly variance: number;
}

/**
 * The limits of the difference `first` − `second`, `quantile` standard deviations either way: those of the two means, which
 * are even on the scale of logarithms, brought back to metres and joined as variances recovered from limits.
 *
 * @see Zou, Toward using confidence intervals to compare correlations, Psychol. Methods 12 (2007) 399; Newcombe (1998)
 */
export function differenceLimits(means: TwoMeans, quantile: number): Interval {
  const { first, second, firstVariance, secondVariance, variance } = means;
  const a = Math.min(FARTHEST_RATIO, quantile * Math.sqrt(firstVariance));
  const b = Math.min(FARTHEST_RATIO, quantile * Math.sqrt(secondVariance));
  const below = { first: -first * Math.expm1(-a), second: -second * Math.expm1(-b) };
  const above = { first: first * Math.expm1(a), second: second * Math.expm1(b) };
  const both = 2 * Math.sqrt(firstVariance * secondVariance);
  const correlation = both > 0 ? Math.min(1, Math.max(-1, (firstVariance + secondVariance - variance) / both)) : 0;
  const joined = (x: number, y: number) => Math.sqrt(Math.max(0, x * x + y * y - 2 * correlation * x * y));
  const difference = first - second;
  return [difference - joined(below.first, above.second), difference + joined(above.first, below.second)];
}
