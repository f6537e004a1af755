import { quantileIn } from './quantileIn';

/**
 * The median of a column without NaN, which is put into another order; of an even number the middle of the two in the middle.
 * Linear in its size.
 */
export function medianOf(column: Float64Array): number {
  return quantileIn(column, 0.5);
}
