import type { Interval } from './Interval';

/**
 * Limits of a share, `quantile` standard errors either way, from as many independent samples: never outside 0 to 1, and of
 * some length at 0 and 1 too.
 *
 * @see Wilson, Probable inference, J. Am. Stat. Assoc. 22 (1927) 209
 */
export function shareLimits(share: number, samples: number, quantile: number): Interval {
  const z2 = (quantile * quantile) / samples;
  const middle = (share + z2 / 2) / (1 + z2);
  const half = (Math.sqrt(z2) * Math.sqrt(share * (1 - share) + z2 / 4)) / (1 + z2);
  return [Math.max(0, middle - half), Math.min(1, middle + half)];
}
