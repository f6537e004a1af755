/** Fewer are put in order by one another. */
const FEW = 16;

/** Of more than so many a sample is taken, so large: its value nearest to the place, and a little beyond, cuts off most of them. */
const MANY = 600;
const SAMPLE = 31;
const BEYOND = 1.2;

/**
 * Puts the value that comes at `place` in order there, none above it before, none below it behind; there is no NaN.
 *
 * @remarks O(n), and never worse than a sort
 * @see C. A. R. Hoare, Algorithm 65: FIND, Comm. ACM 4 (1961) 321; Floyd, Rivest, Expected time bounds for selection, Comm. ACM 18
 * (1975) 165, for the sample
 */
export function select(column: Float64Array, place: number): void {
  let low = 0;
  let high = column.length - 1;
  const sample = new Float64Array(high - low > MANY ? SAMPLE : 0);
  // cut so often at bad places, the rest is sorted
  for (let cuts = 2 * Math.log2(column.length); high - low > FEW; cuts--) {
    if (cuts < 0) {
      column.subarray(low, high + 1).sort();
      return;
    }
    const pivot = high - low > MANY ? sampled(column, low, high, place, sample) : column[(low + high) >> 1];
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
  for (let i = low + 1; i <= high; i++) insert(column, column[i], low, i);
}

/** Puts a value in order before the end of what is in order. */
function insert(column: Float64Array, value: number, low: number, end: number): void {
  let k = end;
  for (; k > low && column[k - 1] > value; k--) column[k] = column[k - 1];
  column[k] = value;
}

/** Of a sample spread over all of them, as neighbours may be alike: the one at the place's share, or beyond it on the longer side. */
function sampled(column: Float64Array, low: number, high: number, place: number, sample: Float64Array): number {
  const apart = (high - low) / (SAMPLE - 1);
  for (let i = 0; i < SAMPLE; i++) insert(sample, column[low + Math.floor(i * apart)], 0, i);
  const at = (place - low) / apart;
  return sample[Math.round(2 * at < SAMPLE - 1 ? at + BEYOND : at - BEYOND)];
}
