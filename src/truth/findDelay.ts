import type { Recording } from '../model';
import type { FixError, TrueMotion } from './TrueMotion';

/** Seconds to either side that are looked at, and fixes that are for it: among whole seconds, and between them. */
export const FURTHEST = 30;
const COARSE_FIXES = 300;
const FINE_FIXES = 600;
/** Seconds between the shifts of the last parabola: its vertex is good to a tenth of it. */
const STEP = 0.25;
const ROUNDS = 5;

/** Fewer moving seconds say nothing of a delay. */
const LEAST_MOVING = 30;

/** What the search for a delay found: seconds late, or that the least lies beyond those looked at. */
export type FoundDelay = { readonly seconds: number } | { readonly beyond: true } | undefined;

/**
 * Seconds that a recording is late: the shift that makes the mean square of its errors along the true motion least. First
 * among whole seconds by the distance, which no loop of the way deceives; then by parabolas through the mean squares.
 * Undefined where the body moved in fewer than 30 of the recording's seconds.
 */
export function findDelay(
  motion: TrueMotion,
  recording: Recording,
  places: Float64Array,
  trusted: ArrayLike<number>,
): FoundDelay {
  const { lon, lat } = recording;
  const time = recording.time!;
  const n = lon.length;
  const every = Math.max(1, Math.floor(n / COARSE_FIXES));
  const finely = Math.max(1, Math.floor(n / FINE_FIXES));
  let best = Number.NaN;
  let least = Number.POSITIVE_INFINITY;
  for (let shift = -FURTHEST; shift <= FURTHEST; shift++) {
    let sum = 0;
    let count = 0;
    for (let i = 0; i < n; i += every) {
      if (trusted[i] !== 1) continue;
      const [x, y, z] = [places[3 * i], places[3 * i + 1], places[3 * i + 2]];
      const square = motion.squareTo(x, y, z, time[i] - 1000 * shift);
      if (Number.isNaN(square)) continue;
      sum += square;
      count++;
    }
    if (count > 0 && sum / count < least) {
      least = sum / count;
      best = shift;
    }
  }
  const error = {} as FixError;
  const place = [0, 0, 0];
  const squareAt = (delay: number, stride: number) => {
    let sum = 0;
    let count = 0;
    let seconds = 0;
    let last = Number.NaN;
    for (let i = 0; i < n; i += stride) {
      if (trusted[i] !== 1) continue;
      for (let k = 0; k < 3; k++) place[k] = places[3 * i + k];
      motion.measure(lon[i], lat[i], place, Number.NaN, time[i] - 1000 * delay, error);
      if (Number.isNaN(error.along)) continue;
      sum += error.along ** 2;
      count++;
      const second = Math.floor(time[i] / 1000);
      if (second !== last) seconds++;
      last = second;
    }
    return seconds * stride < LEAST_MOVING ? Number.NaN : sum / count;
  };
  if (Number.isNaN(best) || Number.isNaN(squareAt(best, every))) return undefined;
  if (Math.abs(best) === FURTHEST) return { beyond: true };
  let step = 1;
  for (let round = 0; round < ROUNDS; round++) {
    const [before, here, after] = [-step, 0, step].map((shift) =>
      squareAt(best + shift, step === STEP ? finely : every),
    );
    const bend = before - 2 * here + after;
    if (!(bend > 0)) return undefined;
    const vertex = Math.min(step, Math.max(-step, (step * (before - after)) / (2 * bend)));
    best += vertex;
    if (step === STEP && Math.abs(vertex) < STEP / 2) break;
    step = STEP;
  }
  return { seconds: best };
}
