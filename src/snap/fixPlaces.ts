import { eachFix } from './eachFix';
import type { FixTrack } from './FixTrack';
import { findSkips } from './findSkips';
import { footNear } from './footNear';
import type { LatticeStates } from './LatticeStates';
import type { PreparedRoute } from './PreparedRoute';
import type { StepWeights } from './StepWeights';

/**
 * The places of all fixes from those of the knots: every fix between two knots lies between their places, by the clock. Where
 * the body left one part of the route for another between them, it went on at its pace from the one, and came at its pace to
 * the other: the fixes change over where that keeps them closest to the route.
 *
 * @param at - The answer: metres along the route of each fix.
 * @returns 1 at each knot before which a stretch was left out or begins anew
 */
export function fixPlaces(
  { route, tree, bins }: PreparedRoute,
  track: FixTrack,
  states: LatticeStates,
  steps: StepWeights,
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
    // how much closer the fixes so far lie to the route that they leave than to the one that they come to
    let closer = 0;
    let closest = 0;
    let lastLeft = knots[knot - 1];
    for (let fix = knots[knot - 1] + 1; fix < knots[knot]; fix++) {
      closer += distance(fix, right(fix)) ** 2 - distance(fix, left(fix)) ** 2;
      if (closer <= closest) continue;
      closest = closer;
      lastLeft = fix;
    }
    for (let fix = knots[knot - 1] + 1; fix < knots[knot]; fix++) at[fix] = fix <= lastLeft ? left(fix) : right(fix);
  }
  return skips;
}
