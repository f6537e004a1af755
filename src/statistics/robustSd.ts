import { median } from 'd3-array';

/** 1.4826 × the median distance from the median: the standard deviation of a normal column, hardly moved by outliers. */
export function robustSd(values: readonly number[]): number {
  const middle = median(values)!;
  return 1.4826 * median(values, (value) => Math.abs(value - middle))!;
}
