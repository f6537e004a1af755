import { bisectLeft, bisectRight } from 'd3-array';
import { Sum } from '../geodesy';

/** Values a step, more or less: few enough to be put in order, enough that there are few steps. */
const A_STEP = 4;

/**
 * Quantiles of sizes, 0 or more and not all of one weight, by type 7 on their effective number: see {@link offsetStatistics}.
 *
 * Sizes are weighed by steps between 0 and the largest; only those of the steps that a quantile falls into are put in order.
 *
 * @param total - sum of the weights
 * @param squares - and of their squares
 *
 * @remarks O(n), O(n log n) where nearly all sizes lie in few of the steps
 */
export function weightedQuantiles(
  sizes: Float64Array,
  weights: Float64Array,
  { total, squares, largest }: { readonly total: number; readonly squares: number; readonly largest: number },
  shares: readonly number[],
): number[] {
  const steps = Math.ceil(sizes.length / A_STEP);
  const scale = steps / largest;
  // 0 of 0 is no number, which is step 0 too
  const stepOf = (size: number) => Math.min(steps - 1, size * scale) | 0;
  /** Weight up to the end of each step. */
  const reached = new Float64Array(steps);
  for (let i = 0; i < sizes.length; i++) reached[stepOf(sizes[i])] += weights[i];
  let weight = 0;
  let lost = 0;
  for (let step = 0; step < steps; step++) {
    const term = reached[step];
    const next = weight + term;
    lost += weight >= term ? weight - next + term : term - next + weight;
    weight = next;
    reached[step] = weight + lost;
  }
  // in units of weight: the window of the quantile function that is averaged, total / n* wide
  const width = squares / total;
  const windows = shares.map((p) => {
    const from = (total - width) * p;
    const first = Math.min(steps - 1, bisectRight(reached, from));
    const last = Math.min(steps - 1, bisectLeft(reached, from + width));
    return { from, first, last, among: [] as number[] };
  });
  /** 1 where a step lies in any of the windows. */
  const asked = new Uint8Array(steps);
  for (const { first, last } of windows) asked.fill(1, first, last + 1);
  for (let i = 0; i < sizes.length; i++) {
    const step = stepOf(sizes[i]);
    if (asked[step] === 0) continue;
    for (const { first, last, among } of windows) if (step >= first && step <= last) among.push(i);
  }
  return windows.map(({ from, first, among }) => {
    among.sort((a, b) => sizes[a] - sizes[b]);
    let begin = first === 0 ? 0 : reached[first - 1];
    const sum = new Sum();
    const covered = new Sum();
    for (const i of among) {
      const end = begin + weights[i];
      const share = Math.min(end, from + width) - Math.max(begin, from);
      begin = end;
      if (!(share > 0)) continue;
      sum.add(share * sizes[i]);
      covered.add(share);
    }
    return sum.value / covered.value;
  });
}
