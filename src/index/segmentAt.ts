/** The last segment that starts at or before a place: guessed from even spacing, then bracketed and halved. */
export function segmentAt(alongTrack: Float64Array, at: number): number {
  const end = alongTrack.length - 1;
  let low = Math.min(Math.max(Math.floor((at / alongTrack[end]) * end) || 0, 0), end - 1);
  let high = low + 1;
  for (let stride = 1; low > 0 && alongTrack[low] > at; stride *= 2) {
    high = low;
    low = Math.max(low - stride, 0);
  }
  for (let stride = 1; high < end && alongTrack[high] <= at; stride *= 2) {
    low = high;
    high = Math.min(high + stride, end);
  }
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (alongTrack[middle] <= at) low = middle;
    else high = middle;
  }
  return low;
}
