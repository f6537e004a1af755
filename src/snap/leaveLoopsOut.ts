import type { LatticeStates } from './LatticeStates';
import type { StepWeights } from './StepWeights';

/**
 * A loop is gone round within so many seconds or not at once; it is made out on knots that lie no further apart than so many,
 * or where one that lies on it lies nowhere near its fix, standard deviations.
 */
const AT_ONCE = 60;
const CLOSE = 8;
const NOWHERE_NEAR = 4;

/** No body goes faster than its fixes and its pace say by more than half, but for errors: metres, and standard deviations. */
const HASTE = 1.5;
const ERRORS = 20;
const ERRORS_SIGMAS = 2;

/**
 * Takes loops of the route out of a path that went round them faster than a body could while its fixes went straight on:
 * writes the knots before and after to where the body was if it left the loop out.
 *
 * @param bin - The bin of each knot, read and written.
 * @remarks A step from knot to knot forgives errors of the receiver, and a small loop is gone round in a few; together they
 * can't be forgiven.
 */
export function leaveLoopsOut(states: LatticeStates, steps: StepWeights, sigma: Float64Array, bin: Int32Array): void {
  const { bins, clock, x, y, z } = states;
  const square = (knot: number) => bins.square(bin[knot], x[knot], y[knot], z[knot]);
  const knots = bin.length;
  const slow = (knot: number) => HASTE * Math.max(steps.expected(knot), steps.moved(knot));
  // most often no stretch is gone over so fast, which takes no pairs of knots to see
  let fast = false;
  for (let knot = 1, beyond = 0; knot < knots && !fast; knot++) {
    beyond = Math.max(beyond + (bin[knot] - bin[knot - 1]) * bins.spacing - slow(knot), 0);
    fast = beyond >= ERRORS;
  }
  if (!fast) return;
  for (let from = 0, begin = 0, end = 0, most = 0; from <= knots; from++) {
    if (end > 0 && (from >= end || from === knots)) {
      straighten(states, steps, bin, begin, end);
      end = most = 0;
    }
    const errors = from < knots ? ERRORS + ERRORS_SIGMAS * sigma[bin[from]] : 0;
    let slowly = 0;
    let sparse = false;
    let stray = false;
    for (let to = from + 1; to < knots && clock[to] - clock[from] <= AT_ONCE; to++) {
      sparse ||= clock[to] - clock[to - 1] > CLOSE;
      stray ||= to > from + 1 && square(to - 1) > (NOWHERE_NEAR * sigma[bin[to - 1]]) ** 2;
      slowly += slow(to);
      const metres = (bin[to] - bin[from]) * bins.spacing;
      const beyond = metres - slowly - errors;
      if (sparse && !stray) continue;
      if (beyond <= most || straightTo(states, bin[from], bin[to]) > Math.min(metres / 2, slowly + errors)) continue;
      begin = from;
      end = to;
      most = beyond;
    }
  }
}

/** Metres from one bin straight to another. */
function straightTo({ bins }: LatticeStates, from: number, to: number): number {
  return Math.sqrt(bins.square(to, bins.x[from], bins.y[from], bins.z[from]));
}

/** From its pace up to one knot to its pace from another on, changing over where the fixes lie closest. */
function straighten(states: LatticeStates, steps: StepWeights, bin: Int32Array, begin: number, end: number): void {
  const { bins, clock, x, y, z } = states;
  const pace = steps.expected(end) / Math.max(clock[end] - clock[end - 1], 1) / bins.spacing;
  const left = (knot: number) => Math.min(Math.round(bin[begin] + pace * (clock[knot] - clock[begin])), bin[end]);
  const right = (knot: number) => Math.max(Math.round(bin[end] - pace * (clock[end] - clock[knot])), bin[begin]);
  const square = (place: number, knot: number) => bins.square(place, x[knot], y[knot], z[knot]);
  let closer = 0;
  let closest = 0;
  let last = begin;
  for (let knot = begin + 1; knot < end; knot++) {
    closer += square(right(knot), knot) - square(left(knot), knot);
    if (closer <= closest) continue;
    closest = closer;
    last = knot;
  }
  for (let knot = begin + 1; knot < end; knot++) bin[knot] = knot <= last ? left(knot) : right(knot);
}
