import { MEAN_RADIUS, RADIAN } from '../geodesy';
import { checkCoordinates, type Recording } from '../model';
import { furthestIn } from './furthestIn';
import { risingTimes } from './risingTimes';
import { upperMedian } from './upperMedian';

/** What a body moves, in metres a second, while nothing is known of it. */
export const WALK = 3;

/** So few degrees apart and so far from a pole fixes lie as in a plane, to a ten-thousandth. */
const NEAR = 0.001;
const POLAR = 85;

/** A receiver throws so many fixes in a row, or as many as it gives in so many seconds, of which no more than so many are asked. */
export const IN_A_ROW = 2;
const MOST = 20;

/** Steps to either side of a fix that say how fast the body was. */
const AROUND = 15;

/** A recording as the lattice needs it: checked, with a clock that never runs back. */
export class FixTrack {
  readonly count: number;
  readonly lon: ArrayLike<number>;
  readonly lat: ArrayLike<number>;
  /**
   * Seconds since the first fix. Fixes without a time of their own share the time between those around them by the way they
   * moved; at the ends, and where no time is known, they move at the pace of the others, or at a run.
   */
  readonly clock: Float64Array;
  /** 1 where the recording was interrupted before a fix. */
  readonly gapBefore: ArrayLike<number>;
  /** 1 where a fix has a time that can't be its own; absent where none has. */
  readonly mistrusted: Uint8Array | undefined;
  readonly #time: ArrayLike<number> | undefined;

  constructor({ lon, lat, time, gapBefore }: Pick<Recording, 'lon' | 'lat' | 'time' | 'gapBefore'>) {
    const n = lon.length;
    this.count = n;
    this.lon = lon;
    this.lat = lat;
    this.gapBefore = gapBefore;
    this.clock = new Float64Array(n);
    this.#time = time;
    this.mistrusted = time && risingTimes(time);
    let firstTimed = -1;
    let lastTimed = -1;
    for (let i = 0; i < n; i++) {
      const usual = Number.isFinite(lon[i]) && Math.abs(lon[i]) <= 180 && Math.abs(lat[i]) <= 90;
      if (!usual || typeof lat[i] !== 'number') checkCoordinates(lon[i], lat[i], `recording fixes[${i}]`);
      const timed = time !== undefined && Number.isFinite(time[i]) && this.mistrusted?.[i] !== 1;
      if (timed && firstTimed < 0) firstTimed = i;
      if (timed && lastTimed === i - 1 && i > 0) {
        this.clock[i] = this.clock[i - 1] + (time[i] - time[i - 1]) / 1000;
        lastTimed = i;
        continue;
      }
      if (i > 0) this.clock[i] = this.clock[i - 1] + this.moved(i - 1, i) / WALK;
      if (!timed) continue;
      if (lastTimed >= 0) {
        this.#stretch(lastTimed, i, (time[i] - time[lastTimed]) / 1000);
      }
      lastTimed = i;
    }
    if (firstTimed === lastTimed || (firstTimed === 0 && lastTimed === n - 1)) return;
    let guessed = 0;
    for (let i = firstTimed + 1; i <= lastTimed; i++) guessed += this.moved(i - 1, i) / WALK;
    if (!(guessed > 0)) return;
    const slower = (this.clock[lastTimed] - this.clock[firstTimed]) / guessed;
    const begun = this.clock[firstTimed];
    const was = this.clock[lastTimed];
    for (let i = 0; i < firstTimed; i++) this.clock[i] *= slower;
    for (let i = firstTimed; i <= lastTimed; i++) this.clock[i] += begun * (slower - 1);
    const ended = this.clock[lastTimed];
    for (let i = lastTimed + 1; i < n; i++) this.clock[i] = ended + (this.clock[i] - was) * slower;
  }

  /** Metres between two fixes, to half a percent. */
  moved(from: number, to: number): number {
    const dLat = this.lat[to] - this.lat[from];
    const dLon = this.lon[to] - this.lon[from];
    if (Math.abs(dLat) < NEAR && Math.abs(dLon) < NEAR && Math.abs(this.lat[to]) < POLAR) {
      const turn = Math.cos(this.lat[to] * RADIAN) * dLon;
      return MEAN_RADIUS * RADIAN * Math.sqrt(dLat * dLat + turn * turn);
    }
    const north = Math.sin((dLat * RADIAN) / 2);
    const east = Math.sin((dLon * RADIAN) / 2);
    const cosines = Math.cos(this.lat[from] * RADIAN) * Math.cos(this.lat[to] * RADIAN);
    return 2 * MEAN_RADIUS * Math.asin(Math.min(Math.sqrt(north * north + cosines * east * east), 1));
  }

  /** Whether two fixes lie so many metres apart or more. */
  isApart(from: number, to: number, metres: number): boolean {
    const dLat = this.lat[to] - this.lat[from];
    const dLon = this.lon[to] - this.lon[from];
    // most often they are too close even at the equator, which takes no cosine to see
    const degrees = metres / (MEAN_RADIUS * RADIAN);
    return dLat * dLat + dLon * dLon >= degrees * degrees && this.moved(from, to) >= metres;
  }

  /**
   * Whether the receiver threw a fix aside for an instant: it lies further from one before and from one after than a body
   * gets, and those two don't lie so far apart. Such a fix says nothing of the body.
   */
  isThrown(fix: number): boolean {
    const { gapBefore, count } = this;
    let pace = 0;
    for (let from = fix - 1; from >= 0 && this.#isBrief(from, fix + 1) && gapBefore[from + 1] !== 1; from--) {
      if (!this.#isLeap(from, fix, pace)) continue;
      pace ||= this.#paceAround(fix);
      if (!this.#isLeap(from, fix, pace)) continue;
      for (let to = fix + 1; to < count && this.#isBrief(from, to) && gapBefore[to] !== 1; to++) {
        if (this.#isLeap(fix, to, pace) && !this.#isLeap(from, to, pace)) return true;
      }
    }
    return false;
  }

  /** The same fixes from the last to the first. */
  reversed(): FixTrack {
    const { count: n } = this;
    return new FixTrack({
      lon: Float64Array.from(this.lon).reverse(),
      lat: Float64Array.from(this.lat).reverse(),
      ...(this.#time && { time: Float64Array.from(this.#time, (instant) => -instant).reverse() }),
      gapBefore: Uint8Array.from({ length: n }, (_, i) => (i > 0 ? this.gapBefore[n - i] : 1)),
    });
  }

  #isBrief(from: number, to: number): boolean {
    return to - from <= IN_A_ROW + 1 || (to - from <= MOST && this.clock[to] - this.clock[from] <= IN_A_ROW);
  }

  /** Whether two fixes lie further apart than a body gets at a pace, metres a second. */
  #isLeap(from: number, to: number, pace: number): boolean {
    return this.isApart(from, to, furthestIn(Math.max(this.clock[to] - this.clock[from], 1), pace));
  }

  /** Metres a second: as most of the steps around a fix. */
  #paceAround(fix: number): number {
    const { clock } = this;
    const first = Math.max(fix - AROUND, 1);
    const speeds = new Float64Array(Math.min(fix + AROUND, this.count - 1) + 1 - first);
    for (let k = 0; k < speeds.length; k++) {
      speeds[k] = this.moved(first + k - 1, first + k) / Math.max(clock[first + k] - clock[first + k - 1], 1);
    }
    return upperMedian(speeds);
  }

  /** Gives the time between two fixes to those in between by the way they moved. */
  #stretch(first: number, last: number, seconds: number): void {
    const from = this.clock[first];
    const guessed = this.clock[last] - from;
    for (let k = first + 1; k <= last; k++) {
      const share = guessed > 0 ? (this.clock[k] - from) / guessed : (k - first) / (last - first);
      this.clock[k] = from + seconds * share;
    }
  }
}
