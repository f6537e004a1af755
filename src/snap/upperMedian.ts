import { quickselect } from 'd3-array';

/** The median of values, the upper of two in the middle; puts them in another order. NaN of none. */
export function upperMedian(values: Float32Array | Float64Array): number {
  const middle = values.length >> 1;
  return quickselect(values, middle)[middle] ?? Number.NaN;
}
