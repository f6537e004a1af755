/** The values of a column that are above a bound, in a column of their own; NaN is not. */
export function valuesAbove(column: Float64Array, bound: number): Float64Array {
  const found = new Float64Array(column.length);
  let count = 0;
  for (let i = 0; i < column.length; i++) if (column[i] > bound) found[count++] = column[i];
  return found.subarray(0, count);
}
