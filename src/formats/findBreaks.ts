import { quickselect } from 'd3-array';
import { MEAN_RADIUS, RADIAN } from '../geodesy';
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
  for (let i = 1; i < n; i++) {
    interval[i] = (time[i] - time[i - 1]) / 1000;
    const moved = sphereDistance(lon[i - 1], lat[i - 1], lon[i], lat[i]);
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
  // the lower of two middle ones: one fix out of place makes two steps of it
  const middle = (count - 1) >> 1;
  return count === 0 ? 0 : quickselect(above, middle, 0, count - 1)[middle];
}

function sphereDistance(lon1: number, lat1: number, lon2: number, lat2: number): number {
  const x = Math.sin(((lat2 - lat1) * RADIAN) / 2);
  const y = Math.sin(((lon2 - lon1) * RADIAN) / 2);
  const h = x * x + Math.cos(lat1 * RADIAN) * Math.cos(lat2 * RADIAN) * y * y;
  return 2 * MEAN_RADIUS * Math.asin(Math.min(1, Math.sqrt(h)));
}
