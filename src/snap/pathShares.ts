import { Jumps } from './Jumps';
import type { LatticeStates, Pin } from './LatticeStates';
import type { LikeliestPath } from './likeliestPath';
import { rescale } from './rescale';
import type { StepWeights } from './StepWeights';

/** States further than this from the matched one, metres along the route, are another part of it. */
const SAME_PART = 40;

/** States that less than this share of all paths pass are not looked through. */
const HOPELESS = 1e-9;

/** How sure a path is. */
export interface PathShares {
  /** Share of all paths that pass the same part of the route, for each knot. */
  readonly confidence: Float32Array;
  /** The bin of the likeliest other part; -1 where there is none. */
  readonly other: Int32Array;
}

/**
 * The share of all paths that pass where the likeliest one does: the backward sweep over the lattice, on the same weights
 * as {@link likeliestPath}.
 */
export function pathShares(
  states: LatticeStates,
  steps: StepWeights,
  sigma: Float64Array,
  pins: readonly Pin[],
  { bin: matched, forward }: LikeliestPath,
): PathShares {
  const { bins, first, widest } = states;
  const { x, y, z, spacing } = bins;
  const knots = states.knots.length;
  const confidence = new Float32Array(knots);
  const other = new Int32Array(knots).fill(-1);
  const jumps = new Jumps(spacing);
  const part = Math.ceil(SAME_PART / spacing);
  let here = states.room();
  let next = states.room();
  // weight of all paths from each state on; of those of the next knot, what they give back
  const onward = new Float64Array(widest);
  const given = new Float64Array(widest);
  // of the states of the next knot that matter
  const liveBin = new Int32Array(widest);
  const liveX = new Float64Array(widest);
  const liveY = new Float64Array(widest);
  const liveZ = new Float64Array(widest);
  const liveValue = new Float64Array(widest);
  let lives = 0;
  for (let knot = knots - 1; knot >= 0; knot--) {
    states.write(knot, sigma, pins, here);
    const base = first[knot];
    const { size, bin: binHere, emission } = here;
    if (knot === knots - 1) {
      for (let i = 0; i < size; i++) onward[i] = states.leftOut(binHere[size - 1] - binHere[i]);
    } else {
      const dx = states.x[knot + 1] - states.x[knot];
      const dy = states.y[knot + 1] - states.y[knot];
      const dz = states.z[knot + 1] - states.z[knot];
      steps.moveTo(knot + 1, sigma[next.bin[0]]);
      const { lowest, highest, weights, spread } = steps;
      jumps.backward(next, given, here, onward);
      let low = 0;
      for (let i = 0; i < size; i++) {
        const bin = binHere[i];
        while (low < lives && liveBin[low] < bin + lowest) low++;
        const ledX = x[bin] + dx;
        const ledY = y[bin] + dy;
        const ledZ = z[bin] + dz;
        let total = onward[i];
        for (let j = low; j < lives; j++) {
          const step = liveBin[j] - bin;
          if (step > highest) break;
          const ex = liveX[j] - ledX;
          const ey = liveY[j] - ledY;
          const ez = liveZ[j] - ledZ;
          const tail = 1 + (ex * ex + ey * ey + ez * ez) * spread;
          total += (liveValue[j] * weights[step - lowest]) / (tail * tail * tail);
        }
        onward[i] = total;
      }
      rescale(onward, size);
    }
    let same = 0;
    let total = 0;
    let top = 0;
    for (let i = 0; i < size; i++) {
      const share = forward[base + i] * onward[i];
      total += share;
      if (Math.abs(binHere[i] - matched[knot]) <= part) same += share;
      else if (share > top) {
        top = share;
        other[knot] = binHere[i];
      }
    }
    confidence[knot] = total > 0 ? same / total : 0;
    lives = 0;
    for (let i = 0; i < size; i++) {
      given[i] = onward[i] * emission[i];
      if (forward[base + i] * onward[i] < HOPELESS * total) continue;
      const bin = binHere[i];
      liveBin[lives] = bin;
      liveX[lives] = x[bin];
      liveY[lives] = y[bin];
      liveZ[lives] = z[bin];
      liveValue[lives++] = given[i];
    }
    [here, next] = [next, here];
  }
  return { confidence, other };
}
