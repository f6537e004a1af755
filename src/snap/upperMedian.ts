import { select } from '../model';

/** The median of values, the upper of two in the middle; puts them in another order. NaN of none; none of them may be NaN. */
export function upperMedian(values: Float64Array): number {
  const middle = values.length >> 1;
  if (values.length > 0) select(values, middle);
  return values[middle] ?? Number.NaN;
}
