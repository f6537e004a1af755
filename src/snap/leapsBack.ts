import { FASTEST } from './furthestIn';
import type { LatticeStates } from './LatticeStates';
import type { StepWeights } from './StepWeights';

/**
 * A leap leads so much further along the route than the pace and the steps around: metres. Some step leads the other way by so
 * much: a body that hurries for a few seconds doesn't go back after it, and one that has stood doesn't leap.
 */
const LEAP = 40;
const STEP = 18;
/** The same in standard deviations, for receivers whose every fix is as far out. */
const LEAP_SIGMAS = 3;
const STEP_SIGMAS = 1.5;

/** Back is where two thirds at most are left of the furthest, within so many seconds. */
const LEFT = 2 / 3;
const BACK_WITHIN = 90;

/** Less than so many metres is no step back, and less than so many, or than a standard deviation, is none at all. */
const ROUGH = 5;

/** A foot of a fix further aside says little of where it was, metres and standard deviations. */
const CLOSE = 30;
const CLOSE_SIGMAS = 4;

/** From step to step no longer than so many seconds, but where all fixes between lie aside: in more, bodies change their pace. */
const SHORT = 12;

/** Fixes between two knots that the receiver threw along the route. */
export interface LeapBack {
  /** The last knot before them, and the first after. */
  readonly before: number;
  readonly after: number;
  /** Whether the feet stand still on the way and never go back, as where a body hurried and waited. */
  readonly waited: boolean;
}

/**
 * Where the feet of fixes leap along the route, and lead back before long: a receiver that was thrown along it.
 *
 * @param bin - The bin of each knot.
 * @param foot - Metres along the route of the foot of each fix, and `distance` from it.
 * @param skips - 1 at knots before which a stretch was left out or begins anew: those are no leaps of the receiver.
 * @remarks Time grows with the number of knots: after a leap, only those of the next minute and a half are looked at.
 */
export function leapsBack(
  { knots, clock }: LatticeStates,
  steps: StepWeights,
  sigma: Float64Array,
  bin: Int32Array,
  { footAlongTrack: foot, distance }: { readonly footAlongTrack: Float64Array; readonly distance: Float64Array },
  skips: Uint8Array,
): LeapBack[] {
  const last = knots.length - 1;
  /** The next knot whose fix lies close to the route, and the metres by which its foot is further than the pace leads. */
  const next = { knot: 0, further: 0, moved: 0, speed: 0 };
  const isClose = (knot: number) => distance[knots[knot]] <= Math.max(CLOSE_SIGMAS * sigma[bin[knot]], CLOSE);
  const find = (from: number) => {
    let expected = 0;
    for (let knot = from + 1; knot <= last && skips[knot] === 0 && clock[knot] - clock[from] <= BACK_WITHIN; knot++) {
      expected += steps.expected(knot);
      if (!isClose(knot)) continue;
      next.knot = knot;
      next.moved = foot[knots[knot]] - foot[knots[from]];
      next.further = next.moved - expected;
      next.speed = next.moved / Math.max(clock[knot] - clock[from], 1);
      return knot > from + 1 || clock[knot] - clock[from] <= SHORT;
    }
    return false;
  };
  const leaps: LeapBack[] = [];
  /** Metres beyond the pace of the step that led here. */
  let latest = 0;
  for (let begin = 0; begin < last; begin++) {
    if (!isClose(begin)) continue;
    const leastLeap = Math.max(LEAP, LEAP_SIGMAS * sigma[bin[begin]]);
    const leastStep = Math.max(STEP, STEP_SIGMAS * sigma[bin[begin]]);
    const out = find(begin) ? next.further : 0;
    let before = latest;
    latest = out;
    let further = 0;
    let furthest = 0;
    let leap = 0;
    let least = Infinity;
    let fastest = 0;
    for (let at = begin; Math.abs(out) >= leastStep && find(at) && clock[next.knot] - clock[begin] <= BACK_WITHIN; ) {
      const step = next.further;
      at = next.knot;
      least = Math.min(least, next.moved);
      fastest = Math.max(fastest, next.speed);
      leap = Math.max(leap, step - Math.max(before, find(at) ? next.further : 0, 0));
      before = step;
      const back = -Math.sign(further) * step;
      further += step;
      furthest = Math.max(furthest, Math.abs(further));
      if (back < leastStep || leap < leastLeap || Math.abs(further) > LEFT * furthest) continue;
      // the rest of the way, where it leads back in several steps
      for (; find(at) && Math.abs(further + next.further) < Math.abs(further) - ROUGH; at = next.knot) {
        before = next.further;
        further += before;
        least = Math.min(least, next.moved);
        fastest = Math.max(fastest, next.speed);
      }
      const waited = Math.abs(least) <= Math.max(ROUGH, sigma[bin[begin]]) && fastest <= FASTEST;
      leaps.push({ before: begin, after: at, waited });
      begin = at - 1;
      latest = before;
      break;
    }
  }
  return leaps;
}
