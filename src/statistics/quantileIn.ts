import { select } from '../model';

/**
 * A quantile of a column that is neither empty nor has a NaN, linear between its values at (n − 1)p: type 7 of Hyndman and Fan.
 * The column is put into another order.
 *
 * @remarks O(n), and never worse than a sort
 */
export function quantileIn(column: Float64Array, p: number): number {
  const place = (column.length - 1) * p;
  const below = Math.floor(place);
  select(column, below);
  const value = column[below];
  if (below === place) return value;
  let above = Infinity;
  for (let i = below + 1; i < column.length; i++) if (column[i] < above) above = column[i];
  return value + (above - value) * (place - below);
}
