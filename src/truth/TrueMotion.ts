import { direct, earthCentred, inverse, RADIAN } from '../geodesy';
import { checkNumber, checkRecording, InputError, type Recording } from '../model';

/** Metres a second below which a body stands. */
const STANDING = 0.3;
/** Seconds to either side over which the direction of motion is taken: of a truth to the decimetre, and at most. */
const LEAST_AROUND = 0.5;
const MOST_AROUND = 2;
/** So many fixes on from where the last search ended they are tried one by one. */
const NEAR = 40;
/** Metres beyond which the error is taken along the geodesic: nearer, the chord is as long to 4 µm. */
const FAR = 1000;

const DAY = 24 * 3600 * 1000;

export const PLACE_RULE = `The true place at the instant of a fix: along the geodesic between the true fixes before and after it, cubic in time (a cubic Hermite curve, its speeds those of the parabola through three neighbours) where three fixes allow it; none across a break of the truth.`;
export const SPLIT_RULE = `The error is split by the direction of the true motion from ${LEAST_AROUND} s before to ${LEAST_AROUND} s after the instant (up to ${MOST_AROUND} s where the truth is known to a metre or worse): along it ahead is positive, across it right. While the body moves less than ${STANDING} m/s, or no further than the truth’s own uncertainty, there is no direction: only the horizontal error is given.`;

/** What the truth can be told of. */
export interface TruthOptions {
  /** Seconds between two true fixes beyond which the place between them is not known. @defaultValue 2 */
  readonly maxTruthGap?: number;
  /** The truth's own uncertainty (95 %) in metres at fixes that state no accuracy. @defaultValue unstated */
  readonly truth95?: number;
}

/** Where a fix lies from the true place at its instant; metres, NaN where unknown. */
export interface FixError {
  east: number;
  north: number;
  horizontal: number;
  along: number;
  across: number;
  up: number;
  /** Metres a second of the body. */
  speed: number;
}

/**
 * The motion of a body that a recording knows to the second and better: where it was at any instant, in which direction it
 * moved, how sure that is.
 *
 * Places are earth-centred, on the ellipsoid: no plane, no meridian in the way. An error is the vector to the fix in the
 * directions east and north of the true fix before; 0.1 mm off for 10 m, 2 cm for a kilometre; beyond, along the geodesic.
 */
export class TrueMotion {
  /** Milliseconds since the Unix epoch of the fixes used, rising. */
  readonly time: Float64Array;
  readonly lon: Float64Array;
  readonly lat: Float64Array;
  /** Metres; NaN where unknown. */
  readonly height: Float64Array;
  /** Uncertainty (95 %) in metres; NaN where unstated. */
  readonly doubt: Float64Array;
  /** 1 where the way from the fix before is known. */
  readonly joined: Uint8Array;
  /** Fixes left out: without a time or a place, and those that share the time of the one before. */
  readonly unusable: number;
  readonly repeated: number;
  readonly #places: Float64Array;
  readonly #speeds: Float64Array;
  /** Mean milliseconds between fixes. */
  readonly #usual: number;
  /** Where the last searches ended: the next instants lie near. */
  readonly #cursors = new Int32Array(3);
  /** Places found: at the instant, before and after it. */
  readonly #found = new Float64Array(9);

  /**
   * @throws {InputError} no recording; without times (`missing`); times that go back or span more than a day (`out-of-range`);
   * fewer than 2 fixes with time and place (`too-few`)
   */
  constructor(truth: Recording, { maxTruthGap = 2, truth95 }: TruthOptions) {
    checkRecording(truth, 'truth');
    checkNumber(maxTruthGap, 'options.maxTruthGap', { above: 0 });
    if (truth95 !== undefined) checkNumber(truth95, 'options.truth95', { min: 0 });
    const { lon, lat, time, height, accuracy, gapBefore } = truth;
    if (!time?.some(Number.isFinite)) {
      throw new InputError({ reason: 'missing', argument: 'truth.time', rule: 'given', value: undefined });
    }
    const kept = new Int32Array(lon.length);
    const broken = new Uint8Array(lon.length);
    let n = 0;
    let last = Number.NEGATIVE_INFINITY;
    let [unusable, repeated] = [0, 0];
    let gap = true;
    for (let i = 0; i < lon.length; i++) {
      gap ||= gapBefore[i] === 1;
      if (!(Number.isFinite(time[i]) && Number.isFinite(lon[i]) && Math.abs(lat[i]) <= 90)) {
        unusable++;
        continue;
      }
      if (time[i] < last) {
        const rule = `no earlier than the one before (${instant(last)})`;
        throw new InputError({ reason: 'out-of-range', argument: `truth.time[${i}]`, rule, value: instant(time[i]) });
      }
      if (time[i] === last) {
        repeated++;
        continue;
      }
      kept[n] = i;
      broken[n++] = gap ? 1 : 0;
      last = time[i];
      gap = false;
    }
    if (n < 2) {
      const rule = 'a recording of at least 2 fixes with time and place';
      throw new InputError({ reason: 'too-few', argument: 'truth', rule, value: n });
    }
    const column = (values: ArrayLike<number> | undefined) => {
      const picked = new Float64Array(n).fill(Number.NaN);
      if (values !== undefined) for (let i = 0; i < n; i++) picked[i] = values[kept[i]];
      return picked;
    };
    this.time = column(time);
    if (this.time[n - 1] - this.time[0] > DAY) {
      const value = `${((this.time[n - 1] - this.time[0]) / DAY).toFixed(1)} days`;
      throw new InputError({ reason: 'out-of-range', argument: 'truth.time', rule: 'within one day', value });
    }
    this.unusable = unusable;
    this.repeated = repeated;
    this.lon = column(lon);
    this.lat = column(lat);
    this.height = column(height);
    this.doubt = column(accuracy);
    for (let i = 0; i < n; i++) if (!(this.doubt[i] >= 0)) this.doubt[i] = truth95 ?? Number.NaN;
    this.joined = new Uint8Array(n);
    const places = new Float64Array(3 * n);
    for (let i = 0; i < n; i++) {
      if (i > 0 && broken[i] === 0 && this.time[i] - this.time[i - 1] <= 1000 * maxTruthGap) this.joined[i] = 1;
      const [x, y, z] = earthCentred(this.lon[i], this.lat[i]);
      places[3 * i] = x;
      places[3 * i + 1] = y;
      places[3 * i + 2] = z;
    }
    this.#places = places;
    this.#usual = (this.time[n - 1] - this.time[0]) / (n - 1);
    this.#speeds = this.#fixSpeeds();
  }

  /** Instants of the first and the last true fix. */
  get span(): readonly [first: number, last: number] {
    return [this.time[0], this.time[this.time.length - 1]];
  }

  /** Whether the place at an instant is known. */
  known(instant: number): boolean {
    return this.#locate(instant, 0) >= 0;
  }

  /** Stated uncertainty (95 %) of the place at an instant; NaN where the place is unknown or it is not stated. */
  doubtAt(instant: number): number {
    const i = this.#locate(instant, 0);
    if (i < 0) return Number.NaN;
    return instant === this.time[i] ? this.doubt[i] : Math.max(this.doubt[i], this.doubt[i + 1]);
  }

  /** Square metres from a place, earth-centred, to where the body was at an instant; NaN where that is unknown. */
  squareTo(x: number, y: number, z: number, instant: number): number {
    if (this.#locate(instant, 0) < 0) return Number.NaN;
    const found = this.#found;
    return (x - found[0]) ** 2 + (y - found[1]) ** 2 + (z - found[2]) ** 2;
  }

  /** The error of a fix at an instant, written into `error`; whether the true place is known. */
  measure(
    lon: number,
    lat: number,
    place: readonly number[],
    height: number,
    instant: number,
    error: FixError,
  ): boolean {
    error.east = error.north = error.horizontal = error.along = error.across = error.up = error.speed = Number.NaN;
    const i = this.#locate(instant, 0);
    if (i < 0) return false;
    const found = this.#found;
    const sinLon = Math.sin(this.lon[i] * RADIAN);
    const cosLon = Math.cos(this.lon[i] * RADIAN);
    const sinLat = Math.sin(this.lat[i] * RADIAN);
    const cosLat = Math.cos(this.lat[i] * RADIAN);
    const dx = place[0] - found[0];
    const dy = place[1] - found[1];
    const dz = place[2] - found[2];
    error.east = -sinLon * dx + cosLon * dy;
    error.north = -sinLat * (cosLon * dx + sinLon * dy) + cosLat * dz;
    error.horizontal = Math.sqrt(error.east ** 2 + error.north ** 2);
    if (dx * dx + dy * dy + dz * dz > FAR * FAR) {
      const { distance, initialAzimuth } = inverse(this.#position(i, instant), [lon, lat]);
      error.horizontal = distance;
      error.east = distance * Math.sin(initialAzimuth * RADIAN);
      error.north = distance * Math.cos(initialAzimuth * RADIAN);
    }
    const exact = instant === this.time[i];
    const share = exact ? 0 : (instant - this.time[i]) / (this.time[i + 1] - this.time[i]);
    const level = exact ? this.height[i] : this.height[i] + share * (this.height[i + 1] - this.height[i]);
    error.up = height - level;

    const stated = exact ? this.doubt[i] : Math.max(this.doubt[i], this.doubt[i + 1]);
    const doubt = stated || 0;
    const around = Math.min(MOST_AROUND, Math.max(LEAST_AROUND, doubt));
    const before = this.#locate(instant - 1000 * around, 1) >= 0;
    const after = this.#locate(instant + 1000 * around, 2) >= 0;
    if (!before && !after) return true;
    const seconds = (before ? around : 0) + (after ? around : 0);
    const [from, to] = [before ? 3 : 0, after ? 6 : 0];
    const mx = found[to] - found[from];
    const my = found[to + 1] - found[from + 1];
    const mz = found[to + 2] - found[from + 2];
    const east = -sinLon * mx + cosLon * my;
    const north = -sinLat * (cosLon * mx + sinLon * my) + cosLat * mz;
    const moved = Math.sqrt(east * east + north * north);
    error.speed = moved / seconds;
    if (!(moved > Math.max(STANDING * seconds, doubt))) return true;
    error.along = (error.east * east + error.north * north) / moved;
    error.across = (error.east * north - error.north * east) / moved;
    return true;
  }

  /** The fix at or before an instant whose place is known, the place written down at `which`; -1 where it isn't. */
  #locate(instant: number, which: number): number {
    const { time } = this;
    const n = time.length;
    if (!(instant >= time[0] && instant <= time[n - 1])) return -1;
    const cursors = this.#cursors;
    let i = cursors[which];
    if (time[i] > instant || (i + NEAR < n && time[i + NEAR] < instant)) {
      // where it would be at an even rate, or a little before
      i = Math.min(n - 1, Math.max(0, i + Math.floor((instant - time[i]) / this.#usual) - 2));
    }
    if (time[i] > instant || (i + NEAR < n && time[i + NEAR] < instant)) {
      let high = n - 1;
      for (i = 0; i < high; ) {
        const middle = (i + high + 1) >> 1;
        if (time[middle] <= instant) i = middle;
        else high = middle - 1;
      }
    } else while (i + 1 < n && time[i + 1] <= instant) i++;
    cursors[which] = i;
    const exact = time[i] === instant;
    if (!exact && this.joined[i + 1] !== 1) return -1;
    const places = this.#places;
    const speeds = this.#speeds;
    const found = this.#found;
    const at = 3 * which;
    if (exact) {
      for (let k = 0; k < 3; k++) found[at + k] = places[3 * i + k];
      return i;
    }
    const seconds = (time[i + 1] - time[i]) / 1000;
    const u = (instant - time[i]) / 1000 / seconds;
    const v = 1 - u;
    const near = v * v * (1 + 2 * u);
    const leaving = seconds * u * v * v;
    const arriving = seconds * u * u * v;
    for (let k = 0; k < 3; k++) {
      const a = 3 * i + k;
      const b = a + 3;
      found[at + k] = near * places[a] + (1 - near) * places[b] + leaving * speeds[a] - arriving * speeds[b];
    }
    return i;
  }

  /** By fix, metres a second: of the parabola through it and its neighbours; at an end, of that through the nearest three. */
  #fixSpeeds(): Float64Array {
    const { time, joined } = this;
    const n = time.length;
    const places = this.#places;
    const speeds = new Float64Array(3 * n);
    const step = (i: number) => (time[i] - time[i - 1]) / 1000;
    for (let i = 0; i < n; i++) {
      const before = joined[i] === 1;
      const after = joined[i + 1] === 1;
      if (!before && !after) continue;
      // of the two or three neighbours the first
      const first = after && before ? i - 1 : after ? i : joined[i - 1] === 1 ? i - 2 : i - 1;
      const three = (before && after) || (after ? joined[i + 2] === 1 : joined[i - 1] === 1);
      const h = step(first + 1);
      const g = three ? step(first + 2) : 0;
      const place = i - first;
      for (let k = 0; k < 3; k++) {
        const at = 3 * first + k;
        const slope = (places[at + 3] - places[at]) / h;
        if (!three) speeds[3 * i + k] = slope;
        else {
          const next = (places[at + 6] - places[at + 3]) / g;
          const bend = (next - slope) / (h + g);
          // the parabola's slope at the first, the middle and the last of the three
          speeds[3 * i + k] = place === 0 ? slope - h * bend : place === 1 ? slope + h * bend : next + g * bend;
        }
      }
    }
    return speeds;
  }

  #position(i: number, instant: number): [lon: number, lat: number] {
    const from: [number, number] = [this.lon[i], this.lat[i]];
    if (instant === this.time[i]) return from;
    const { distance, initialAzimuth } = inverse(from, [this.lon[i + 1], this.lat[i + 1]]);
    const share = (instant - this.time[i]) / (this.time[i + 1] - this.time[i]);
    return direct(from, initialAzimuth, share * distance).position as [number, number];
  }
}

/** An instant as people write it. */
function instant(time: number): string {
  return Number.isFinite(new Date(time).getTime()) ? new Date(time).toISOString() : `${time} ms`;
}
