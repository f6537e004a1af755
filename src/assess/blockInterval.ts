import { studentQuantile, studentWithin } from './studentT';

/** A mean over consecutive bins and how sure it is. */
export interface BlockInterval {
  readonly mean: number;
  readonly low: number;
  readonly high: number;
  readonly standardError: number;
  readonly blocks: number;
  /** Probability of a mean as far from 0, were the true one 0. */
  readonly pValue: number;
}

/**
 * The mean of a column with its 95 % interval by means over contiguous blocks; undefined with too little to make blocks of.
 *
 * Neighbouring offsets are nearly the same number, so that an interval from their count is several times too short. The
 * means of a few long blocks are nearly independent; their spread, with Student's t, says how sure the whole mean is.
 *
 * @param values NaN where there is none
 * @param weights metres of each
 */
export function blockInterval(
  values: ArrayLike<number>,
  weights: ArrayLike<number>,
  blocks: number,
): BlockInterval | undefined {
  let total = 0;
  let sum = 0;
  let count = 0;
  for (let i = 0; i < values.length; i++) {
    if (Number.isNaN(values[i])) continue;
    total += weights[i];
    sum += weights[i] * values[i];
    count++;
  }
  if (count < 2 * blocks) return undefined;
  const mean = sum / total;
  const blockSum = new Float64Array(blocks);
  const blockTotal = new Float64Array(blocks);
  let done = 0;
  for (let i = 0; i < values.length; i++) {
    if (Number.isNaN(values[i])) continue;
    const block = Math.min(blocks - 1, Math.floor((blocks * (done + weights[i] / 2)) / total));
    blockSum[block] += weights[i] * values[i];
    blockTotal[block] += weights[i];
    done += weights[i];
  }
  let squares = 0;
  for (let b = 0; b < blocks; b++) {
    if (!(blockTotal[b] > 0)) return undefined;
    squares += (blockSum[b] / blockTotal[b] - mean) ** 2;
  }
  const standardError = Math.sqrt(squares / (blocks - 1) / blocks);
  const half = studentQuantile(0.95, blocks - 1) * standardError;
  return {
    mean,
    low: mean - half,
    high: mean + half,
    standardError,
    blocks,
    pValue: standardError > 0 ? 1 - studentWithin(mean / standardError, blocks - 1) : mean === 0 ? 1 : 0,
  };
}
