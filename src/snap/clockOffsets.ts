import { knownMedian, type Snapped } from '../model';
import { passingOffsets } from './passingOffsets';
import { sharedClock } from './sharedClock';
import { sharedPace } from './sharedPace';

/** What the clock of one recording says beside those of the others on its body. */
export interface ClockOffset {
  /** Seconds that it is ahead of the shared clock: it passes places so much later. */
  readonly offset: number;
  /** Standard error of `offset`, seconds; NaN where nothing can be said. */
  readonly standardError: number;
  /** How steadily: 1.4826 × the median deviation from it over the way, seconds; NaN where nothing can be said. */
  readonly spread: number;
}

/** Seconds between the instants compared: errors persist for half a minute. Of a long run no more than so many. */
const EVERY = 5;
const MOST = 4000;

/** Seconds to either side over which the pace is taken. */
const AROUND = 10;

/** Metres at the ends of the route, a tenth of it at most, where feet pile up. */
const ENDS = 30;

/** Rounds after which clocks and pace agree to the hundredth of a second, if not before. */
const ROUNDS = 10;
const SETTLED = 0.005;

/** Differences of more than so many standard deviations count as so many. Huber 1964, who has 1.345 to 2. */
const HUBER = 1.5;
const MAD_TO_SIGMA = 1.4826;

/** Seconds after which errors are new ones. */
const BLOCK = 120;

/**
 * The offsets of the clocks of recordings of one body: such that on average none sees the body ahead of or behind the
 * pace that they share.
 *
 * Where they were at the same instant is compared, not when they passed the same place: a noisy receiver passes each
 * place for the first time too early, and what it says at an instant errs to both sides alike. Only seconds of
 * moving count.
 *
 * @remarks Two recordings' offsets differ from the truth by the mean of their errors along the route, over the pace:
 * σ √(2 τ/T)/v each, 0.7 s for 8 m that persist for 30 s on an hour's walk. How far two lie apart is told without bias; an offset
 * within that noise of the others may be taken for one of the majority: of three such clocks one that is 2 s ahead is told
 * 1.75 s ahead and the others 0.25 s behind on the mean, of five 1.9 s and 0.1 s; 4 s are told to 0.2 s. With three
 * an observer who knew where the body was comes no nearer than 0.16 s (docs/placing.md).
 * @see P. J. Huber, Robust estimation of a location parameter, Ann. Math. Stat. 35 (1964), doi:10.1214/aoms/1177703732
 */
export function clockOffsets(
  length: number,
  times: readonly Float64Array[],
  snapped: readonly Snapped[],
): readonly ClockOffset[] {
  const offsets = passingOffsets(length, times, snapped);
  const ends = Math.min(ENDS, length / 10);
  const errors = offsets.map(() => Number.NaN);
  const spreads = offsets.map(() => Number.NaN);
  const longest = Math.max(...times.map(spanOf));
  const every = Math.max(EVERY, longest / MOST);
  for (let round = 0; round < ROUNDS; round++) {
    const { shared, seen } = sharedPace(times, snapped, offsets, every);
    const pace = paceOf(shared.alongTrack, every);
    const usual = knownMedian(pace.filter((speed) => speed > 0));
    const moving = pace.map((speed, k) => {
      const inside = shared.alongTrack[k] >= ends && shared.alongTrack[k] <= length - ends;
      return inside && shared.receivers[k] >= 2 && speed > usual / 2 ? speed : Number.NaN;
    });
    const late = seen.map((places, i) => {
      const told = moving.map((speed, k) => (Number.isNaN(speed) ? Number.NaN : places[k] - shared.alongTrack[k]));
      const ahead = told.filter((metres) => !Number.isNaN(metres));
      if (ahead.length === 0) return 0;
      const speed = moving.reduce((sum, here, k) => sum + (Number.isNaN(told[k]) ? 0 : here), 0) / ahead.length;
      const spread = MAD_TO_SIGMA * deviation(ahead);
      spreads[i] = spread / speed;
      errors[i] = standardError(told, Math.max(Math.round(BLOCK / every), 1)) / speed;
      return -middle(ahead, HUBER * spread) / speed;
    });
    // what all have in common moves the shared clock, and tells nothing
    const common = late.reduce((sum, seconds) => sum + seconds, 0) / late.length;
    late.forEach((seconds, i) => {
      offsets[i] += seconds - common;
    });
    if (late.every((seconds) => Math.abs(seconds - common) < SETTLED)) break;
  }
  const clocks = offsets.map((offset, i) => ({ offset, standardError: errors[i], spread: spreads[i] }));
  const shared = sharedClock(clocks);
  return clocks.map((clock) => ({ ...clock, offset: clock.offset - shared }));
}

/** Seconds from the first to the last time. */
function spanOf(time: Float64Array): number {
  let [first, last] = [Infinity, -Infinity];
  for (const instant of time) {
    if (instant < first) first = instant;
    if (instant > last) last = instant;
  }
  return last > first ? (last - first) / 1000 : 0;
}

/** Metres a second at each instant, over those around it. */
function paceOf(alongTrack: Float64Array, every: number): Float64Array {
  const around = Math.max(Math.round(AROUND / every), 1);
  return alongTrack.map((_, k) => {
    const [from, to] = [Math.max(k - around, 0), Math.min(k + around, alongTrack.length - 1)];
    return (alongTrack[to] - alongTrack[from]) / ((to - from) * every);
  });
}

function deviation(values: Float64Array): number {
  const centre = knownMedian(values);
  return knownMedian(values.map((value) => Math.abs(value - centre)));
}

/** Mean of the values, those further than `reach` from it counting as so far. */
function middle(values: Float64Array, reach: number): number {
  let centre = knownMedian(values);
  for (let round = 0; round < 5; round++) {
    let sum = 0;
    for (const value of values) sum += Math.min(Math.max(value - centre, -reach), reach);
    centre += sum / values.length;
  }
  return centre;
}

/** Standard error of the mean of a column with gaps, from means over so many entries; NaN with fewer than two. */
function standardError(column: Float64Array, size: number): number {
  const means: number[] = [];
  for (let from = 0; from < column.length; from += size) {
    const known = column.subarray(from, from + size).filter((value) => !Number.isNaN(value));
    if (known.length >= size / 2) means.push(known.reduce((sum, value) => sum + value, 0) / known.length);
  }
  const mean = means.reduce((sum, value) => sum + value, 0) / means.length;
  const squares = means.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return Math.sqrt(squares / (means.length - 1) / means.length);
}
