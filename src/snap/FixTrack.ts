import { MEAN_RADIUS, RADIAN } from '../geodesy';
import { checkCoordinates, type Recording } from '../model';

/** What a body moves, in metres a second, while nothing is known of it. */
const WALK = 3;

/** A recording as the lattice needs it: checked, with a clock that never runs back. */
export class FixTrack {
  readonly count: number;
  readonly lon: ArrayLike<number>;
  readonly lat: ArrayLike<number>;
  /** Seconds since the first fix; where no time is known, what the way to the next fix takes at a run. */
  readonly clock: Float64Array;
  /** 1 where the recording was interrupted before a fix. */
  readonly gapBefore: ArrayLike<number>;

  constructor(recording: Recording) {
    const { lon, lat, time, gapBefore } = recording;
    const n = lon.length;
    this.count = n;
    this.lon = lon;
    this.lat = lat;
    this.gapBefore = gapBefore;
    this.clock = new Float64Array(n);
    let lastTimed = -1;
    for (let i = 0; i < n; i++) {
      const usual = Number.isFinite(lon[i]) && Math.abs(lon[i]) <= 180 && Math.abs(lat[i]) <= 90;
      if (!usual || typeof lat[i] !== 'number') checkCoordinates(lon[i], lat[i], `recording fixes[${i}]`);
      const timed = time !== undefined && Number.isFinite(time[i]);
      if (timed && lastTimed === i - 1 && i > 0) {
        this.clock[i] = this.clock[i - 1] + Math.max((time[i] - time[i - 1]) / 1000, 0);
        lastTimed = i;
        continue;
      }
      if (i > 0) this.clock[i] = this.clock[i - 1] + this.moved(i - 1, i) / WALK;
      if (!timed) continue;
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

  /** Metres between two fixes, to half a percent. */
  moved(from: number, to: number): number {
    const north = Math.sin(((this.lat[to] - this.lat[from]) * RADIAN) / 2);
    const east = Math.sin(((this.lon[to] - this.lon[from]) * RADIAN) / 2);
    const cosines = Math.cos(this.lat[from] * RADIAN) * Math.cos(this.lat[to] * RADIAN);
    return 2 * MEAN_RADIUS * Math.asin(Math.min(Math.sqrt(north * north + cosines * east * east), 1));
  }
}
