import { InputError } from '../errors';
import type { Recording } from '../formats/Recording';
import { checkCoordinates } from '../internal/checkPosition';
import { earthCentred } from './earthCentred';

/** What a body moves, in metres a second, while nothing is known of it. */
const WALK = 3;

/** A recording as the lattice needs it: checked, earth-centred, with a clock that never runs back. */
export class FixTrack {
  readonly count: number;
  readonly lon: ArrayLike<number>;
  readonly lat: ArrayLike<number>;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly z: Float64Array;
  /** Seconds since the first fix; where no time is known, what the way to the next fix takes at a run. */
  readonly clock: Float64Array;
  /** 1 where the recording was interrupted before a fix. */
  readonly gapBefore: ArrayLike<number>;

  constructor(recording: Recording) {
    const { lon, lat, time, gapBefore } = recording;
    const n = lon.length;
    if (lat.length !== n || (time !== undefined && time.length !== n)) {
      throw new InputError({
        reason: 'wrong-type',
        argument: 'recording',
        rule: 'columns of the same length',
        value: [n, lat.length, ...(time === undefined ? [] : [time.length])],
      });
    }
    this.count = n;
    this.lon = lon;
    this.lat = lat;
    this.gapBefore = gapBefore;
    this.x = new Float64Array(n);
    this.y = new Float64Array(n);
    this.z = new Float64Array(n);
    this.clock = new Float64Array(n);
    let lastTimed = -1;
    for (let i = 0; i < n; i++) {
      checkCoordinates(lon[i], lat[i], `recording fixes[${i}]`);
      [this.x[i], this.y[i], this.z[i]] = earthCentred(lon[i], lat[i]);
      if (i > 0) this.clock[i] = this.clock[i - 1] + this.moved(i - 1, i) / WALK;
      if (time === undefined || !Number.isFinite(time[i])) continue;
      if (lastTimed >= 0) {
        // fixes without a time between two with one share the time between them by the way they moved
        const from = this.clock[lastTimed];
        const guessed = this.clock[i] - from;
        const elapsed = Math.max((time[i] - time[lastTimed]) / 1000, 0);
        for (let k = lastTimed + 1; k <= i; k++) {
          const share = guessed > 0 ? (this.clock[k] - from) / guessed : (k - lastTimed) / (i - lastTimed);
          this.clock[k] = from + elapsed * share;
        }
      }
      lastTimed = i;
    }
  }

  /** Metres between two fixes. */
  moved(from: number, to: number): number {
    return Math.hypot(this.x[to] - this.x[from], this.y[to] - this.y[from], this.z[to] - this.z[from]);
  }
}
