import { crossingNear, WITHIN } from './crossingNear';
import { findSkips } from './findSkips';
import type { LatticeStates } from './LatticeStates';
import type { StepWeights } from './StepWeights';

/**
 * How much the fixes on the way to the crossing may speak for the pass that they were placed on, natural logarithm of the odds:
 * leaping over beside a crossing is unlikelier than that. Errors persist, so that so many seconds speak once.
 */
const SPEAKS = 4;
const PERSISTS = 30;

/**
 * Moves skips to where the pass that was left and the one that was come to cross, unless the fixes on the way there speak
 * against it: no body leaps from one to the other beside the crossing, and what of the stretch left out nobody rode stays
 * uncovered.
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
  const { bins, clock, x, y, z } = states;
  const skips = findSkips(states, steps, bin);
  const within = WITHIN / bins.spacing;
  /** Places the knots from one on, back or ahead as long as they are `beside` a crossing, so many bins further. */
  const move = (first: number, way: number, beside: (place: number) => boolean, further: number) => {
    let speaks = 0;
    let k = first;
    for (; k >= 0 && k < bin.length && beside(bin[k]) && speaks <= SPEAKS; k += way) {
      const other = bin[k] + further;
      if (other < 0 || other >= bins.count) return;
      const seconds = k > 0 ? Math.min(clock[k] - clock[k - 1], PERSISTS) : PERSISTS;
      const squares = bins.square(other, x[k], y[k], z[k]) - bins.square(bin[k], x[k], y[k], z[k]);
      speaks += (squares / (2 * sigma[bin[k]] ** 2)) * (seconds / PERSISTS);
    }
    if (speaks > SPEAKS) return;
    for (let moved = first; moved !== k; moved += way) bin[moved] += further;
  };
  for (let knot = 1; knot < bin.length; knot++) {
    if (skips[knot] === 0) continue;
    const onwards = bin[knot] - bin[knot - 1] - Math.round(steps.expected(knot) / bins.spacing);
    const crossing = crossingNear(bins, bin[knot - 1], bin[knot - 1] + onwards, bin[knot] - onwards);
    if (crossing === undefined) continue;
    const { left, right } = crossing;
    move(knot - 1, -1, (place) => place > left && place - left <= within, right - left);
    move(knot, 1, (place) => place < right && right - place <= within, left - right);
  }
}
