import { MEAN_RADIUS, RADIAN } from '../geodesy';
import { select } from '../model';
import type { IssueLog } from './IssueLog';

/** A pause shorter than this many seconds is ordinary for a receiver that saves points when it sees fit. */
const LEAST_GAP = 10;
/** Metres a second that a runner does not reach; faster travellers raise it by their own pace. */
const LEAST_JUMP = 12;
/** 1 000 knots: the speed above which receivers sold to the public stop working. Common practice, no source. */
const FASTEST = 515;
/** A gap is so many usual intervals, a jump so many usual speeds. */
const TIMES_USUAL = 5;
/** Below this many metres a second a receiver stands. */
const STANDING = 0.3;
/** A receiver in motion does not give one position so many times. */
const FROZEN = 10;

/**
 * Marks in `gapBefore` where a recording with times breaks off: no fix for longer than 10 s and 5 usual intervals, or a
 * jump faster than 12 m/s and 5 usual speeds, or than 515 m/s at all. Usual is the median over the whole recording, breaks or not, so that a
 * recording written out and read back breaks at the same places.
 *
 * @remarks Distances on a sphere: 0.6 % is nothing to a factor of 5.
 */
export function findBreaks(
  columns: { lon: Float64Array; lat: Float64Array; time: Float64Array; gapBefore: Uint8Array },
  issues: IssueLog,
): void {
  const { lon, lat, time, gapBefore } = columns;
  const n = time.length;
  const interval = new Float64Array(n);
  const speed = new Float64Array(n);
  let frozen = 0;
  let cosine = Math.cos(lat[0] * RADIAN);
  for (let i = 1; i < n; i++) {
    interval[i] = (time[i] - time[i - 1]) / 1000;
    const before = cosine;
    cosine = Math.cos(lat[i] * RADIAN);
    const moved = sphereDistance(lat[i] - lat[i - 1], lon[i] - lon[i - 1], before * cosine);
    // times cut to whole seconds make an interval of 0 of anything below 1
    speed[i] = interval[i] >= 0 ? moved / (interval[i] || 1) : Number.NaN;
    frozen = moved === 0 && interval[i] > 0 ? frozen + 1 : 0;
    if (frozen === FROZEN) issues.note('frozen-position', () => `fix ${i - FROZEN}`, FROZEN);
    else if (frozen > FROZEN) issues.note('frozen-position', () => '', 1);
  }
  const longest = Math.max(LEAST_GAP, TIMES_USUAL * medianAbove(interval, 0));
  const fastest = Math.min(FASTEST, Math.max(LEAST_JUMP, TIMES_USUAL * medianAbove(speed, STANDING)));
  for (let i = 1; i < n; i++) {
    const late = interval[i] > longest;
    const far = speed[i] > fastest;
    if (!gapBefore[i]) {
      if (late) issues.note('time-gap', () => `fix ${i}`);
      else if (far) issues.note('teleport', () => `fix ${i}`);
    }
    if (late || far) gapBefore[i] = 1;
  }
}

/** 0 when none lies above. */
function medianAbove(values: Float64Array, least: number): number {
  const above = new Float64Array(values.length);
  let count = 0;
  for (const value of values) if (value > least) above[count++] = value;
  if (count === 0) return 0;
  // the lower of two middle ones: one fix out of place makes two steps of it
  const middle = (count - 1) >> 1;
  select(above.subarray(0, count), middle);
  return above[middle];
}

/** Metres on a sphere by the differences of two positions, degrees, and the product of the cosines of their latitudes. */
function sphereDistance(northward: number, eastward: number, cosines: number): number {
  const x = Math.sin((northward * RADIAN) / 2);
  const y = Math.sin((eastward * RADIAN) / 2);
  return 2 * MEAN_RADIUS * Math.asin(Math.min(1, Math.sqrt(x * x + cosines * y * y)));
}
