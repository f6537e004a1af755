import { findSkips } from './findSkips';
import type { LatticeStates } from './LatticeStates';
import type { StepWeights } from './StepWeights';

/** How far from a skip, metres along the route, its crossing is looked for, and how far off its length may be. */
const WITHIN = 60;
const OFF = 30;

/** Two passes cross where they come so close, metres, and lie further apart than so many at both ends of what is looked at. */
const TOUCH = 4;
const APART = 10;

/** Metres by which the places may lie further apart than the closest and still count as where they cross. */
const ALIKE = 3;

/** A fix that lies further from the one pass than from the other by less, metres and standard deviations, may be on both. */
const ONE = 10;
const ONE_SIGMAS = 2;

/**
 * Moves skips to where the pass that was left and the one that was come to cross, where fixes fit both alike on the way there:
 * no body leaps from one to the other beside the crossing, and what of the stretch left out nobody rode stays uncovered.
 *
 * @param bin - The bin of each knot, read and written.
 * @remarks The crossing is found to a few metres: bins lie 5 m apart.
 */
export function skipsAtCrossings(
  states: LatticeStates,
  steps: StepWeights,
  sigma: Float64Array,
  bin: Int32Array,
): void {
  const { bins, x, y, z } = states;
  const skips = findSkips(states, steps, bin);
  for (let knot = 1; knot < bin.length; knot++) {
    if (skips[knot] === 0) continue;
    const onwards = bin[knot] - bin[knot - 1] - Math.round(steps.expected(knot) / bins.spacing);
    const crossing = crossingNear(states, bin[knot - 1], bin[knot - 1] + onwards);
    if (crossing === undefined) continue;
    const { left, right } = crossing;
    const alike = (k: number, other: number) => {
      if (other < 0 || other >= bins.count) return false;
      const own = Math.sqrt(bins.square(bin[k], x[k], y[k], z[k]));
      const there = Math.sqrt(bins.square(other, x[k], y[k], z[k]));
      return there - own <= Math.max(ONE, ONE_SIGMAS * sigma[bin[k]]);
    };
    const within = WITHIN / bins.spacing;
    for (let k = knot - 1; k >= 0 && bin[k] > left && bin[k] - left <= within; k--) {
      if (!alike(k, right + bin[k] - left)) break;
      bin[k] += right - left;
    }
    for (let k = knot; k < bin.length && bin[k] < right && right - bin[k] <= within; k++) {
      if (!alike(k, left + bin[k] - right)) break;
      bin[k] += left - right;
    }
  }
}

/** The bins at which two passes cross near a bin of each; undefined where they don't. */
function crossingNear({ bins }: LatticeStates, left: number, right: number) {
  const within = Math.round(WITHIN / bins.spacing);
  const off = Math.round(OFF / bins.spacing);
  const last = bins.count - 1;
  const pairs: { readonly at: number; readonly other: number; readonly metres: number }[] = [];
  for (let at = Math.max(left - within, 0); at <= Math.min(left + within, last); at++) {
    const middle = right + at - left;
    let other = -1;
    let least = Infinity;
    for (let k = Math.max(middle - off, 0); k <= Math.min(middle + off, last); k++) {
      const square = bins.square(k, bins.x[at], bins.y[at], bins.z[at]);
      if (square >= least) continue;
      least = square;
      other = k;
    }
    pairs.push({ at, other, metres: Math.sqrt(least) });
  }
  const closest = Math.min(...pairs.map(({ metres }) => metres));
  if (!(closest <= TOUCH && pairs[0].metres > APART && pairs[pairs.length - 1].metres > APART)) return undefined;
  const there = pairs.filter(({ metres }) => metres <= closest + ALIKE);
  const mean = (values: readonly number[]) => Math.round(values.reduce((a, b) => a + b, 0) / values.length);
  return { left: mean(there.map(({ at }) => at)), right: mean(there.map(({ other }) => other)) };
}
