import { ForwardSweep, JOINS } from './ForwardSweep';
import { KeptStates } from './KeptStates';
import type { LatticeStates, Pin } from './LatticeStates';
import type { StepWeights } from './StepWeights';

/** The likeliest path through the lattice, and what the fixes so far say at each knot. */
export interface LikeliestPath {
  /** The bin of each knot, or none where no fix is within reach; before the path begins and after it ends that of its first and last. */
  readonly bin: Int32Array;
  /** The states that were worth going on from, with the weight of all paths into each. */
  readonly kept: KeptStates;
  /** Logarithm of the weight of the path. */
  readonly weight: number;
}

/**
 * The likeliest path through all knots of a recording, found back from the heaviest path that ends on one.
 *
 * @param sigma - Standard deviation of a fix at each bin, metres per axis.
 * @param kept - What an earlier sweep left behind and nobody wants any more.
 */
export function likeliestPath(
  states: LatticeStates,
  steps: StepWeights,
  sigma: Float64Array,
  pins: readonly Pin[],
  kept = new KeptStates(),
): LikeliestPath {
  const knots = states.knots.length;
  kept.begin(knots);
  const sweep = new ForwardSweep(states, steps, sigma, pins);
  /** Where the heaviest path that has ended did so. */
  let lastKnot = 0;
  let lastState = 0;
  for (let knot = 0; knot < knots; knot++) {
    kept.push(knot, sweep.step(knot));
    const state = sweep.end(knot < knots - 1 ? JOINS : 1);
    if (state < 0) continue;
    lastKnot = knot;
    lastState = state;
  }
  const { ended, scaled } = sweep;
  // nothing within reach of any fix
  if (ended === 0) return { bin: new Int32Array(), kept, weight: 0 };
  const bin = new Int32Array(knots);
  bin.fill(kept.binOf(lastKnot, lastState), lastKnot);
  let state = lastState;
  for (let knot = lastKnot; ; knot--) {
    bin[knot] = kept.binOf(knot, state);
    state = kept.cameTo(knot, state);
    if (state < 0) {
      bin.fill(bin[knot], 0, knot);
      break;
    }
  }
  return { bin, kept, weight: scaled + Math.log(ended) };
}
