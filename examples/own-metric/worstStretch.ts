/** What {@link worstStretch} found. */
export interface WorstStretch {
  /** Metres along the route where each window begins, one a metre. */
  readonly from: Float64Array;
  /** Mean distance from the route over each window, metres; NaN where less than half of it was recorded. */
  readonly mean: Float64Array;
  /** Where the worst begins, and how far off it is; NaN where no window counts. */
  readonly at: number;
  readonly worst: number;
}

/**
 * A metric of our own: the worst `window` metres of a recording. Each metre of the route counts once, however long was
 * spent on it: the line between two fixes is carried over the metres between them, unless a gap lies there.
 *
 * @param alongTrack - metres along the route of each fix, NaN where it is not on it: a column of `snap`
 * @param crossTrack - metres from the route of each fix
 * @param gapBefore - 1 where the line to the fix before is not to be trusted: a column of the recording
 */
export function worstStretch(
  alongTrack: ArrayLike<number>,
  crossTrack: ArrayLike<number>,
  gapBefore: ArrayLike<number>,
  { length, window }: { readonly length: number; readonly window: number },
): WorstStretch {
  // one bin a metre: sum and count of the distances at its middle
  const bins = Math.floor(length);
  const sum = new Float64Array(bins);
  const count = new Float64Array(bins);
  for (let i = 1; i < alongTrack.length; i++) {
    const [a, b] = [alongTrack[i - 1], alongTrack[i]];
    // forward steps only; NaN fails the comparison, so that fixes off the route carry nothing
    if (gapBefore[i] || !(b > a)) continue;
    for (let bin = Math.max(0, Math.ceil(a - 0.5)); bin + 0.5 < b && bin < bins; bin++) {
      const share = (bin + 0.5 - a) / (b - a);
      sum[bin] += Math.abs(crossTrack[i - 1] + share * (crossTrack[i] - crossTrack[i - 1]));
      count[bin]++;
    }
  }

  const windows = Math.max(0, bins - window + 1);
  const from = Float64Array.from({ length: windows }, (_, i) => i);
  const mean = new Float64Array(windows).fill(Number.NaN);
  let total = 0;
  let covered = 0;
  let at = Number.NaN;
  let worst = Number.NaN;
  for (let bin = 0; bin < bins; bin++) {
    if (count[bin]) {
      total += sum[bin] / count[bin];
      covered++;
    }
    const first = bin - window + 1;
    if (first > 0 && count[first - 1]) {
      total -= sum[first - 1] / count[first - 1];
      covered--;
    }
    if (first < 0 || covered < window / 2) continue;
    mean[first] = total / covered;
    if (!(mean[first] <= worst)) [at, worst] = [first, mean[first]];
  }
  return { from, mean, at, worst };
}
