import { medianOf } from './medianOf';

/**
 * 1.4826 × the median distance from the median: the standard deviation of a normal column, hardly moved by outliers.
 *
 * @param middle - the median, where it is known
 */
export function robustSd(values: ArrayLike<number>, middle = medianOf(Float64Array.from(values))): number {
  return 1.4826 * medianOf(Float64Array.from(values, (value) => Math.abs(value - middle)));
}
