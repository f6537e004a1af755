/** Fewer are put in order by one another. */
const FEW = 16;

/**
 * A quantile of a column that is neither empty nor has a NaN, linear between its values at (n − 1)p: type 7 of Hyndman and Fan.
 * The column is put into another order.
 *
 * @remarks O(n), and never worse than a sort
 * @see C. A. R. Hoare, Algorithm 65: FIND, Comm. ACM 4 (1961) 321
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

/** Puts the value that comes at `place` in order there, none above it before, none below it behind. */
function select(column: Float64Array, place: number): void {
  let low = 0;
  let high = column.length - 1;
  // cut so often at bad places, the rest is sorted
  for (let cuts = 2 * Math.log2(column.length); high - low > FEW; cuts--) {
    if (cuts < 0) {
      column.subarray(low, high + 1).sort();
      return;
    }
    const [a, b, c] = [column[low], column[(low + high) >> 1], column[high]];
    const pivot = Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
    let i = low;
    let j = high;
    while (i <= j) {
      while (column[i] < pivot) i++;
      while (column[j] > pivot) j--;
      if (i > j) break;
      const swapped = column[i];
      column[i++] = column[j];
      column[j--] = swapped;
    }
    if (place <= j) high = j;
    else if (place >= i) low = i;
    else return;
  }
  for (let i = low + 1; i <= high; i++) {
    const value = column[i];
    let k = i;
    for (; k > low && column[k - 1] > value; k--) column[k] = column[k - 1];
    column[k] = value;
  }
}
