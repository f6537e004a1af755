/** Fewer are put in order by one another. */
const FEW = 16;

/**
 * Puts the value that comes at `place` in order there, none above it before, none below it behind; there is no NaN.
 *
 * @remarks O(n), and never worse than a sort
 * @see C. A. R. Hoare, Algorithm 65: FIND, Comm. ACM 4 (1961) 321
 */
export function select(column: Float32Array | Float64Array, place: number): void {
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
