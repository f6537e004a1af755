import { dropHopeless, HOPELESS } from './dropHopeless';
import { Jumps } from './Jumps';
import { KeptStates } from './KeptStates';
import { KnotStates } from './KnotStates';
import type { LatticeStates, Pin } from './LatticeStates';
import { pruneStates } from './pruneStates';
import type { StepWeights } from './StepWeights';

/** Metres of the route within which a state may outweigh another so that it goes no further. */
const OUTWEIGHED_WITHIN = 60;

/** What it weighs to join the route later than the recording begins, or to leave it before it ends. */
export const JOINS = Math.exp(-3);

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
 * The likeliest path by max-product, and the weight of all paths so far by sum-product in the same sweep, in the linear
 * domain, scaled at every knot.
 *
 * Paths are weighed by how far the fixes lie from the route and by how the route moves along them against how the fixes
 * moved. Weights fall off as Student's t with 4 degrees of freedom, in two dimensions (1 + r²/4σ²)⁻³: heavy tails for
 * heavy-tailed errors, and no exponential in the inner loop.
 *
 * @param sigma - Standard deviation of a fix at each bin, metres per axis.
 * @param kept - What an earlier sweep left behind and nobody wants any more.
 * @see Newson & Krumm, Hidden Markov map matching through noise and sparseness, ACM GIS 2009: the idea of the model
 * @see Rabiner, A tutorial on hidden Markov models, Proc. IEEE 77 (1989), §III: the recursions and their scaling
 */
export function likeliestPath(
  states: LatticeStates,
  steps: StepWeights,
  sigma: Float64Array,
  pins: readonly Pin[],
  kept = new KeptStates(),
): LikeliestPath {
  const { bins } = states;
  const { spacing, count, leftOut } = bins;
  const knots = states.knots.length;
  kept.begin(knots);
  let here = new KnotStates();
  let before = new KnotStates();
  const jumps = new Jumps(spacing);
  const within = Math.round(OUTWEIGHED_WITHIN / spacing);
  /** Weight of having been outside the route so far: beside the heaviest path, and beside all. */
  let outside = 1;
  let allOutside = 1;
  /** The heaviest path that has ended, where, and the logarithm of what paths have been scaled by. */
  let ended = 0;
  let lastKnot = 0;
  let lastState = 0;
  let scaled = 0;
  for (let knot = 0; knot < knots; knot++) {
    if (knot > 0) steps.reach(knot);
    states.write(knot, before, steps.lowest, steps.highest, here);
    if (before.size > 0 && here.size > 0) {
      steps.moveTo(knot, sigma[before.bin[0]]);
      jumps.best(before, here, steps.skip);
      jumps.forward(before, here, steps.skip);
      // where no step leads, and a skip at too high a price
      for (let j = 0; j < here.size; j++) if (here.best[j] >= HOPELESS || here.sum[j] >= HOPELESS) here.marked[j] = 0;
      here.drop();
    } else {
      here.best.fill(0, 0, here.size);
      here.sum.fill(0, 0, here.size);
    }
    states.fit(knot, sigma, here);
    if (before.size > 0 && here.size > 0) steps.forward(before, here);
    const { best, sum, bin: binHere, emission, came } = here;
    const joins = knot > 0 ? JOINS : 1;
    for (let j = 0; j < here.size; j++) {
      const joined = joins * leftOut[binHere[j]];
      if (joined * outside > best[j]) {
        best[j] = joined * outside;
        came[j] = -1;
      }
      sum[j] += joined * allOutside;
    }
    dropHopeless(here);
    states.weigh(knot, pins, here);
    const { size } = here;
    let top = 0;
    let most = 0;
    for (let j = 0; j < size; j++) {
      best[j] *= emission[j];
      sum[j] *= emission[j];
      if (best[j] > top) top = best[j];
      if (sum[j] > most) most = sum[j];
    }
    const leaves = states.outside(knot, here);
    top = Math.max(top, outside * leaves, ended * leaves);
    scaled += Math.log(top);
    outside *= leaves / top;
    ended *= leaves / top;
    // all that is outside is no path, so that the states alone set the scale as soon as there are any
    most = most > 0 ? most : allOutside * leaves;
    allOutside *= leaves / most;
    for (let j = 0; j < size; j++) {
      best[j] /= top;
      sum[j] /= most;
    }
    pruneStates(here, within);
    kept.push(knot, here);
    for (let j = 0; j < here.size; j++) {
      const value = best[j] * leftOut[count - 1 - binHere[j]] * (knot < knots - 1 ? JOINS : 1);
      if (value > ended) {
        ended = value;
        lastKnot = knot;
        lastState = j;
      }
    }
    [here, before] = [before, here];
  }
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
