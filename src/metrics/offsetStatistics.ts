import { quantileSorted } from 'd3-array';
import { Sum } from '../geodesy';
import { checkColumn, checkLength, InputError } from '../model';
import { weightedQuantiles } from './weightedQuantiles';

/** Shares of what `median`, `p68`, `p90` and `p95` hold. */
const QUANTILES = [0.5, 0.68, 0.9, 0.95];

/** What {@link offsetStatistics} says of a column of offsets; all but `n` in the unit of the values. */
export interface OffsetStatistics {
  /** How many values had a weight above 0. */
  readonly n: number;
  /** Mean with its sign: the bias, to the right positive. */
  readonly mean: number;
  /** Mean of |value|. */
  readonly meanAbsolute: number;
  /** Half the values lie within this of 0: the 0.5 quantile of |value|. */
  readonly median: number;
  /** The 0.68 quantile of |value|: one-dimensional, near 1 sigma of an unbiased normal error. */
  readonly p68: number;
  /** The 0.90 quantile of |value|: one-dimensional, 1.645 sigma of an unbiased normal error. */
  readonly p90: number;
  /** The 0.95 quantile of |value|: one-dimensional, 1.96 sigma of an unbiased normal error; not a radius. */
  readonly p95: number;
  /** Root of the mean square about 0. */
  readonly rms: number;
  /** Sample standard deviation about the mean (n − 1); 0 for a single value. */
  readonly sd: number;
  /** The lowest value, with its sign: the farthest left. */
  readonly min: number;
  /** The highest value, with its sign: the farthest right. */
  readonly max: number;
}

/**
 * Statistics of signed offsets, in the unit of the values: sizes (`meanAbsolute`, `median`, `p68`, `p90`, `p95`, `rms`)
 * are taken of |value|, sides (`mean`, `sd`, `min`, `max`) of the values as they are.
 *
 * The quantiles are **one-dimensional**: `p95` of |cross-track| is 1.96 sigma of an unbiased normal error, while the
 * radius that holds 95 % of the positions is 2.4477 sigma: that is `ce95` of {@link circularError}.
 *
 * @param values - offsets; none may be NaN: leave out the fixes that are not on the route
 * @param weights - one for each value, 0 or more, not all 0, on any scale; metres of route for distance-weighted numbers
 *
 * @example
 * offsetStatistics([1, -2, 3, -4]) // → { n: 4, mean: -0.5, meanAbsolute: 2.5, median: 2.5, rms: 2.7386…, min: -4, max: 3 }
 * offsetStatistics([12, 4], [1, 3]).meanAbsolute // → 6
 * offsetStatistics([]) // throws too-few: values must be at least 1 number
 *
 * @throws {InputError} no value, a NaN, a number beyond ±1e90, a negative weight, or weights that don't fit
 * @remarks Without weights, or with equal ones, quantiles are linear between the values at (n − 1)p (type 7 of
 * Hyndman and Fan). With weights the same definition is kept on the effective size
 * n* = (Σw)²/Σw²: the mean of the weighted quantile function over the window of width 1/n* that starts at
 * (n* − 1)p/n*; equal weights give type 7 again. `sd` divides by Σw − Σw²/Σw, which is n − 1 for equal weights.
 * Sums are compensated. O(n log n).
 * @see Hyndman, Fan, Sample quantiles in statistical packages, Am. Stat. 50 (1996), doi:10.1080/00031305.1996.10473566
 * @see Akinshin, Weighted quantile estimators (2023), arXiv:2304.07265, type 7
 */
export function offsetStatistics(values: ArrayLike<number>, weights?: ArrayLike<number>): OffsetStatistics {
  checkColumn(values, 'values');
  if (weights !== undefined) {
    checkColumn(weights, 'weights');
    checkLength(weights, 'weights', values.length, 'values');
  }
  // by a power of two nothing is rounded, and weights as small as numbers get don't vanish when squared
  let heaviest = 0;
  for (let i = 0; weights !== undefined && i < weights.length; i++) heaviest = Math.max(heaviest, weights[i]);
  const scale = heaviest > 0 ? 2 ** Math.floor(Math.log2(heaviest)) : 1;
  /** Those that weigh something, and their weights. */
  const kept = new Float64Array(values.length);
  const heavy = new Float64Array(values.length);
  let n = 0;
  let equal = true;
  let min = Infinity;
  let max = -Infinity;
  for (let i = 0; i < values.length; i++) {
    const weight = weights === undefined ? 1 : weights[i] / scale;
    if (weight < 0) {
      const value = weights![i];
      throw new InputError({ reason: 'out-of-range', argument: `weights[${i}]`, rule: '0 or more', value });
    }
    if (weight === 0) continue;
    const value = values[i];
    if (n > 0 && weight !== heavy[0]) equal = false;
    kept[n] = value;
    heavy[n++] = weight;
    min = Math.min(min, value);
    max = Math.max(max, value);
  }
  if (n === 0) {
    throw new InputError({ reason: 'too-few', argument: 'weights', rule: 'above 0 at least once', value: weights });
  }
  const [sum, sumSquares, ofValues, ofSquares, ofSizes] = [new Sum(), new Sum(), new Sum(), new Sum(), new Sum()];
  for (let i = 0; i < n; i++) {
    const weight = heavy[i];
    const weighed = weight * kept[i];
    sum.add(weight);
    sumSquares.add(weight * weight);
    ofValues.add(weighed);
    ofSquares.add(weighed * kept[i]);
    ofSizes.add(Math.abs(weighed));
  }
  const total = sum.value;
  const squares = sumSquares.value;
  const mean = ofValues.value / total;
  const spread = new Sum();
  const sizes = kept.subarray(0, n);
  for (let i = 0; i < n; i++) {
    spread.add(heavy[i] * (sizes[i] - mean) ** 2);
    sizes[i] = Math.abs(sizes[i]);
  }
  // 0 where one value carries all the weight
  const free = total - squares / total;
  const quantiles = () => {
    if (equal) {
      const sorted = Array.from(sizes.sort());
      return QUANTILES.map((p) => quantileSorted(sorted, p)!);
    }
    return weightedQuantiles(sizes, heavy, { total, squares, largest: Math.max(-min, max) }, QUANTILES);
  };
  const [median, p68, p90, p95] = quantiles();
  return {
    n,
    mean,
    meanAbsolute: ofSizes.value / total,
    median,
    p68,
    p90,
    p95,
    rms: Math.sqrt(ofSquares.value / total),
    sd: free > 0 ? Math.sqrt(spread.value / free) : 0,
    min,
    max,
  };
}
