import { quickselect } from 'd3-array';

/**
 * The median of a column without NaN, which is put into another order; of an even number the middle of the two in the middle.
 * Linear in its size.
 */
export function medianOf(column: Float64Array): number {
  const place = (column.length - 1) / 2;
  const below = Math.floor(place);
  quickselect(column, below);
  if (below === place) return column[below];
  let above = Infinity;
  for (let i = below + 1; i < column.length; i++) if (column[i] < above) above = column[i];
  return column[below] + (above - column[below]) * 0.5;
}
