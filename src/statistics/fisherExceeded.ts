import { betaShare } from './betaShare';

/**
 * Probability of a ratio of two variances as large, were they the same: Fisher's F exceeded.
 *
 * @see Abramowitz & Stegun, Handbook of Mathematical Functions (1964), 26.6.2
 */
export function fisherExceeded(ratio: number, above: number, below: number): number {
  return betaShare(below / (below + above * ratio), below / 2, above / 2);
}
