import { alongEdge, type SegmentTree } from '../index';
import type { FixState, Route, Skip, Snapped } from '../model';
import { againstRoute } from './againstRoute';
import { ambiguousStretches } from './ambiguousStretches';
import { bodyMotion } from './bodyMotion';
import { chooseKnots } from './chooseKnots';
import { clockIssues } from './clockIssues';
import { doubtLaps } from './doubtLaps';
import { doubtSkips } from './doubtSkips';
import { eachFix } from './eachFix';
import type { FixTrack } from './FixTrack';
import { fixPlaces } from './fixPlaces';
import { fixStates } from './fixStates';
import { footNear } from './footNear';
import { KeptStates } from './KeptStates';
import { LatticeStates, type Pin } from './LatticeStates';
import { leapsBack } from './leapsBack';
import { leaveLoopsOut } from './leaveLoopsOut';
import { likeliestPath } from './likeliestPath';
import type { PreparedRoute } from './PreparedRoute';
import { pathShares } from './pathShares';
import { StepWeights } from './StepWeights';
import { FIRST_SIGMA, sectionSigma } from './sectionSigma';
import { skipsAtCrossings } from './skipsAtCrossings';
import { turned } from './turned';

/** Fixes at least so far away are not on the route, in metres and in standard deviations. */
const REACH = 60;
const REACH_SIGMAS = 6;

/** The first pass asks what the receiver is like, not where it was: a third of the knots and half of the bins say that as well. */
const COARSE = 3;
const COARSE_BINS = 2;

/**
 * How far from where the body is thought to have been a fix is placed along the route, metres and standard deviations:
 * beyond that the foot tells more of the receiver than of the body.
 */
export const LEASH = 4;
export const LEASH_SIGMAS = 0.4;

/** As sure as a fix can be whose time is not its own. */
export const MISTRUSTED = 0.95;

/** As sure as a fix can be that the receiver threw along the route: its body may have hurried and waited. */
export const THROWN = 0.85;

/** A foot further than this along the route from where the body can have been says nothing of it, metres and standard deviations. */
const STRAYS = 30;
const STRAYS_SIGMAS = 4;

/** Within so many seconds of where the body left the route for another part of it, it is held as close to its foot. */
const BESIDE = 20;

/** Of the way along the route this share leads back before it is asked whether it was recorded against its direction. */
const RETREATS = 0.2;

/** Natural logarithm of how much likelier that must be: 20 000 to 1. */
const SURELY = 10;

/** What {@link placeTrack} says of a recording taken from its first to its last fix. */
interface PlacedTrack {
  readonly snapped: Snapped;
  /** Logarithm of the weight of the path, and the share of its way that leads back. */
  readonly weight: number;
  readonly retreats: number;
  readonly sigma: Float64Array;
}

/**
 * Places a recording on a route. Where much of it leads back along the route it is tried from its last fix to its first: where
 * that fits better, the route is drawn the other way.
 */
export function snapTrack(
  prepared: PreparedRoute,
  track: FixTrack,
  pins: readonly Pin[],
  options: SnapTrackOptions,
): Snapped {
  const there = placeTrack(prepared, track, pins, options);
  const issues = clockIssues(track);
  if (there.retreats > RETREATS) {
    const n = track.count;
    const mirrored = pins.map((pin) => ({ ...pin, fix: n - 1 - pin.fix }));
    const back = placeTrack(prepared, track.reversed(), mirrored, options, there.sigma);
    if (back.weight > there.weight + SURELY && back.retreats < there.retreats) {
      return { ...turned(back.snapped), issues: [againstRoute(n), ...issues] };
    }
  }
  return { ...there.snapped, issues };
}

/** Metres from the route beyond which fixes are off it, where the largest standard deviation of one is so many. */
export function reachOf({ maxDistance }: SnapTrackOptions, largest: number): number {
  return maxDistance ?? Math.max(REACH, REACH_SIGMAS * largest);
}

type SnapTrackOptions = { readonly sigma?: number; readonly maxDistance?: number };

/** Two passes: the first matches with one guess for the receiver, the second with what it says of each section. */
function placeTrack(
  prepared: PreparedRoute,
  track: FixTrack,
  pins: readonly Pin[],
  options: SnapTrackOptions,
  known?: Float64Array,
): PlacedTrack {
  const { route, tree, bins } = prepared;
  const pinned = new Set(pins.map(({ fix }) => fix));
  const sigma = known ?? new Float64Array(bins.count).fill(options.sigma ?? FIRST_SIGMA);
  const largest = () => {
    let most = 0;
    for (let bin = 0; bin < sigma.length; bin++) if (sigma[bin] > most) most = sigma[bin];
    return most;
  };
  const reach = () => reachOf(options, largest());
  const kept = new KeptStates();
  if (options.sigma === undefined && known === undefined) {
    const coarse = new LatticeStates(bins, track, chooseKnots(track, pinned, COARSE), reach(), largest(), COARSE_BINS);
    const { bin } = likeliestPath(coarse, new StepWeights(coarse), sigma, pins, kept);
    const aside = new Float64Array(bin.length);
    const matched = new Int32Array(bin.length);
    let count = 0;
    const furthest = reach();
    bin.forEach((place, knot) => {
      const fix = coarse.knots[knot];
      tree.moveTo(track.lon[fix], track.lat[fix]);
      footNear(route, tree, place * bins.spacing);
      // what is out of reach is not on the route
      if (tree.distance > furthest) return;
      aside[count] = tree.distance;
      matched[count++] = place;
    });
    sectionSigma(route, bins, matched.subarray(0, count), aside.subarray(0, count), sigma);
  }
  const states = new LatticeStates(bins, track, chooseKnots(track, pinned), reach(), largest());
  const steps = new StepWeights(states);
  const path = likeliestPath(states, steps, sigma, pins, kept);
  if (path.bin.length === 0) return { snapped: unplaced(track.count), weight: 0, retreats: 0, sigma };
  leaveLoopsOut(states, steps, sigma, path.bin);
  skipsAtCrossings(states, steps, sigma, path.bin);
  const shares = pathShares(states, steps, sigma, pins, path);

  const n = track.count;
  const alongTrack = new Float64Array(n);
  const crossTrack = new Float64Array(n);
  const distance = new Float64Array(n);
  const footAlongTrack = new Float64Array(n);
  const segment = new Int32Array(n);
  /** At most as much as a place beside a skip leaves. */
  const confidence = new Float32Array(n).fill(1);
  const { knots } = states;
  // until the body is known, the places where the fixes are looked for
  const skips = fixPlaces(prepared, track, states, steps, sigma, path.bin, alongTrack);
  doubtLaps(states, steps, pins, path.bin, skips, shares);
  doubtSkips(track, states, steps, sigma, path.bin, skips, alongTrack, confidence);
  const placeAt = (knot: number) => path.bin[knot] * bins.spacing;
  const dropFoot = (i: number) => {
    tree.moveTo(track.lon[i], track.lat[i]);
    footNear(route, tree, alongTrack[i]);
    segment[i] = tree.segment;
    crossTrack[i] = tree.crossTrack;
    distance[i] = tree.distance;
    footAlongTrack[i] = placeOf(route, tree);
  };
  for (let i = 0; i < n; i++) dropFoot(i);
  const leaps = new Uint8Array(knots.length);
  for (const { before, after, waited } of leapsBack(
    states,
    steps,
    sigma,
    path.bin,
    { footAlongTrack, distance },
    skips,
  )) {
    // the body went on meanwhile, and what its fixes lie off is the receiver's error; or it hurried and waited
    const from = knots[before];
    const to = knots[after];
    const [begin, end] = [footAlongTrack[from], footAlongTrack[to]];
    const seconds = track.clock[to] - track.clock[from];
    const atPace = (i: number) => {
      const share = seconds > 0 ? (track.clock[i] - track.clock[from]) / seconds : 0;
      return (1 - share) * begin + share * end;
    };
    for (let i = from + 1; i < to; i++) {
      confidence[i] = THROWN;
      if (waited) continue;
      alongTrack[i] = atPace(i);
      dropFoot(i);
    }
    for (let knot = before + 1; knot < after; knot++) {
      const fix = knots[knot];
      const [seen, paced] = [footAlongTrack[fix], atPace(fix)].map((place) => Math.round(place / bins.spacing));
      path.bin[knot] = waited ? seen : paced;
      shares.other[knot] = waited ? paced : seen;
      leaps[knot] = 1;
    }
  }
  const sigmaOf = (place: number) => sigma[Math.round(place / bins.spacing)];
  const strays = (place: number) => Math.max(STRAYS, STRAYS_SIGMAS * sigmaOf(place));
  const beside = besideSkips(states.clock, skips);
  const seen = new Float64Array(knots.length);
  const errors = new Float64Array(knots.length);
  for (let knot = 0; knot < knots.length; knot++) {
    const place = placeAt(knot);
    const foot = footAlongTrack[knots[knot]];
    seen[knot] = Math.abs(foot - place) > strays(place) ? place : foot;
    errors[knot] = sigma[path.bin[knot]];
  }
  const body = bodyMotion(states.clock.subarray(0, knots.length), seen, errors, skips);
  /** The first fix after each skip. */
  const landed: number[] = [];
  eachFix(track, knots, (i, knot, next, share) => {
    confidence[i] = Math.min(
      confidence[i],
      shares.confidence[knot],
      shares.confidence[share > 0 ? next : knot],
      track.mistrusted?.[i] === 1 ? MISTRUSTED : 1,
    );
    let moved = body[knot] + share * (body[next] - body[knot]);
    if (skips[share > 0 ? next : knot] === 1) {
      // between the knots of a skip, on this side of it or on that
      const place = alongTrack[i];
      const there = share === 0 || Math.abs(place - placeAt(next)) < Math.abs(place - placeAt(knot));
      const near = share > 0 && there ? next : knot;
      moved = body[near] + place - placeAt(near);
      if (there && (landed.length === 0 || landed[landed.length - 1] <= knots[near - 1])) landed.push(i);
    }
    const leash = Math.max(LEASH, LEASH_SIGMAS * sigmaOf(footAlongTrack[i]));
    const foot = footAlongTrack[i];
    // where the body left the route for another part of it, its fixes say where it was, and no pace does
    const held = beside[knot] === 1 || beside[next] === 1;
    const [from, to] = held && Math.abs(foot - moved) <= strays(foot) ? [moved, foot] : [foot, moved];
    const kept = Math.min(Math.max(from, to - leash), to + leash);
    // the body may be thought to have been before the start or past the end: there is no place there
    alongTrack[i] = Math.min(Math.max(kept, 0), route.length);
  });
  const state = fixStates(route, track, { footAlongTrack, distance }, sigmaOf, reach(), options);
  for (let i = 0; i < n; i++) {
    if (state[i] === 'on') continue;
    alongTrack[i] = crossTrack[i] = distance[i] = footAlongTrack[i] = Number.NaN;
    segment[i] = -1;
    confidence[i] = 0;
  }
  const ambiguous = ambiguousStretches(knots, path.bin, shares.other, leaps, bins.spacing, {
    alongTrack,
    state,
    confidence,
  });
  const told = landed
    .map((fix): Skip => ({ fix, from: alongTrack[fix - 1], to: alongTrack[fix] }))
    .filter(({ from, to }) => !Number.isNaN(from + to));
  const columns = { alongTrack, crossTrack, distance, footAlongTrack, segment, state, confidence };
  return {
    snapped: { ...columns, ambiguous, skips: told, issues: [] },
    weight: path.weight,
    retreats: retreats(path.bin, skips),
    sigma,
  };
}

/** 1 at each knot that lies beside a skip in time. */
function besideSkips(clock: Float64Array, skips: Uint8Array): Uint8Array {
  const beside = new Uint8Array(skips.length);
  for (let knot = 1; knot < skips.length; knot++) {
    if (skips[knot] === 0) continue;
    for (let k = knot; k < skips.length && clock[k] - clock[knot] <= BESIDE; k++) beside[k] = 1;
    for (let k = knot - 1; k >= 0 && clock[knot - 1] - clock[k] <= BESIDE; k--) beside[k] = 1;
  }
  return beside;
}

/** The share of the way along the route that leads back. */
function retreats(bin: Int32Array, skips: Uint8Array): number {
  let back = 0;
  let all = 0;
  for (let knot = 1; knot < bin.length; knot++) {
    if (skips[knot] === 1) continue;
    all += Math.abs(bin[knot] - bin[knot - 1]);
    back += Math.max(bin[knot - 1] - bin[knot], 0);
  }
  return all > 0 ? back / all : 0;
}

/** What becomes of a recording that is nowhere near the route. */
function unplaced(n: number): Snapped {
  const nowhere = () => new Float64Array(n).fill(Number.NaN);
  return {
    alongTrack: nowhere(),
    crossTrack: nowhere(),
    distance: nowhere(),
    footAlongTrack: nowhere(),
    segment: new Int32Array(n).fill(-1),
    state: new Array<FixState>(n).fill('unplaced'),
    confidence: new Float32Array(n),
    ambiguous: [],
    skips: [],
    issues: [],
  };
}

/** Metres along the route of the foot that the tree found last. */
function placeOf({ alongTrack }: Route, { segment, fraction }: SegmentTree): number {
  return alongEdge(alongTrack, segment, fraction);
}
