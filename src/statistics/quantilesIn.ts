import { select } from '../model';

/**
 * Quantiles of a column that is neither empty nor has a NaN, linear between its values at (n − 1)p: type 7 of Hyndman and Fan.
 * The column is put into another order.
 *
 * @param shares - the p, ascending
 *
 * @remarks O(n), and never worse than a sort
 */
export function quantilesIn(column: Float64Array, shares: readonly number[]): number[] {
  // as those of the seconds from fix to fix often are
  let alike = 1;
  while (column[alike] === column[0]) alike++;
  if (alike === column.length) return shares.map(() => column[0]);
  let from = 0;
  return shares.map((p) => {
    const place = (column.length - 1) * p;
    const below = Math.floor(place);
    // nothing above the one before lies before it
    select(column.subarray(from), below - from);
    from = below;
    const value = column[below];
    if (below === place) return value;
    let above = Infinity;
    for (let i = below + 1; i < column.length; i++) if (column[i] < above) above = column[i];
    return value + (above - value) * (place - below);
  });
}
