import { quantilesIn } from '../statistics';

/** Of a column that is neither empty nor has a NaN, which is put into another order. */
export function medianAndP95(column: Float64Array): { readonly median: number; readonly p95: number } {
  const [median, p95] = quantilesIn(column, [0.5, 0.95]);
  return { median, p95 };
}
