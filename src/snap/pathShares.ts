import { JOINS } from './ForwardSweep';
import { Jumps } from './Jumps';
import { KnotStates } from './KnotStates';
import type { LatticeStates, Pin } from './LatticeStates';
import type { LikeliestPath } from './likeliestPath';
import type { StepWeights } from './StepWeights';

/** States further than this from the matched one, metres along the route, are another part of it. */
export const SAME_PART = 40;

/** How sure a path is. */
export interface PathShares {
  /** Share of all paths that pass the same part of the route, for each knot. */
  readonly confidence: Float32Array;
  /** The bin of the likeliest other part; -1 where there is none. */
  readonly other: Int32Array;
}

/**
 * The share of all paths that pass where the likeliest one does: the backward sweep over the lattice, on the same weights
 * as {@link ForwardSweep}, back to the first knot at which a path leads elsewhere.
 */
export function pathShares(
  states: LatticeStates,
  steps: StepWeights,
  sigma: Float64Array,
  pins: readonly Pin[],
  { bin: matched, kept }: LikeliestPath,
): PathShares {
  const { bins } = states;
  const { spacing, count, leftOut } = bins;
  const knots = states.knots.length;
  const confidence = new Float32Array(knots);
  const other = new Int32Array(knots).fill(-1);
  const jumps = new Jumps(spacing);
  const part = Math.ceil(SAME_PART / spacing);
  let here = new KnotStates();
  let next = new KnotStates();
  // up to where a path first leads to another part all pass this one, whatever they weigh
  let first = 0;
  for (; first < knots && kept.isWithin(first, matched[first], part); first++) {
    confidence[first] = kept.sizeOf(first) > 0 ? 1 : 0;
  }
  /** Weight of having left the route from here on, beside that of the states. */
  let outside = 1;
  for (let knot = knots - 1; knot >= first; knot--) {
    kept.read(knot, here);
    states.fit(knot, sigma, here);
    states.weigh(knot, pins, here);
    // the weight of all paths from each state on, and of those of the next knot what they give back
    const { size, bin: binHere, emission, best: onward, sum: forward } = here;
    if (size > 0 && next.size > 0) {
      steps.moveTo(knot + 1, sigma[binHere[0]]);
      jumps.backward(next, here, steps.skip);
      steps.backward(next, here);
    } else {
      onward.fill(0, 0, size);
    }
    const leaves = knot < knots - 1 ? JOINS * outside : 1;
    let most = 0;
    for (let i = 0; i < size; i++) {
      onward[i] += leaves * leftOut[count - 1 - binHere[i]];
      if (onward[i] > most) most = onward[i];
    }
    most = most > 0 ? most : outside;
    outside *= states.outside(knot, here) / most;
    let same = 0;
    let total = 0;
    let top = 0;
    for (let i = 0; i < size; i++) {
      onward[i] /= most;
      const share = forward[i] * onward[i];
      total += share;
      if (Math.abs(binHere[i] - matched[knot]) <= part) same += share;
      else if (share > top) {
        top = share;
        other[knot] = binHere[i];
      }
      onward[i] *= emission[i];
    }
    confidence[knot] = total > 0 ? same / total : 0;
    [here, next] = [next, here];
  }
  return { confidence, other };
}
