import type { Interval } from './Interval';
import { studentQuantile } from './studentQuantile';
import { studentWithin } from './studentWithin';

/** A mean of independent values and how sure it is; all but the mean null with one value. */
export interface StudentInterval {
  readonly mean: number;
  /** Sample standard deviation (n − 1). */
  readonly sd: number | null;
  readonly interval95: Interval | null;
  /** Probability of a mean as far from 0, were the true one 0. */
  readonly pValue: number | null;
}

/** The mean of independent values, each counting once, with Student's t from their spread; undefined without any. */
export function studentInterval(values: readonly number[]): StudentInterval | undefined {
  const n = values.length;
  if (n === 0) return undefined;
  const mean = values.reduce((sum, value) => sum + value / n, 0);
  if (n === 1) return { mean, sd: null, interval95: null, pValue: null };
  const sd = Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (n - 1));
  const error = sd / Math.sqrt(n);
  const half = studentQuantile(0.95, n - 1) * error;
  return {
    mean,
    sd,
    interval95: [mean - half, mean + half],
    pValue: error > 0 ? 1 - studentWithin(mean / error, n - 1) : mean === 0 ? 1 : 0,
  };
}
