import { findSkips } from './findSkips';
import type { LatticeStates } from './LatticeStates';
import type { StepWeights } from './StepWeights';

/** How far from a skip, metres along the route, its crossing is looked for, and how far off its length may be. */
const WITHIN = 90;
const OFF = 30;

/** Two passes cross where they come so close, metres, and lie further apart than so many that far to either side. */
const TOUCH = 4;
const APART = 10;

/** Metres by which the places may lie further apart than the closest and still count as where they cross. */
const ALIKE = 3;

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
    const crossing = crossingNear(states, bin[knot - 1], bin[knot - 1] + onwards, bin[knot] - onwards);
    if (crossing === undefined) continue;
    const { left, right } = crossing;
    move(knot - 1, -1, (place) => place > left && place - left <= within, right - left);
    move(knot, 1, (place) => place < right && right - place <= within, left - right);
  }
}

/** The bins at which two passes cross near a bin of each, or on the way from it to another; undefined where they don't. */
function crossingNear({ bins }: LatticeStates, left: number, right: number, until: number) {
  const within = Math.round(WITHIN / bins.spacing);
  const off = Math.round(OFF / bins.spacing);
  const last = bins.count - 1;
  const nearest = (at: number) => {
    const middle = right + at - left;
    let other = -1;
    let least = Infinity;
    for (let k = Math.max(middle - off, 0); k <= Math.min(middle + off, last); k++) {
      const square = bins.square(k, bins.x[at], bins.y[at], bins.z[at]);
      if (square >= least) continue;
      least = square;
      other = k;
    }
    return { at, other, metres: Math.sqrt(least) };
  };
  const pairs: ReturnType<typeof nearest>[] = [];
  for (let at = Math.max(left - within, 0); at <= Math.min(until + within, last); at++) pairs.push(nearest(at));
  const closest = Math.min(...pairs.map(({ metres }) => metres));
  if (!(closest <= TOUCH)) return undefined;
  const there = pairs.filter(({ metres }) => metres <= closest + ALIKE);
  const mean = (values: readonly number[]) => Math.round(values.reduce((a, b) => a + b, 0) / values.length);
  const at = mean(there.map((pair) => pair.at));
  const ends = [Math.max(at - within, 0), Math.min(at + within, last)];
  if (ends.some((end) => !(nearest(end).metres > APART))) return undefined;
  return { left: at, right: mean(there.map(({ other }) => other)) };
}
