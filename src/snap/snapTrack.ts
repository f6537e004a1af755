import type { Route } from '../route/Route';
import type { SegmentTree } from '../route/SegmentTree';
import { ambiguousStretches } from './ambiguousStretches';
import type { Bins } from './Bins';
import { bodyMotion } from './bodyMotion';
import { chooseKnots } from './chooseKnots';
import type { FixTrack } from './FixTrack';
import { fixStates } from './fixStates';
import { footNear } from './footNear';
import { Lattice, type Pin } from './Lattice';
import type { Snapped } from './Snapped';
import { FIRST_SIGMA, sectionSigma } from './sectionSigma';

/** A route made ready for recordings to be placed on it. */
export interface PreparedRoute {
  readonly route: Route;
  readonly tree: SegmentTree;
  readonly bins: Bins;
}

/** As {@link Snapped}, the feet always there. */
export interface Placed extends Snapped {
  readonly foot: Float64Array;
}

/** Fixes at least so far away are not on the route, in metres and in standard deviations. */
const REACH = 60;
const REACH_SIGMAS = 6;

/**
 * How far from where the body is thought to have been a fix is placed along the route, metres and standard deviations:
 * beyond that the foot tells more of the receiver than of the body.
 */
const LEASH = 4;
const LEASH_SIGMAS = 0.4;

/** Two passes: the first matches with one guess for the receiver, the second with what it says of each section. */
export function snapTrack(
  { route, tree, bins }: PreparedRoute,
  track: FixTrack,
  pins: readonly Pin[],
  options: { readonly sigma?: number; readonly reach?: number },
): Placed {
  const n = track.count;
  const alongTrack = new Float64Array(n).fill(Number.NaN);
  const crossTrack = new Float64Array(n).fill(Number.NaN);
  const distance = new Float64Array(n).fill(Number.NaN);
  const foot = new Float64Array(n).fill(Number.NaN);
  const segment = new Int32Array(n).fill(-1);
  const confidence = new Float32Array(n);
  const knots = chooseKnots(track, new Set(pins.map(({ fix }) => fix)));
  let sigma: Float64Array = new Float64Array(bins.count).fill(options.sigma ?? FIRST_SIGMA);
  const reachOf = (largest: number) => options.reach ?? Math.max(REACH, REACH_SIGMAS * largest);
  let reach = reachOf(sigma[0]);
  let lattice = new Lattice(bins, track, knots, reach);
  if (lattice.knots.length === 0) {
    const state = new Array(n).fill('unplaced');
    return { alongTrack, crossTrack, distance, foot, segment, state, confidence, ambiguous: [] };
  }
  let answer = lattice.solve(sigma, pins);
  if (options.sigma === undefined) {
    const aside = Float64Array.from(lattice.knots, (fix, knot) => {
      tree.moveTo(track.lon[fix], track.lat[fix]);
      footNear(route, tree, answer.bin[knot] * bins.spacing);
      return tree.distance;
    });
    sigma = sectionSigma(route, bins, answer.bin, aside);
    const wider = reachOf(sigma.reduce((a, b) => Math.max(a, b)));
    if (wider > reach) lattice = new Lattice(bins, track, knots, (reach = wider));
    answer = lattice.solve(sigma, pins);
  }
  const body = bodyMotion(
    Float64Array.from(lattice.knots, (fix) => track.clock[fix]),
    Float64Array.from(lattice.knots, (fix, knot) => {
      tree.moveTo(track.lon[fix], track.lat[fix]);
      footNear(route, tree, answer.bin[knot] * bins.spacing);
      return placeOf(route, tree);
    }),
    Float64Array.from(answer.bin, (bin) => sigma[bin]),
  );
  // every fix between two knots lies between their places, by the clock
  let knot = 0;
  for (let i = 0; i < n; i++) {
    while (knot + 1 < lattice.knots.length && lattice.knots[knot + 1] <= i) knot++;
    const a = lattice.knots[knot];
    const next = Math.min(knot + 1, lattice.knots.length - 1);
    const b = lattice.knots[next];
    const span = track.clock[b] - track.clock[a];
    const share = i <= a || b === a ? 0 : span > 0 ? (track.clock[i] - track.clock[a]) / span : 0;
    const between = (places: ArrayLike<number>) => places[knot] + share * (places[next] - places[knot]);
    const place = between(answer.bin) * bins.spacing;
    tree.moveTo(track.lon[i], track.lat[i]);
    footNear(route, tree, place);
    segment[i] = tree.segment;
    crossTrack[i] = tree.crossTrack;
    distance[i] = tree.distance;
    foot[i] = placeOf(route, tree);
    const moved = between(body);
    const leash = Math.max(LEASH, LEASH_SIGMAS * sigma[Math.round(place / bins.spacing)]);
    alongTrack[i] = Math.min(Math.max(foot[i], moved - leash, 0), moved + leash, route.length);
    confidence[i] = Math.min(answer.confidence[knot], answer.confidence[share > 0 ? next : knot]);
  }
  const state = fixStates(route, { foot, distance }, sigma, bins.spacing, reach);
  for (let i = 0; i < n; i++) {
    if (state[i] === 'on') continue;
    alongTrack[i] = crossTrack[i] = distance[i] = foot[i] = Number.NaN;
    segment[i] = -1;
    confidence[i] = 0;
  }
  const ambiguous = ambiguousStretches(lattice.knots, answer, bins, state, confidence);
  return { alongTrack, crossTrack, distance, foot, segment, state, confidence, ambiguous };
}

/** Metres along the route of the foot that the tree found last. */
function placeOf({ alongTrack }: Route, { segment, fraction }: SegmentTree): number {
  return alongTrack[segment] + fraction * (alongTrack[segment + 1] - alongTrack[segment]);
}
