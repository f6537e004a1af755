import type { Bins } from './Bins';
import { eachFix } from './eachFix';
import type { FixTrack } from './FixTrack';
import { findSkips } from './findSkips';
import { footNear } from './footNear';
import type { LatticeStates } from './LatticeStates';
import type { PreparedRoute } from './PreparedRoute';
import type { StepWeights } from './StepWeights';

/** A body wanders across by so many metres in a second, and the error of a receiver persists for so many seconds. */
const WANDER = 2.5;
const PERSISTS = 30;

/**
 * The places of all fixes from those of the knots: every fix between two knots lies between their places, by the clock. Where
 * the body left one part of the route for another between them, it went on at its pace from the one, and came at its pace to
 * the other: the fixes change over where that keeps them close to the route, and the one place close to the other.
 *
 * @param sigma - Standard deviation of a fix at each bin, metres per axis.
 * @param at - The answer: metres along the route of each fix.
 * @returns 1 at each knot before which a stretch was left out or begins anew
 */
export function fixPlaces(
  { route, tree, bins }: PreparedRoute,
  track: FixTrack,
  states: LatticeStates,
  steps: StepWeights,
  sigma: Float64Array,
  bin: Int32Array,
  at: Float64Array,
): Uint8Array {
  const { knots, clock } = states;
  const { spacing } = bins;
  const skips = findSkips(states, steps, bin);
  eachFix(track, knots, (i, knot, next, share) => {
    at[i] = (bin[knot] + share * (bin[next] - bin[knot])) * spacing;
  });
  const distance = (fix: number, place: number): number => {
    tree.moveTo(track.lon[fix], track.lat[fix]);
    footNear(route, tree, place);
    return tree.distance;
  };
  for (let knot = 1; knot < knots.length; knot++) {
    if (skips[knot] === 0) continue;
    const seconds = clock[knot] - clock[knot - 1];
    const pace = seconds > 0 ? steps.expected(knot) / seconds : 0;
    const left = (fix: number) =>
      Math.min(bin[knot - 1] * spacing + pace * (track.clock[fix] - clock[knot - 1]), route.length);
    const right = (fix: number) => Math.max(bin[knot] * spacing - pace * (clock[knot] - track.clock[fix]), 0);
    // what it costs to leap from the one place to the other after a fix
    const leap = (fix: number) => apart(bins, left(fix), right(fix)) ** 2 / (2 * WANDER ** 2);
    // how much closer the fixes so far lie to the route that they leave than to the one that they come to
    let closer = 0;
    let lastLeft = knots[knot - 1];
    let best = -leap(lastLeft);
    for (let fix = knots[knot - 1] + 1; fix < knots[knot]; fix++) {
      const share = Math.min((track.clock[fix] - track.clock[fix - 1]) / PERSISTS, 1) / (2 * sigma[bin[knot]] ** 2);
      closer += share * (distance(fix, right(fix)) ** 2 - distance(fix, left(fix)) ** 2);
      const worth = closer - leap(fix);
      if (worth <= best) continue;
      best = worth;
      lastLeft = fix;
    }
    for (let fix = knots[knot - 1] + 1; fix < knots[knot]; fix++) at[fix] = fix <= lastLeft ? left(fix) : right(fix);
  }
  return skips;
}

/** Metres straight from one place on the route to another. */
function apart({ x, y, z, spacing, count }: Bins, from: number, to: number): number {
  const coordinate = (values: Float64Array, place: number) => {
    const before = Math.min(Math.floor(place / spacing), count - 2);
    return values[before] + (place / spacing - before) * (values[before + 1] - values[before]);
  };
  const between = (values: Float64Array) => coordinate(values, to) - coordinate(values, from);
  return Math.hypot(between(x), between(y), between(z));
}
