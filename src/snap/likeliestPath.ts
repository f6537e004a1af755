import { Jumps } from './Jumps';
import { KeptStates, MOST_KEPT } from './KeptStates';
import { KnotStates } from './KnotStates';
import type { LatticeStates, Pin } from './LatticeStates';
import type { StepWeights } from './StepWeights';

/**
 * States that weigh less than this share of another within so many metres of the route go no further; nor do any that weigh
 * less than a share of the heaviest that is less than it takes to get there from it at any time.
 */
const OUTWEIGHED = 1e-3;
const OUTWEIGHED_WITHIN = 60;
const HOPELESS = 1e-18;

/** Nor more states than so many, the heaviest, however many laps there are: half a dozen passes. */
const MOST = 96;

/** Where the heaviest state fits its fix worse than this, 4 standard deviations, the body may be on any other pass. */
const LOST = 0.01;

/** What it weighs to join the route later than the recording begins, or to leave it before it ends. */
export const JOINS = Math.exp(-3);

/** However little a step moves as its fixes do, it weighs no less: a receiver gone wild. */
export const WILD_TAIL = Math.exp(3);
export const WILDEST = WILD_TAIL ** -3;

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
  const { x, y, z, spacing, count, leftOut } = bins;
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
    states.weigh(knot, sigma, pins, here);
    const { size, bin: binHere, emission, skip, best, sum, came } = here;
    if (before.size > 0 && size > 0) {
      const dx = states.x[knot] - states.x[knot - 1];
      const dy = states.y[knot] - states.y[knot - 1];
      const dz = states.z[knot] - states.z[knot - 1];
      const { size: sizeBefore, bin: binBefore, best: bestBefore, sum: sumBefore } = before;
      const { lowest, highest, weights, spread } = steps;
      let low = 0;
      for (let j = 0; j < size; j++) {
        const bin = binHere[j];
        while (low < sizeBefore && binBefore[low] < bin - highest) low++;
        // where the state before must have been for the route to move as the fixes did
        const fromX = x[bin] - dx;
        const fromY = y[bin] - dy;
        const fromZ = z[bin] - dz;
        let top = best[j] * skip[j];
        let total = sum[j] * skip[j];
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
    }
    const joins = knot > 0 ? JOINS : 1;
    let top = 0;
    let most = 0;
    for (let j = 0; j < size; j++) {
      const joined = joins * leftOut[binHere[j]];
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
    prune(here, within);
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

/**
 * Drops the states that no path worth a thought goes on from.
 *
 * @param within - Bins within which a state may outweigh another.
 */
function prune(states: KnotStates, within: number): void {
  const { bin, best, sum, fit, worth, queue, marked } = states;
  const { size } = states;
  let heaviest = 0;
  for (let j = 0; j < size; j++) {
    if (best[j] <= heaviest) continue;
    heaviest = best[j];
    states.lost = fit[j] < LOST;
    states.heaviest = bin[j];
  }
  for (let j = 0; j < size; j++) worth[j] = Math.max(best[j] / heaviest, sum[j]);
  let least = HOPELESS;
  for (let left = size; left > MOST; ) {
    left = 0;
    for (let j = 0; j < size; j++) if (worth[j] * fit[j] >= 100 * least) left++;
    // unless all weigh alike
    if (left > 0) least *= 100;
  }
  for (let j = 0; j < size; j++) marked[j] = worth[j] * fit[j] < least ? 1 : 0;
  states.drop();
  // the heaviest within the window comes first in the queue, behind it those that will be once it has fallen behind
  let head = 0;
  let tail = 0;
  let next = 0;
  for (let j = 0; j < states.size; j++) {
    for (; next < states.size && bin[next] <= bin[j] + within; next++) {
      while (tail > head && worth[queue[tail - 1]] <= worth[next]) tail--;
      queue[tail++] = next;
    }
    while (bin[queue[head]] < bin[j] - within) head++;
    marked[j] = worth[j] < OUTWEIGHED * worth[queue[head]] ? 1 : 0;
  }
  states.drop();
  if (states.size > MOST_KEPT) states.size = MOST_KEPT;
}
