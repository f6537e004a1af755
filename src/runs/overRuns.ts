import type { Interval } from '../assess';
import { studentQuantile, studentWithin } from '../statistics';

/** A mean over runs and how sure it is; all but the mean null with one run. */
export interface RunSpread {
  readonly mean: number;
  readonly sd: number | null;
  readonly interval95: Interval | null;
  readonly pValue: number | null;
}

/** Mean over runs, each counting once, with Student's t from their spread; undefined with none. */
export function overRuns(values: readonly number[]): RunSpread | undefined {
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

/** Those of the runs' values that are known. */
export const known = (values: readonly (number | null)[]) => values.filter((value): value is number => value !== null);
