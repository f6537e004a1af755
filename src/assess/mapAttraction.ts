import { jackknifeInterval } from '../statistics';
import type { MapAttraction } from './Assessment';

/** Blocks left out in turn; the slopes without them give the interval. */
const BLOCKS = 5;
/** Metres by which the decoy's offset must vary: a decoy at a steady distance looks like a steady bias. */
const LEAST_SPREAD = 1;
/** A decoy on the reference itself draws nowhere. */
const LEAST_OFFSET = 2;
/** Half an interval of more than this says nothing. */
const WIDEST = 0.5;
/** Attracted when surely above the first, not attracted when surely below the second. */
const ATTRACTED = 0.1;
const CLEAR = 0.4;

export const ATTRACTION_RULE = `Map attraction: the slope of the offsets on the decoy’s, its interval from leaving out each of ${BLOCKS} blocks in turn; attracted when the interval lies above ${ATTRACTED}, not attracted when below ${CLEAR}. It cannot be told where the decoy is never ${LEAST_OFFSET} m away or its distance varies by less than ${LEAST_SPREAD} m, nor with an interval of ± ${WIDEST} or more.`;

/**
 * Whether offsets follow those of a decoy line: the slope of one on the other, 0 for not at all, 1 for lying on it, with a
 * 95 % interval by leaving out contiguous blocks. Undefined where the decoy is not beside what was covered.
 *
 * A steady bias towards the decoy is no evidence: the slope counts only where the decoy comes nearer and goes away.
 */
export function mapAttraction(
  offset: Float64Array,
  decoy: Float64Array,
  width: Float64Array,
  first: number,
  end: number,
): MapAttraction | undefined {
  const bins: number[] = [];
  for (let k = first; k < end; k++) if (!Number.isNaN(offset[k]) && !Number.isNaN(decoy[k])) bins.push(k);
  if (bins.length < 2 * BLOCKS) return undefined;
  const whole = regress(bins, offset, decoy, width);
  let nearer = 0;
  let length = 0;
  let largest = 0;
  for (const k of bins) {
    length += width[k];
    largest = Math.max(largest, Math.abs(decoy[k]));
    if (Math.abs(offset[k] - decoy[k]) < Math.abs(offset[k])) nearer += width[k];
  }
  const about = {
    nearerShare: nearer / length,
    sdAboutDecoy: whole.sdAboutDecoy,
    sdAboutReference: whole.sdAboutReference,
  };
  const cannot = (reason: MapAttraction['reason'], message: string): MapAttraction => ({
    index: null,
    interval95: null,
    verdict: 'cannot tell',
    reason,
    message,
    ...about,
  });
  if (largest < LEAST_OFFSET)
    return cannot('decoy-too-near', `The decoy nowhere lies ${LEAST_OFFSET} m from the reference.`);
  if (!(whole.decoySpread >= LEAST_SPREAD))
    return cannot('steady-decoy', 'The decoy keeps a steady distance: a bias would look the same.');
  const slopes = Array.from({ length: BLOCKS }, (_, block) => {
    const begin = Math.floor((block * bins.length) / BLOCKS);
    const stop = Math.floor(((block + 1) * bins.length) / BLOCKS);
    return regress([...bins.slice(0, begin), ...bins.slice(stop)], offset, decoy, width).slope;
  });
  const [low, high] = jackknifeInterval(whole.slope, slopes);
  if (!Number.isFinite(high)) return cannot('one-place', 'The decoy’s distance varies in one place only.');
  const clamp = (value: number) => Math.min(1, Math.max(0, value));
  if (high - low > 2 * WIDEST) {
    return {
      ...cannot('noisy-offsets', 'The offsets vary too much of their own accord.'),
      interval95: [clamp(low), clamp(high)],
    };
  }
  const verdict = low > ATTRACTED ? 'attracted' : high < CLEAR ? 'not attracted' : 'cannot tell';
  return {
    index: clamp(whole.slope),
    interval95: [clamp(low), clamp(high)],
    verdict,
    reason: verdict === 'cannot tell' ? 'wide-interval' : null,
    message: verdict === 'cannot tell' ? 'The interval holds both no attraction and a clear one.' : null,
    ...about,
  };
}

function regress(bins: readonly number[], offset: Float64Array, decoy: Float64Array, width: Float64Array) {
  let w = 0;
  let n = 0;
  let c = 0;
  for (const k of bins) {
    w += width[k];
    n += width[k] * offset[k];
    c += width[k] * decoy[k];
  }
  n /= w;
  c /= w;
  let cc = 0;
  let nc = 0;
  let nn = 0;
  for (const k of bins) {
    cc += (width[k] * (decoy[k] - c) ** 2) / w;
    nc += (width[k] * (decoy[k] - c) * (offset[k] - n)) / w;
    nn += (width[k] * (offset[k] - n) ** 2) / w;
  }
  return {
    slope: nc / cc,
    decoySpread: Math.sqrt(cc),
    sdAboutReference: Math.sqrt(nn),
    sdAboutDecoy: Math.sqrt(Math.max(0, nn - 2 * nc + cc)),
  };
}
