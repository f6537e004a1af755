import { knownMedian, type Snapped } from '../model';
import { SURE } from './passingOffsets';

/** Between fixes further apart in time than this, in seconds, a receiver doesn't know where the body was. */
const CLOSE = 12;

/** One that logs seldom knows as far as so many of its own intervals reach, and no further than a minute. */
const INTERVALS = 2.5;
const FURTHEST = 60;

/**
 * Metres along the route at which one receiver saw the body at each instant, between its fixes; NaN where it doesn't know.
 *
 * @param time - Instants by the shared clock, rising, milliseconds.
 * @param own - Instants of its fixes by its own clock.
 * @param offset - Seconds that its clock is ahead.
 */
export function bodyPlaces(
  time: Float64Array,
  own: Float64Array,
  offset: number,
  { alongTrack, confidence }: Snapped,
): Float64Array {
  const places = new Float64Array(time.length).fill(Number.NaN);
  const close = Math.min(Math.max(1000 * CLOSE, INTERVALS * usualInterval(own)), 1000 * FURTHEST);
  let before = -1;
  let k = 0;
  for (let i = 0; i < own.length; i++) {
    if (!(confidence[i] >= SURE) || Number.isNaN(own[i])) continue;
    const until = own[i] - 1000 * offset;
    const from = before >= 0 ? own[before] - 1000 * offset : until;
    for (; k < time.length && time[k] <= until; k++) {
      if (time[k] < from || until - from > close) continue;
      const share = until > from ? (time[k] - from) / (until - from) : 0;
      const start = before >= 0 ? alongTrack[before] : alongTrack[i];
      places[k] = start + share * (alongTrack[i] - start);
    }
    before = i;
  }
  return places;
}

/** The middle one of a hundred intervals, taken evenly. */
function usualInterval(own: Float64Array): number {
  const every = Math.max(Math.floor(own.length / 100), 1);
  const intervals: number[] = [];
  for (let i = every; i < own.length; i += every) intervals.push(own[i] - own[i - 1]);
  return knownMedian(intervals) || 0;
}
