/** The median of values, the upper of two in the middle; sorts them. NaN of none. */
export function upperMedian(values: Float32Array | Float64Array): number {
  return values.sort()[values.length >> 1] ?? Number.NaN;
}
