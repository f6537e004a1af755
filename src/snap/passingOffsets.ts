import { knownMedian, type Snapped } from '../model';

/** Metres between the places at which passing times are compared. */
const EVERY = 20;

/** A passing between two fixes further apart in time than this, in seconds, says too little of when it was. */
const CLOSE = 15;

/** Rounds after which the shared passing times and the offsets nearly agree. */
const ROUNDS = 3;

/** A fix must be this sure of its part of the route to speak for the others. */
export const SURE = 0.9;

/**
 * Seconds that each clock is ahead of the first, to within what a few metres of error make, from when each recording passed
 * the same places of the route: an offset of seconds and one of hours show alike.
 */
export function passingOffsets(length: number, times: readonly Float64Array[], snapped: readonly Snapped[]): number[] {
  const places = Math.floor(length / EVERY) + 1;
  const passing = snapped.map((one, i) => passingTimes(times[i], one, places));
  const offsets = passing.map((own) => knownMedian(own.map((time, k) => time - passing[0][k])) || 0);
  for (let round = 0; round < ROUNDS; round++) {
    const shared = Float64Array.from({ length: places }, (_, k) =>
      knownMedian(passing.map((own, i) => own[k] - offsets[i])),
    );
    passing.forEach((own, i) => {
      const offset = knownMedian(own.map((time, k) => time - shared[k]));
      if (!Number.isNaN(offset)) offsets[i] = offset;
    });
  }
  return offsets;
}

/** Seconds at which each place was first passed; NaN where that is not known. */
function passingTimes(time: Float64Array, { alongTrack, confidence }: Snapped, places: number): number[] {
  const passing = new Array<number>(places).fill(Number.NaN);
  let before = -1;
  for (let i = 0; i < time.length; i++) {
    if (!(confidence[i] >= SURE) || Number.isNaN(time[i])) continue;
    if (before >= 0 && time[i] - time[before] <= 1000 * CLOSE) {
      const [from, to] = [alongTrack[before], alongTrack[i]];
      for (let k = Math.max(Math.ceil(from / EVERY), 0); k * EVERY <= to && to > from; k++) {
        if (Number.isNaN(passing[k])) {
          passing[k] = (time[before] + ((k * EVERY - from) / (to - from)) * (time[i] - time[before])) / 1000;
        }
      }
    }
    before = i;
  }
  return passing;
}
