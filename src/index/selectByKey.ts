/**
 * Puts at `place` the entry that would be there were those from `first` to `last` in the order of their keys: no greater key
 * before it, no less behind it.
 *
 * @remarks O(n), and never worse than a sort
 * @see C. A. R. Hoare, Algorithm 65: FIND, Comm. ACM 4 (1961) 321
 */
export function selectByKey(order: Int32Array, keys: Float64Array, first: number, last: number, place: number): void {
  let low = first;
  let high = last;
  // cut so often at bad places, the rest is sorted
  for (let cuts = 2 * Math.log2(last - first + 1); low < high; cuts--) {
    if (cuts < 0) {
      order.subarray(low, high + 1).sort((a, b) => keys[a] - keys[b]);
      return;
    }
    const [a, b, c] = [keys[order[low]], keys[order[(low + high) >> 1]], keys[order[high]]];
    const pivot = Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
    let i = low;
    let j = high;
    while (i <= j) {
      while (keys[order[i]] < pivot) i++;
      while (keys[order[j]] > pivot) j--;
      if (i > j) break;
      const held = order[i];
      order[i++] = order[j];
      order[j--] = held;
    }
    if (place <= j) high = j;
    else if (place >= i) low = i;
    else return;
  }
}
