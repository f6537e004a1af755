import { quantileSorted } from 'd3-array';

/** 1.4826 × the median distance from the median: the standard deviation of a normal column, hardly moved by outliers. */
export function robustSd(values: readonly number[]): number {
  const median = (column: Float64Array) => quantileSorted(Array.from(column.sort()), 0.5)!;
  const middle = median(new Float64Array(values));
  return 1.4826 * median(Float64Array.from(values, (value) => Math.abs(value - middle)));
}
