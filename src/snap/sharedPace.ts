import type { Snapped } from '../model';
import { bodyPlaces } from './bodyPlaces';
import { SURE } from './passingOffsets';

/** Where one body was, second by second. */
export interface SharedPace {
  /** Milliseconds since the Unix epoch by the shared clock, one second apart. */
  readonly time: Float64Array;
  /** Metres along the route: the median of the receivers; NaN where none knows. */
  readonly alongTrack: Float64Array;
  /** How many receivers know. */
  readonly receivers: Uint8Array;
}

/** A pace that recordings share, and what each says of it. */
export interface SeenPace {
  readonly shared: SharedPace;
  /** Metres along the route at which each receiver saw the body, at the instants of `shared`. */
  readonly seen: readonly Float64Array[];
  /** Metres along the route at an instant by the shared clock; NaN where fewer than two receivers know. */
  at(time: number): number;
}

/** No pace is listed over more than this many seconds, four days: a clock that lies by years is no clock. */
const LONGEST = 345_600;

/**
 * The pace that recordings share, each seen through the offset of its clock.
 *
 * @param every - Seconds between the instants.
 */
export function sharedPace(
  times: readonly Float64Array[],
  snapped: readonly Snapped[],
  offsets: readonly number[],
  every = 1,
): SeenPace {
  let first = Infinity;
  let last = -Infinity;
  snapped.forEach(({ confidence }, i) => {
    for (let k = 0; k < confidence.length; k++) {
      if (!(confidence[k] >= SURE) || Number.isNaN(times[i][k])) continue;
      first = Math.min(first, times[i][k] - 1000 * offsets[i]);
      last = Math.max(last, times[i][k] - 1000 * offsets[i]);
    }
  });
  const step = 1000 * every;
  const count = last >= first ? Math.ceil(Math.min((last - first) / 1000, LONGEST) / every) + 1 : 0;
  const time = Float64Array.from({ length: count }, (_, k) => first + step * k);
  const seen = snapped.map((one, i) => bodyPlaces(time, times[i], offsets[i], one));
  const alongTrack = new Float64Array(count).fill(Number.NaN);
  const receivers = new Uint8Array(count);
  const known = new Float64Array(seen.length);
  for (let k = 0; k < count; k++) {
    let n = 0;
    for (const places of seen) if (!Number.isNaN(places[k])) known[n++] = places[k];
    receivers[k] = Math.min(n, 255);
    if (n === 0) continue;
    const sorted = known.subarray(0, n).sort();
    alongTrack[k] = (sorted[(n - 1) >> 1] + sorted[n >> 1]) / 2;
  }
  return {
    shared: { time, alongTrack, receivers },
    seen,
    at(instant) {
      const at = (instant - first) / step;
      const k = Math.min(Math.floor(at), count - 2);
      if (!(k >= 0 && at <= count - 1) || receivers[k] < 2 || receivers[k + 1] < 2) return Number.NaN;
      return alongTrack[k] + (at - k) * (alongTrack[k + 1] - alongTrack[k]);
    },
  };
}
