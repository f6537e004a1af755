import { median } from 'd3-array';
import type { Snapped } from '../model';
import { SURE } from './clockOffsets';

/** Where one body was, second by second. */
export interface SharedPace {
  /** Milliseconds since the Unix epoch by the shared clock, one second apart. */
  readonly time: Float64Array;
  /** Metres along the route: the median of the receivers; NaN where none knows. */
  readonly alongTrack: Float64Array;
  /** How many receivers know. */
  readonly receivers: Uint8Array;
}

/** Between fixes further apart than this, in seconds, a receiver doesn't know where the body was. */
const CLOSE = 12;

/** No pace is listed over more than this many seconds, four days: a clock that lies by years is no clock. */
const LONGEST = 345_600;

/** The pace that recordings share, each seen through the offset of its clock. */
export function sharedPace(
  times: readonly Float64Array[],
  snapped: readonly Snapped[],
  offsets: readonly number[],
): { readonly shared: SharedPace; at(time: number): number } {
  let first = Infinity;
  let last = -Infinity;
  snapped.forEach(({ confidence }, i) => {
    for (let k = 0; k < confidence.length; k++) {
      if (!(confidence[k] >= SURE) || Number.isNaN(times[i][k])) continue;
      first = Math.min(first, times[i][k] - 1000 * offsets[i]);
      last = Math.max(last, times[i][k] - 1000 * offsets[i]);
    }
  });
  const seconds = last >= first ? Math.min(Math.ceil((last - first) / 1000), LONGEST) + 1 : 0;
  const time = Float64Array.from({ length: seconds }, (_, k) => first + 1000 * k);
  const seen = snapped.map((one, i) => placesAt(time, times[i], offsets[i], one));
  const alongTrack = new Float64Array(seconds);
  const receivers = new Uint8Array(seconds);
  for (let k = 0; k < seconds; k++) {
    const known = seen.map((places) => places[k]).filter((place) => !Number.isNaN(place));
    receivers[k] = Math.min(known.length, 255);
    alongTrack[k] = median(known) ?? Number.NaN;
  }
  return {
    shared: { time, alongTrack, receivers },
    at(instant) {
      const at = (instant - first) / 1000;
      const k = Math.min(Math.floor(at), seconds - 2);
      if (!(k >= 0 && at <= seconds - 1) || receivers[k] < 2 || receivers[k + 1] < 2) return Number.NaN;
      return alongTrack[k] + (at - k) * (alongTrack[k + 1] - alongTrack[k]);
    },
  };
}

/** Where one receiver saw the body at each instant, between its fixes; NaN where it doesn't know. */
function placesAt(time: Float64Array, own: Float64Array, offset: number, { alongTrack, confidence }: Snapped) {
  const places = new Float64Array(time.length).fill(Number.NaN);
  let before = -1;
  let k = 0;
  for (let i = 0; i < own.length; i++) {
    if (!(confidence[i] >= SURE) || Number.isNaN(own[i])) continue;
    const until = own[i] - 1000 * offset;
    const from = before >= 0 ? own[before] - 1000 * offset : until;
    for (; k < time.length && time[k] <= until; k++) {
      if (time[k] < from || until - from > 1000 * CLOSE) continue;
      const share = until > from ? (time[k] - from) / (until - from) : 0;
      const start = before >= 0 ? alongTrack[before] : alongTrack[i];
      places[k] = start + share * (alongTrack[i] - start);
    }
    before = i;
  }
  return places;
}
