/** The median of values, the upper of two in the middle; puts them in another order. NaN of none; none of them may be NaN. */
export function upperMedian(values: Float32Array | Float64Array): number {
  const middle = values.length >> 1;
  // Hoare's selection: what is certainly less than the one in the middle goes before it, what is greater behind it
  for (let low = 0, high = values.length - 1; low < high; ) {
    const pivot = values[(low + high) >> 1];
    let i = low;
    let j = high;
    while (i <= j) {
      while (values[i] < pivot) i++;
      while (values[j] > pivot) j--;
      if (i > j) break;
      const value = values[i];
      values[i++] = values[j];
      values[j--] = value;
    }
    if (middle <= j) high = j;
    else if (middle >= i) low = i;
    else break;
  }
  return values[middle] ?? Number.NaN;
}
