import { Jumps, power } from './Jumps';
import { KeptStates } from './KeptStates';
import { KnotStates } from './KnotStates';
import type { LatticeStates, Pin } from './LatticeStates';
import type { StepWeights } from './StepWeights';

/**
 * States that weigh less than this share of one near them go no further, and less than so much less of one further away:
 * the share falls with each metre of the route between them, slower than weights do beside the likeliest place, so that
 * other passes stay.
 */
const OUTWEIGHED = 1e-6;
const OUTWEIGHED_FALLS = 0.15;

/** Nor do any that weigh less than this share of the heaviest: less than it takes to get there from it at any time. */
const HOPELESS = 1e-21;

/** What it weighs to join the route later than the recording begins, or to leave it before it ends. */
export const JOINS = Math.exp(-3);

/** However little a step moves as its fixes do, it weighs no less: a receiver gone wild. */
export const WILD_TAIL = Math.exp(3);
export const WILDEST = WILD_TAIL ** -3;

/** The likeliest path through the lattice, and what the fixes so far say at each knot. */
export interface LikeliestPath {
  /** The bin of each knot; before the path begins and after it ends that of its first and last. */
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
 * @see Newson & Krumm, Hidden Markov map matching through noise and sparseness, ACM GIS 2009: the idea of the model
 * @see Rabiner, A tutorial on hidden Markov models, Proc. IEEE 77 (1989), §III: the recursions and their scaling
 */
export function likeliestPath(
  states: LatticeStates,
  steps: StepWeights,
  sigma: Float64Array,
  pins: readonly Pin[],
): LikeliestPath {
  const { bins } = states;
  const { x, y, z, spacing, count } = bins;
  const knots = states.knots.length;
  const kept = new KeptStates(knots);
  let here = new KnotStates();
  let before = new KnotStates();
  const jumps = new Jumps(spacing);
  const falls = Math.exp(-OUTWEIGHED_FALLS * spacing);
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
    states.weigh(knot, sigma, pins, here);
    const { size, bin: binHere, emission, best, sum, came } = here;
    if (before.size > 0 && size > 0) {
      const dx = states.x[knot] - states.x[knot - 1];
      const dy = states.y[knot] - states.y[knot - 1];
      const dz = states.z[knot] - states.z[knot - 1];
      const { size: sizeBefore, bin: binBefore, best: bestBefore, sum: sumBefore } = before;
      steps.moveTo(knot, sigma[binHere[0]]);
      const { lowest, highest, weights, spread, skip } = steps;
      jumps.best(before, here, skip);
      jumps.forward(before, sumBefore, here, skip, sum);
      let low = 0;
      for (let j = 0; j < size; j++) {
        const bin = binHere[j];
        while (low < sizeBefore && binBefore[low] < bin - highest) low++;
        // where the state before must have been for the route to move as the fixes did
        const fromX = x[bin] - dx;
        const fromY = y[bin] - dy;
        const fromZ = z[bin] - dz;
        let top = best[j];
        let total = sum[j];
        let from = came[j];
        for (let i = low; i < sizeBefore; i++) {
          const step = bin - binBefore[i] - lowest;
          if (step < 0) break;
          const ex = fromX - x[binBefore[i]];
          const ey = fromY - y[binBefore[i]];
          const ez = fromZ - z[binBefore[i]];
          const tail = 1 + (ex * ex + ey * ey + ez * ez) * spread;
          const weight = weights[step] * (tail < WILD_TAIL ? 1 / (tail * tail * tail) : WILDEST);
          const value = bestBefore[i] * weight;
          if (value > top) {
            top = value;
            from = i;
          }
          total += sumBefore[i] * weight;
        }
        best[j] = top;
        sum[j] = total;
        came[j] = from;
      }
    } else {
      best.fill(0, 0, size);
      sum.fill(0, 0, size);
    }
    const joins = knot > 0 ? JOINS : 1;
    let top = 0;
    let most = 0;
    for (let j = 0; j < size; j++) {
      const joined = joins * states.leftOut(binHere[j]);
      if (joined * outside > best[j]) {
        best[j] = joined * outside;
        came[j] = -1;
      }
      best[j] *= emission[j];
      sum[j] = (sum[j] + joined * allOutside) * emission[j];
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
    prune(here, falls);
    kept.push(knot, here);
    for (let j = 0; j < here.size; j++) {
      const value = best[j] * states.leftOut(count - 1 - binHere[j]) * (knot < knots - 1 ? JOINS : 1);
      if (value > ended) {
        ended = value;
        lastKnot = knot;
        lastState = j;
      }
    }
    [here, before] = [before, here];
  }
  const bin = new Int32Array(knots);
  let state = kept.first[lastKnot] + lastState;
  bin.fill(kept.binOf(state), lastKnot);
  for (let knot = lastKnot; ; knot--) {
    bin[knot] = kept.binOf(state);
    const from = kept.cameTo(state);
    if (from < 0) {
      bin.fill(bin[knot], 0, knot);
      break;
    }
    state = kept.first[knot - 1] + from;
  }
  return { bin, kept, weight: scaled + Math.log(ended) };
}

/**
 * Drops the states that no path worth a thought goes on from.
 *
 * @param falls - What is left after a bin of the weight by which one state outweighs another.
 */
function prune(states: KnotStates, falls: number): void {
  const { size, bin, best, sum, came, fit, emission, worth } = states;
  let heaviest = 0;
  for (let j = 0; j < size; j++) if (best[j] > heaviest) heaviest = best[j];
  for (let j = 0; j < size; j++) worth[j] = Math.max(best[j] / heaviest, sum[j]);
  let most = 0;
  for (let j = size - 1; j >= 0; j--) {
    most *= j + 1 < size ? power(falls, bin[j + 1] - bin[j]) : 1;
    if (worth[j] > most) most = worth[j];
    else if (worth[j] < OUTWEIGHED * most) worth[j] *= -1;
  }
  most = 0;
  let last = 0;
  let kept = 0;
  for (let j = 0; j < size; j++) {
    most *= j > 0 ? power(falls, bin[j] - last) : 1;
    last = bin[j];
    if (Math.abs(worth[j]) > most) most = Math.abs(worth[j]);
    if (worth[j] < HOPELESS || worth[j] < OUTWEIGHED * most) continue;
    bin[kept] = bin[j];
    best[kept] = best[j];
    sum[kept] = sum[j];
    came[kept] = came[j];
    fit[kept] = fit[j];
    emission[kept++] = emission[j];
  }
  states.size = kept;
}
