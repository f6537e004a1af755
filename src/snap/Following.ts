import { earthCentred } from '../geodesy';
import { alongEdge, locate } from '../index';
import type { FixState, GivenPosition, Recording, RoutePlace } from '../model';
import { METRES, SECONDS } from './chooseKnots';
import { FixTrack, IN_A_ROW } from './FixTrack';
import { ForwardSweep, type SweepWeights } from './ForwardSweep';
import { footNear } from './footNear';
import { furthestIn, SLACK } from './furthestIn';
import { type KnotFix, LatticeStates } from './LatticeStates';
import { type LikelyPart, likelyParts } from './likelyParts';
import { markPins } from './markPins';
import type { PreparedRoute } from './PreparedRoute';
import { SAME_PART } from './pathShares';
import { type FixPlace, places } from './places';
import { type RecentKnot, RecentKnots } from './RecentKnots';
import { RecentPace, type SavedPace } from './RecentPace';
import { RecentSigma, type SavedSigma } from './RecentSigma';
import { RunningClock, type SavedClock } from './RunningClock';
import { RunningState, type SavedState } from './RunningState';
import { StepWeights } from './StepWeights';
import { LEASH, LEASH_SIGMAS, MISTRUSTED, reachOf, snapTrack, THROWN } from './snapTrack';

/** A fix as the receiver gives it, checked. */
interface CheckedFix {
  readonly position: GivenPosition;
  readonly time: number | undefined;
  readonly accuracy: number;
  readonly gapBefore: 0 | 1;
}

/** What {@link Follower.push} answers. */
export interface FollowedPlace {
  /** The place on the route; absent where the fix is not on it. */
  readonly located?: RoutePlace;
  readonly state: FixState;
  /** 0–1: how sure it is, by the fixes so far, that the fix lies on this part of the route. */
  readonly confidence: number;
  /**
   * The other parts where it may lie, at most three, the likeliest first. After a pause one may be likelier than `located`, where
   * the likeliest of all rides leads.
   */
  readonly alternatives: readonly { readonly located: RoutePlace; readonly confidence: number }[];
}

/** A place that later fixes can't change any more. */
export interface SettledPlace extends FixPlace {
  /** How many fixes had been pushed after it when it settled. */
  readonly lag: number;
}

/** How it follows, checked. */
export interface FollowingOptions {
  /** Seconds. */
  readonly lag: number;
  readonly sigma: number | undefined;
  readonly maxDistance: number | undefined;
}

/** A fix that has not settled. */
interface OpenFix {
  readonly index: number;
  readonly lon: number;
  readonly lat: number;
  readonly seconds: number;
  /** The knot at or before it, -1 where there is none: itself where a pause follows. */
  knot: number;
  readonly state: FixState;
  /** 1 where it is off the route, by those after it as well. */
  off: 0 | 1;
  readonly mistrusted: 0 | 1;
}

/** A fix in earth-centred metres. */
interface PlacedFix {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly seconds: number;
  readonly admitted: number;
}

/** The states of the knot last taken, as written down. */
interface SavedStates {
  readonly lost: 0 | 1;
  readonly heaviest: number;
  readonly bin: readonly number[];
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly z: readonly number[];
  readonly skip: readonly number[];
  readonly best: readonly number[];
  readonly sum: readonly number[];
}

/** All that following a recording goes on from. */
export interface SavedFollowing {
  readonly count: number;
  readonly clock: SavedClock;
  readonly pace: SavedPace;
  readonly sigma: SavedSigma;
  readonly state: SavedState;
  /** The last fix that wasn't thrown, whether it was taken for a knot, and those after it that may have been. */
  readonly before: PlacedFix | null;
  readonly taken: 0 | 1;
  readonly thrown: readonly PlacedFix[];
  /** The last fix that was taken for a knot, however far from the route. */
  readonly chosen: PlacedFix | null;
  readonly interrupted: 0 | 1;
  readonly knot: PlacedFix | null;
  readonly states: SavedStates;
  readonly weights: SweepWeights;
  readonly knots: { readonly first: number; readonly list: readonly RecentKnot[] };
  readonly open: readonly OpenFix[];
  readonly settled: readonly SettledPlace[];
  /** Every fix, where the lag has no end. */
  readonly kept: {
    readonly lon: readonly number[];
    readonly lat: readonly number[];
    readonly time: readonly (number | null)[];
    readonly gapBefore: readonly (0 | 1)[];
  };
}

/**
 * That a stretch is left out or gone over again is taken to be so many times likelier than by hindsight where passes meet and
 * part, and e to the power of 14 times elsewhere: at the price that `snap` asks it is a minute and more until the fixes have
 * paid it, and until then they lie on a pass that the body has left. Of 14 to 26 that has most fixes on their pass at a lag
 * of 30 s, short of where confidence leaks from pass to pass (20).
 */
const EASED = Math.exp(18);

/** More fixes than so many for each second of the lag, and as many at least, are not waited for. */
const RATE = 20;
const FEWEST = 64;

/** So many settled places wait to be asked for: five hours at one a second. */
const WAITING = 18_000;

/** A fix that admits to a greater standard deviation than this, metres, could lie on any street: it is not placed. */
const COARSE = 100;

/** Of a circle that holds 95 % of fixes its radius, over the standard deviation per axis: the root of −2 ln 0.05. */
const TO_SIGMA = Math.sqrt(-2 * Math.log(0.05));

/** Follows one recording, fix by fix. */
export class Following {
  readonly #prepared: PreparedRoute;
  readonly #options: FollowingOptions;
  readonly #most: number;
  readonly #part: number;
  readonly #lattice: LatticeStates;
  readonly #steps: StepWeights;
  readonly #sweep: ForwardSweep;
  readonly #clock: RunningClock;
  readonly #pace: RecentPace;
  readonly #sigma: RecentSigma;
  readonly #state: RunningState;
  readonly #knots: RecentKnots;
  #count = 0;
  #before: PlacedFix | null = null;
  #taken: 0 | 1 = 0;
  #thrown: readonly PlacedFix[] = [];
  #chosen: PlacedFix | null = null;
  #interrupted: 0 | 1 = 0;
  #knot: PlacedFix | null = null;
  #parts: readonly LikelyPart[] = [];
  #open: OpenFix[] = [];
  /** Of the open ones, where the first stands: what lies before has settled. */
  #head = 0;
  #settled: SettledPlace[] = [];
  readonly #lon: number[] = [];
  readonly #lat: number[] = [];
  readonly #time: number[] = [];
  readonly #gapBefore: (0 | 1)[] = [];

  constructor(prepared: PreparedRoute, options: FollowingOptions, saved?: SavedFollowing) {
    const { route, bins } = prepared;
    this.#prepared = prepared;
    this.#options = options;
    this.#most = Math.max(Math.ceil(RATE * options.lag), FEWEST);
    this.#part = Math.ceil(SAME_PART / bins.spacing);
    this.#clock = new RunningClock(saved?.clock);
    this.#pace = new RecentPace(saved?.pace);
    this.#sigma = new RecentSigma(route, bins, options.sigma, saved?.sigma);
    this.#state = new RunningState(route.length, saved?.state);
    this.#knots = new RecentKnots(bins, saved?.knots.first, saved?.knots.list);
    this.#lattice = LatticeStates.ofNext(bins, this.#reach(), this.#sigma.largest);
    this.#steps = new StepWeights(this.#lattice);
    this.#sweep = new ForwardSweep(this.#lattice, this.#steps, this.#sigma.values, [], EASED);
    if (saved) this.#resume(saved);
  }

  push(fix: CheckedFix): FollowedPlace {
    const { position, time, accuracy, gapBefore } = fix;
    const [lon, lat] = position;
    const index = this.#count++;
    const before = this.#before;
    const [x, y, z] = earthCentred(lon, lat);
    const admitted = accuracy / TO_SIGMA;
    const placed = { x, y, z, seconds: 0, admitted };
    const moved = before ? metresBetween(placed, before) : 0;
    this.#clock.take(time, moved, this.#pace.pace);
    const { seconds, mistrusted } = this.#clock;
    placed.seconds = seconds;
    if (this.#options.lag === Infinity) {
      this.#lon.push(lon);
      this.#lat.push(lat);
      this.#time.push(time ?? Number.NaN);
      this.#gapBefore.push(gapBefore);
    }
    // a fix before a pause is a knot, which shows only after it
    if (before && this.#taken === 0 && seconds - before.seconds >= SECONDS && before.admitted <= COARSE) {
      this.#take(before, Math.max(this.#open.length - 1 - this.#thrown.length, this.#head));
    }
    const { route, tree, bins } = this.#prepared;
    let state: FixState;
    // further than a body gets: it is thrown, until more lie there, which then count as well
    const thrown = this.#thrown;
    const first = index - thrown.length;
    const isThrown =
      before !== null &&
      moved > SLACK &&
      gapBefore === 0 &&
      thrown.length < IN_A_ROW &&
      moved > furthestIn(Math.max(seconds - before.seconds, 1), Math.max(this.#pace.pace, this.#pace.latest));
    if (isThrown) this.#thrown = [...thrown, placed];
    else {
      if (before && thrown.length > 0 && metresBetween(placed, thrown[0]) < moved) {
        for (const [k, one] of thrown.entries()) {
          if (one.admitted <= COARSE && this.#isKnot(one))
            this.#take(one, Math.max(this.#open.length - thrown.length + k, this.#head));
        }
      }
      this.#before = placed;
      this.#taken = 0;
      if (thrown.length > 0) this.#thrown = [];
    }
    if (gapBefore === 1 && index > 0) this.#interrupted = 1;
    let near = true;
    let isKnot = false;
    if (admitted > COARSE) {
      state = 'unplaced';
    } else {
      if (!isThrown && this.#isKnot(placed)) {
        near = this.#take(placed);
        isKnot = near;
      }
      const [part] = this.#parts;
      if (part === undefined || !near) state = this.#state.away();
      else {
        tree.moveTo(lon, lat);
        footNear(route, tree, this.#guess(part.bin));
        const foot = this.#footOf();
        const sigma = Math.max(this.#sigma.values[Math.round(foot / bins.spacing)], admitted);
        const beside = { index, first, seconds, distance: tree.distance, foot, sigma };
        const own = this.#options.maxDistance !== undefined;
        state = isThrown
          ? this.#state.thrown(beside, this.#reach())
          : this.#state.take(beside, before ? seconds - before.seconds : 1, this.#reach(), own);
        if (isKnot && tree.distance <= this.#reach()) this.#learn(seconds, part.bin, tree.distance);
        for (let k = this.#open.length - 1; k >= this.#head && this.#open[k].index >= this.#state.offFrom; k--) {
          this.#open[k].off = 1;
        }
      }
    }
    const answer = this.#answer(position, state, isThrown ? THROWN : trust(mistrusted));
    if (this.#options.lag < Infinity) {
      const off = state === 'on' ? 0 : 1;
      this.#open.push({ index, lon, lat, seconds, knot: this.#knots.count - 1, state, off, mistrusted });
      this.#settle(seconds - this.#options.lag, this.#most);
    }
    return answer;
  }

  /** The places that have settled since they were last asked for. */
  settled(): SettledPlace[] {
    if (this.#options.lag === Infinity) return this.#wholly();
    const settled = this.#settled;
    this.#settled = [];
    return settled;
  }

  /** Settles all. */
  end(): SettledPlace[] {
    this.#settle(Infinity, 0);
    return this.settled();
  }

  save(): SavedFollowing {
    const { last, weights } = this.#sweep;
    const { size, lost, heaviest } = last;
    const column = (values: Float64Array | Int32Array) => Array.from(values.subarray(0, size));
    return {
      count: this.#count,
      clock: this.#clock.save(),
      pace: this.#pace.save(),
      sigma: this.#sigma.save(),
      state: this.#state.save(),
      before: this.#before,
      taken: this.#taken,
      thrown: this.#thrown,
      chosen: this.#chosen,
      interrupted: this.#interrupted,
      knot: this.#knot,
      states: {
        lost: lost ? 1 : 0,
        heaviest,
        bin: column(last.bin),
        x: column(last.x),
        y: column(last.y),
        z: column(last.z),
        skip: column(last.skip),
        best: column(last.best),
        sum: column(last.sum),
      },
      weights,
      knots: this.#knots.save(),
      open: this.#open.slice(this.#head).map((fix) => ({ ...fix })),
      settled: [...this.#settled],
      kept: {
        lon: [...this.#lon],
        lat: [...this.#lat],
        time: this.#time.map((time) => (Number.isNaN(time) ? null : time)),
        gapBefore: [...this.#gapBefore],
      },
    };
  }

  #resume(saved: SavedFollowing): void {
    const { last } = this.#sweep;
    const { states } = saved;
    for (const bin of states.bin) last.add(bin);
    for (const key of ['x', 'y', 'z', 'skip', 'best', 'sum'] as const) last[key].set(states[key]);
    last.lost = states.lost === 1;
    last.heaviest = states.heaviest;
    this.#sweep.weights = saved.weights;
    this.#count = saved.count;
    this.#before = saved.before;
    this.#taken = saved.taken;
    this.#thrown = saved.thrown;
    this.#chosen = saved.chosen;
    this.#interrupted = saved.interrupted;
    this.#knot = saved.knot;
    if (saved.knot) this.#lattice.take(0, asBefore(saved.knot));
    this.#parts = likelyParts(last, this.#part);
    this.#open = saved.open.map((fix) => ({ ...fix }));
    this.#settled = [...saved.settled];
    const { lon, lat, time, gapBefore } = saved.kept;
    for (const one of lon) this.#lon.push(one);
    for (const one of lat) this.#lat.push(one);
    for (const one of time) this.#time.push(one ?? Number.NaN);
    for (const one of gapBefore) this.#gapBefore.push(one);
  }

  /** Metres from the route beyond which a fix is off it. */
  #reach(): number {
    return reachOf(this.#options, this.#sigma.largest);
  }

  /** Metres along the route where the body is thought to be now, given the bin of the knot last taken. */
  #guess(bin: number): number {
    const since = this.#knot ? Math.min(this.#clock.seconds - this.#knot.seconds, SECONDS) : 0;
    return Math.min(bin * this.#prepared.bins.spacing + this.#pace.pace * since, this.#prepared.route.length);
  }

  /** Metres along the route of the foot that the tree found last. */
  #footOf(): number {
    const { alongTrack } = this.#prepared.route;
    const { segment, fraction } = this.#prepared.tree;
    return alongEdge(alongTrack, segment, fraction);
  }

  /** Whether a fix lies far enough from the last knot to be one. */
  #isKnot(fix: PlacedFix): boolean {
    const chosen = this.#chosen;
    return chosen === null || fix.seconds - chosen.seconds >= SECONDS || metresBetween(fix, chosen) >= METRES;
  }

  /**
   * Takes a fix for a knot; returns whether it is anywhere near the route.
   *
   * @param open - The first of the open fixes that lie at or after it.
   */
  #take(fix: PlacedFix, open = this.#open.length): boolean {
    this.#chosen = fix;
    this.#taken = 1;
    const { x, y, z, seconds: clock, admitted } = fix;
    if (!this.#lattice.holds(x, y, z)) return false;
    const knot = this.#knot;
    const at = knot ? 1 : 0;
    if (knot) this.#lattice.take(0, asBefore(knot));
    this.#lattice.take(at, { x, y, z, clock, admitted, interrupted: knot ? this.#interrupted : 0 });
    if (knot) {
      this.#steps.take(1, this.#pace.step(metresBetween(fix, knot), Math.max(clock - knot.seconds, 1)));
    }
    const states = this.#sweep.step(at);
    this.#interrupted = 0;
    this.#knot = fix;
    this.#parts = likelyParts(states, this.#part);
    if (this.#options.lag < Infinity) {
      this.#knots.add(clock, this.#steps.lowest, this.#steps.highest, states);
      for (let k = open; k < this.#open.length; k++) {
        this.#open[k].knot = this.#knots.count - 1;
      }
    }
    return true;
  }

  /** Learns from a fix what the receiver is like. */
  #learn(seconds: number, bin: number, aside: number): void {
    if (this.#sigma.add(seconds, bin, aside)) this.#lattice.expect(this.#reach(), this.#sigma.largest);
  }

  /** @param most - How sure it may be at most. */
  #answer(position: GivenPosition, state: FixState, most: number): FollowedPlace {
    if (state !== 'on') return { state, confidence: 0, alternatives: [] };
    const { route, tree } = this.#prepared;
    const parts = this.#parts;
    const located = locate(route, tree, position);
    const alternatives: { readonly located: RoutePlace; readonly confidence: number }[] = [];
    for (let k = 1; k < parts.length; k++) {
      footNear(route, tree, this.#guess(parts[k].bin));
      alternatives.push({ located: locate(route, tree, position), confidence: parts[k].share });
    }
    return { located, state, confidence: Math.min(parts[0].share, most), alternatives };
  }

  /** Settles the open fixes up to an instant, and more where more than so many are open. */
  #settle(until: number, most: number): void {
    const open = this.#open;
    while (this.#head < open.length && (open[this.#head].seconds <= until || open.length - this.#head > most)) {
      this.#settled.push(this.#placed(open[this.#head]));
      this.#head++;
    }
    if (this.#settled.length > WAITING + WAITING / 8) this.#settled.splice(0, this.#settled.length - WAITING);
    if (this.#head === 0 || (this.#head < FEWEST && this.#head < open.length)) return;
    open.splice(0, this.#head);
    this.#head = 0;
    this.#knots.forget(open.length > 0 ? open[0].knot : this.#knots.count - 1);
  }

  /** Where a fix was, as seen from the knot last taken. */
  #placed({ index, lon, lat, seconds, knot, state, off, mistrusted }: OpenFix): SettledPlace {
    const { route, tree, bins } = this.#prepared;
    const knots = this.#knots;
    const { last } = this.#sweep;
    const lag = this.#count - 1 - index;
    const nowhere = (word: FixState) => ({ index, state: word, confidence: 0, lag });
    if (state === 'unplaced') return nowhere(state);
    if (off === 1) return nowhere(state === 'on' ? 'off' : state);
    const from = Math.max(knot, 0);
    const to = Math.min(knot + 1, knots.count - 1);
    let place = knots.placeOf(from, last) * bins.spacing;
    let share = knots.shareOf(from, last);
    tree.moveTo(lon, lat);
    if (to > from) {
      const there = knots.placeOf(to, last) * bins.spacing;
      share = Math.min(share, knots.shareOf(to, last));
      const begun = knots.at(from).seconds;
      const { seconds: end, lowest, highest } = knots.at(to);
      const passed = end > begun ? (seconds - begun) / (end - begun) : 0;
      const step = Math.round((there - place) / bins.spacing);
      if (step >= lowest && step <= highest) place += passed * (there - place);
      else {
        const crossing = knots.crossingTo(to, last);
        if (crossing !== undefined) {
          // on the pass that was left as far as the crossing, at one pace
          const ahead = Math.max(crossing.left * bins.spacing - place, 0);
          const beyond = Math.max(there - crossing.right * bins.spacing, 0);
          const gone = passed * (ahead + beyond);
          place = gone <= ahead ? place + gone : there - (ahead + beyond - gone);
        } else {
          // a stretch was left out between the two: on the pass that is nearer
          footNear(route, tree, place);
          const left = tree.distance;
          footNear(route, tree, there);
          if (tree.distance < left) place = there;
        }
      }
    }
    footNear(route, tree, place);
    if (tree.distance > this.#reach()) return nowhere('off');
    const foot = this.#footOf();
    const leash = Math.max(LEASH, LEASH_SIGMAS * this.#sigma.values[Math.round(foot / bins.spacing)]);
    const body = Math.min(Math.max(foot, place - leash), place + leash);
    return {
      index,
      state,
      confidence: Math.min(share, trust(mistrusted)),
      alongTrack: Math.min(Math.max(body, 0), route.length),
      crossTrack: tree.crossTrack,
      distance: tree.distance,
      segment: tree.segment,
      lag,
    };
  }

  /** All places as `snap` finds them. */
  #wholly(): SettledPlace[] {
    const recording: Recording = {
      name: '',
      lon: Float64Array.from(this.#lon),
      lat: Float64Array.from(this.#lat),
      time: Float64Array.from(this.#time),
      gapBefore: Uint8Array.from(this.#gapBefore),
      issues: [],
      source: { format: 'columns' },
      attributes: {},
    };
    const { route } = this.#prepared;
    const snapped = snapTrack(this.#prepared, new FixTrack(recording), markPins(route, recording), this.#options);
    return Array.from(places(snapped), (place) => Object.assign(place, { lag: this.#count - 1 - place.index }));
  }
}

/** A fix as the knot before the next. */
function asBefore({ x, y, z, seconds: clock, admitted }: PlacedFix): KnotFix {
  return { x, y, z, clock, interrupted: 0, admitted };
}

/** Metres from one fix straight to another. */
function metresBetween(a: PlacedFix, b: PlacedFix): number {
  return Math.sqrt((a.x - b.x) ** 2 + (a.y - b.y) ** 2 + (a.z - b.z) ** 2);
}

/** As sure as a fix can be whose time may not be its own. */
function trust(mistrusted: 0 | 1): number {
  return mistrusted === 1 ? MISTRUSTED : 1;
}
