import type { LatticeStates } from './LatticeStates';
import type { StepWeights } from './StepWeights';
import { upperMedian } from './upperMedian';

/** Knots to either side that say how fast the body went along the route. */
const NEIGHBOURS = 15;

/** No body goes faster than it usually does by more than half, and two fixes may err by so many metres together. */
const HASTE = 1.5;
const ERRORS = 20;

/**
 * 1 at each knot that was not ridden to: a stretch of the route was left out before it, or is gone over again from there.
 * That is where the route leads further than a body gets in the time, and the straight way across is shorter by half.
 */
export function findSkips(states: LatticeStates, steps: StepWeights, bin: Int32Array): Uint8Array {
  const { bins, clock } = states;
  const knots = bin.length;
  const skips = new Uint8Array(knots);
  const around = new Float64Array(2 * NEIGHBOURS);
  for (let knot = 1; knot < knots; knot++) {
    const step = bin[knot] - bin[knot - 1];
    steps.reach(knot);
    if (step < steps.lowest || step > steps.highest) {
      skips[knot] = 1;
      continue;
    }
    const metres = step * bins.spacing;
    if (metres <= HASTE * steps.expected(knot) + ERRORS) continue;
    const from = bin[knot - 1];
    const straight = Math.sqrt(bins.square(bin[knot], bins.x[from], bins.y[from], bins.z[from]));
    if (straight > metres / 2) continue;
    // of sparse fixes on laps the way from one to the next says little of the pace: the route says more
    let count = 0;
    for (let k = Math.max(knot - NEIGHBOURS, 1); k <= Math.min(knot + NEIGHBOURS, knots - 1); k++) {
      const seconds = clock[k] - clock[k - 1];
      if (k !== knot && seconds > 0 && bin[k] > bin[k - 1]) {
        around[count++] = ((bin[k] - bin[k - 1]) * bins.spacing) / seconds;
      }
    }
    const pace = count > 0 ? upperMedian(around.subarray(0, count)) : 0;
    if (metres > HASTE * pace * (clock[knot] - clock[knot - 1]) + ERRORS) skips[knot] = 1;
  }
  return skips;
}
