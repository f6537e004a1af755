import { studentQuantile } from './studentQuantile';

/** What a test of a ratio of two means rests on. */
export interface RatioTest {
  /** Variance of the logarithm of the ratio, as the test takes it. */
  readonly variance: number;
  /** What it truly is, where the test is known to take it for more. */
  readonly scatter: number;
  readonly degrees: number;
  /** Factor of the half width. */
  readonly widening: number;
  /** Two-sided p-value up to which a difference is claimed. */
  readonly level: number;
}

/** The standard normal number exceeded one time in five. */
const Z80 = 0.8416212;

/**
 * The logarithm of the smallest true ratio that the test finds four times in five.
 *
 * @see Abramowitz & Stegun, Handbook of Mathematical Functions (1964), 26.7.10: the normal approximation to non-central t
 */
export function detectableRatio({ variance, scatter, degrees, widening, level }: RatioTest): number {
  const limit = studentQuantile(1 - level, degrees) * widening;
  return (
    Math.sqrt(variance) * limit * (1 - 1 / (4 * degrees)) +
    Z80 * Math.sqrt(scatter + (variance * limit ** 2) / (2 * degrees))
  );
}
