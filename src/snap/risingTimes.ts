/**
 * 1 for each fix whose time is not later than those before it that are to be believed: the most fixes whose times rise.
 * Undefined where all rise; missing times are passed over.
 *
 * @see Fredman, On computing the length of longest increasing subsequences, Discrete Math. 11 (1975), doi:10.1016/0012-365X(75)90103-X
 */
export function risingTimes(time: ArrayLike<number>): Uint8Array | undefined {
  const n = time.length;
  let last = -Infinity;
  let rising = true;
  for (let i = 0; i < n && rising; i++) {
    if (!Number.isFinite(time[i])) continue;
    rising = time[i] > last;
    last = time[i];
  }
  if (rising) return undefined;
  /** The fix with the least time on which a sequence of each length ends, and the fix before each in its sequence. */
  const ends: number[] = [];
  const before = new Int32Array(n).fill(-1);
  const mistrusted = new Uint8Array(n);
  for (let i = 0; i < n; i++) {
    if (!Number.isFinite(time[i])) continue;
    mistrusted[i] = 1;
    let low = 0;
    for (let high = ends.length; low < high; ) {
      const middle = (low + high) >> 1;
      if (time[ends[middle]] < time[i]) low = middle + 1;
      else high = middle;
    }
    // of fixes that share a time the first has it
    if (low < ends.length && time[ends[low]] === time[i]) continue;
    before[i] = low > 0 ? ends[low - 1] : -1;
    ends[low] = i;
  }
  for (let i = ends[ends.length - 1]; i >= 0; i = before[i]) mistrusted[i] = 0;
  return mistrusted;
}
