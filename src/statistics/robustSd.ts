import { medianOf } from './medianOf';

/**
 * 1.4826 × the median distance from the median: the standard deviation of a normal column, hardly moved by outliers.
 *
 * @param middle - the median, where it is known
 */
export function robustSd(values: ArrayLike<number>, middle = medianOf(Float64Array.from(values))): number {
  const apart = new Float64Array(values.length);
  for (let i = 0; i < apart.length; i++) apart[i] = Math.abs(values[i] - middle);
  return 1.4826 * medianOf(apart);
}
