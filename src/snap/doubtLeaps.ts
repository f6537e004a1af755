import type { LatticeStates } from './LatticeStates';
import type { StepWeights } from './StepWeights';

/** Feet that leap so much further along the route, or back, than the body at its pace are on another part of it. */
const LEAP = 45;

/** And it was the receiver that leapt where they leap back within so many seconds, by as much but for so large a share. */
const BACK_WITHIN = 90;
const UNLIKE = 0.5;

/** From step to step no longer than so many seconds: in more, bodies change their pace. */
const CLOSE = 12;

/** How sure a fix may be in between. */
const UNSURE = 0.85;

/**
 * Lowers the confidence of fixes between a leap along the route and the leap back: a receiver that was thrown along it looks
 * the same on its line as a body that hurried, but only for so long.
 *
 * @param foot - Metres along the route of the foot of each fix.
 * @param skips - 1 at knots before which a stretch was left out or begins anew: those are no leaps of the receiver.
 * @remarks Time grows with the number of knots: of leaps, only those of the last minute and a half are remembered.
 */
export function doubtLeaps(
  { knots, clock }: LatticeStates,
  steps: StepWeights,
  foot: Float64Array,
  skips: Uint8Array,
  confidence: Float32Array,
): void {
  let leaps: { readonly knot: number; readonly metres: number }[] = [];
  for (let knot = 1; knot < knots.length; knot++) {
    if (skips[knot] === 1) leaps = [];
    if (skips[knot] === 1 || clock[knot] - clock[knot - 1] > CLOSE) continue;
    const metres = foot[knots[knot]] - foot[knots[knot - 1]] - steps.expected(knot);
    if (Math.abs(metres) < LEAP) continue;
    leaps = leaps.filter((leap) => clock[knot] - clock[leap.knot] <= BACK_WITHIN);
    const out = leaps.find((leap) => Math.abs(leap.metres + metres) <= (UNLIKE * Math.abs(leap.metres - metres)) / 2);
    if (out === undefined) {
      leaps.push({ knot, metres });
      continue;
    }
    // from the fix after the knot before: between two knots nobody knows which fixes had leapt
    for (let fix = knots[out.knot - 1] + 1; fix < knots[knot]; fix++)
      confidence[fix] = Math.min(confidence[fix], UNSURE);
    leaps = [];
  }
}
