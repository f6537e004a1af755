import { Jumps } from './Jumps';
import type { LatticeStates, Pin } from './LatticeStates';
import { rescale } from './rescale';
import type { StepWeights } from './StepWeights';

/** The likeliest path through the lattice, and what the fixes so far say at each knot. */
export interface LikeliestPath {
  /** The bin of each knot. */
  readonly bin: Int32Array;
  /** Weight of all paths into each state, the heaviest of each knot 1. */
  readonly forward: Float32Array;
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
  const { bins, first, widest } = states;
  const { x, y, z, spacing } = bins;
  const knots = states.knots.length;
  const forward = new Float32Array(first[knots]);
  /** The state before, counted within its knot. */
  const back = new (widest <= 65536 ? Uint16Array : Int32Array)(first[knots]);
  let here = states.room();
  let before = states.room();
  let best = new Float64Array(widest);
  let sum = new Float64Array(widest);
  let bestBefore = new Float64Array(widest);
  let sumBefore = new Float64Array(widest);
  const came = new Int32Array(widest);
  const jumps = new Jumps(spacing);
  // where the motion of the fixes leads from each state before
  const ledX = new Float64Array(widest);
  const ledY = new Float64Array(widest);
  const ledZ = new Float64Array(widest);
  for (let knot = 0; knot < knots; knot++) {
    states.write(knot, sigma, pins, here);
    const { size, bin: binHere, emission } = here;
    const base = first[knot];
    if (knot === 0) {
      // more than the first state: all that they leave out could weigh less than a number can be small
      for (let j = 0; j < size; j++) best[j] = sum[j] = states.leftOut(binHere[j] - binHere[0]);
    } else {
      const dx = states.x[knot] - states.x[knot - 1];
      const dy = states.y[knot] - states.y[knot - 1];
      const dz = states.z[knot] - states.z[knot - 1];
      const { size: sizeBefore, bin: binBefore } = before;
      for (let i = 0; i < sizeBefore; i++) {
        ledX[i] = x[binBefore[i]] + dx;
        ledY[i] = y[binBefore[i]] + dy;
        ledZ[i] = z[binBefore[i]] + dz;
      }
      steps.moveTo(knot, sigma[binHere[0]]);
      const { lowest, highest, weights, spread } = steps;
      jumps.best(before, bestBefore, here, best, came);
      jumps.forward(before, sumBefore, here, sum);
      let low = 0;
      for (let j = 0; j < size; j++) {
        const bin = binHere[j];
        while (low < sizeBefore && binBefore[low] < bin - highest) low++;
        const hereX = x[bin];
        const hereY = y[bin];
        const hereZ = z[bin];
        let top = best[j];
        let total = sum[j];
        let from = came[j];
        for (let i = low; i < sizeBefore; i++) {
          const step = bin - binBefore[i] - lowest;
          if (step < 0) break;
          const ex = hereX - ledX[i];
          const ey = hereY - ledY[i];
          const ez = hereZ - ledZ[i];
          const tail = 1 + (ex * ex + ey * ey + ez * ez) * spread;
          const weight = weights[step] / (tail * tail * tail);
          const value = bestBefore[i] * weight;
          if (value > top) {
            top = value;
            from = i;
          }
          total += sumBefore[i] * weight;
        }
        best[j] = top;
        sum[j] = total;
        back[base + j] = from;
      }
    }
    for (let j = 0; j < size; j++) {
      best[j] *= emission[j];
      sum[j] *= emission[j];
    }
    rescale(best, size);
    rescale(sum, size);
    for (let j = 0; j < size; j++) forward[base + j] = sum[j];
    [here, before] = [before, here];
    [best, bestBefore] = [bestBefore, best];
    [sum, sumBefore] = [sumBefore, sum];
  }
  const bin = new Int32Array(knots);
  let state = 0;
  let top = 0;
  for (let j = 0; j < before.size; j++) {
    const value = bestBefore[j] * states.leftOut(before.bin[before.size - 1] - before.bin[j]);
    if (value > top) {
      top = value;
      state = j;
    }
  }
  for (let knot = knots - 1; knot >= 0; knot--) {
    bin[knot] = states.binOf(knot, state);
    state = back[first[knot] + state];
  }
  return { bin, forward };
}
