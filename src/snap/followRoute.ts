import {
  checkMembers,
  checkNumber,
  checkOptions,
  checkPosition,
  checkRoute,
  type GivenPosition,
  InputError,
  type MemberKeys,
  type OptionKeys,
  type Route,
  routeHash,
} from '../model';
import {
  type FollowedPlace,
  Following,
  type FollowingOptions,
  type SavedFollowing,
  type SettledPlace,
} from './Following';
import { preparedRoute } from './PreparedRoute';

/** Options of {@link followRoute}. */
export interface FollowRouteOptions {
  /**
   * Seconds after which a place is settled: no later fix changes it. `Infinity` waits for all, and keeps all. @defaultValue 30
   */
  readonly lag?: number;
  /** Standard deviation of a fix in metres, per axis. @defaultValue estimated from the last hour, section by section */
  readonly sigma?: number;
  /**
   * Fixes further from the route than this, in metres, are not on it; where it is given, it alone decides.
   * @defaultValue as that of {@link snap}
   */
  readonly maxDistance?: number;
}

/** A fix as it comes from the receiver. */
export interface FollowedFix {
  readonly position: GivenPosition;
  /** Milliseconds since the Unix epoch. */
  readonly time?: number | undefined;
  /**
   * Radius in metres of the circle that holds the true position with 95 % confidence, as receivers state it. The fix is taken
   * for no better than that, never for better than the others; with more than 245 m it is not placed.
   */
  readonly accuracy?: number | undefined;
  /** 1 where the recording was interrupted before the fix: the body may have moved unseen. */
  readonly gapBefore?: 0 | 1;
}

/** Follows one recording along a route, fix by fix. Made by {@link followRoute}, or by {@link resumeFollowing}. */
export interface Follower {
  /**
   * Takes the next fix; returns at once where it lies by the fixes so far.
   *
   * @throws {InputError} a position not on the globe, a number that is not finite, an unknown key; nothing is taken then
   */
  push(fix: FollowedFix): FollowedPlace;
  /**
   * The places that have settled since they were last asked for, in the order of the fixes: later fixes can't change them. Each
   * tells by how many fixes it came later. The last 18 000 at least are kept until they are asked for: of those before, the
   * `index` shows how many are gone.
   *
   * With `lag: Infinity` no place settles before the end: this takes the last fix for the end, and answers each time with all
   * places from the first on, as {@link snap} finds them.
   */
  settled(): SettledPlace[];
  /**
   * Settles all that is left, as if no fix came any more; returns it as `settled` does. A fix pushed later goes on from there.
   */
  end(): SettledPlace[];
  /** All that is needed to go on in another process, plain JSON for {@link resumeFollowing}; settled places not asked for included. */
  save(): SavedFollower;
}

/** What {@link Follower.save} gives: plain JSON. Its members are those of this version; only {@link resumeFollowing} reads them. */
export interface SavedFollower extends SavedFollowing {
  /** Of this form. */
  readonly version: typeof SAVED_VERSION;
  /** The hash of the route. */
  readonly route: string;
  readonly options: { readonly lag: number | null; readonly sigma: number | null; readonly maxDistance: number | null };
}

/** Of the form that is written and read. */
export const SAVED_VERSION = 1;

const optionKeys: OptionKeys<FollowRouteOptions> = { lag: true, sigma: true, maxDistance: true };
const fixKeys: MemberKeys<FollowedFix> = { position: 'must', time: 'may', accuracy: 'may', gapBefore: 'may' };

/** Seconds. */
const LAG = 30;

/** Milliseconds to either side of the epoch within which instants lie (ECMA-262, §21.4.1.1). */
const LATEST = 8.64e15;

/**
 * Places fixes on a route one by one as they come: each at once by the fixes so far, and for good after a lag, when those
 * after it have had their say. Not for navigation.
 *
 * What {@link snap} knows of the whole recording, this knows of the part so far: order, time, direction of motion and the
 * recorded displacement tell laps, the way out and the way back, crossings and parallel streets apart. `nearest` of
 * {@link indexRoute} knows the one fix alone.
 *
 * - `state` is `before` until the route is joined, `off` away from it, `after` past its end; `on` else. That fixes which lie some
 *   25 to 60 m aside are too many to be errors shows after a third of a minute to a minute; of those before, the ones that have
 *   not settled are then off as well. `unplaced` is a fix whose own `accuracy` is too coarse.
 * - A stretch left out, or gone over again, a lap skipped: believed as soon as the fixes speak for it clearly, most often half a
 *   minute later; until then they lie on the old pass with a large `distance`, or are off. `alternatives` tells where else.
 * - A jump of the receiver changes nothing for as long as a block of houses is wide and some 20 seconds; if it stays, it is a
 *   stretch left out.
 * - A time that is not later than those before is not believed: the fix is placed by order and displacement, with a confidence
 *   of 0.95 at most. When three in a row are early, but rise, the clock was set back, and they are believed. Fixes without a time move at
 *   the pace of the others. A fix that repeats the one before changes nothing.
 * - After a pause, an hour or more, any place that could be reached in the time is as good; those before it have settled.
 * - A fix settles when one comes that is `lag` seconds later, or when 20 a second of the lag (64 at least) have come after it,
 *   whatever their clock says.
 * - Of the whole recording nothing is known: a route ridden against its direction is not turned round, the places aren't
 *   smoothed by the pace, and marks with a time pin nothing.
 *
 * With `lag: Infinity` the settled places are those of `snap` for the fixes pushed, all it does with a whole recording included
 * (it knows no `accuracy`); what `push` answers is the same for every lag.
 *
 * @example
 * const route = routeFromLine([[5, 60], [5.01, 60], [5, 60]]);
 * const follower = followRoute(route, { lag: 10 });
 * const there = [5.001, 5.003, 5.005, 5.007, 5.009, 5.01, 5.009, 5.007];
 * const answers = there.map((lon, i) => follower.push({ position: [lon, 60.00005], time: 9000 * i }));
 * answers[1] // → { state: 'on', located: { alongTrack: 167.40…, crossTrack: -5.56… }, alternatives: [] }
 * answers[7].located // → { alongTrack: 725.40…, crossTrack: 5.56… }
 * follower.settled().map(({ index, lag }) => [index, lag]) // → [[0, 2], [1, 2], [2, 2], [3, 2], [4, 2], [5, 2]]
 * const later = resumeFollowing(route, JSON.parse(JSON.stringify(follower.save())));
 * later.end().map(({ index }) => index) // → [6, 7]
 * follower.push({ position: [60, 95] }) // throws swapped: fix.position latitude must be
 *
 * @throws {InputError} an unknown option, or one out of range
 * @remarks Memory is bounded by the lag, whatever is pushed, but for `lag: Infinity`, which keeps every fix. Right pass of fixes
 * at once and settled: docs/placing.md; microseconds a fix: bench/follow.bench.ts. Time grows with the number of fixes and with
 * the metres of the route within reach of a fix, up to 6 km.
 */
export function followRoute(route: Route, options: FollowRouteOptions = {}): Follower {
  checkRoute(route);
  checkOptions(options, optionKeys);
  const { lag = LAG, sigma, maxDistance } = options;
  if (lag !== Infinity) checkNumber(lag, 'options.lag', { min: 0 });
  if (sigma !== undefined) checkNumber(sigma, 'options.sigma', { above: 0, max: 1e6 });
  if (maxDistance !== undefined) checkNumber(maxDistance, 'options.maxDistance', { above: 0 });
  return followerOn(route, { lag, sigma, maxDistance });
}

/** A follower with checked options, from the beginning or from what one had come to. */
export function followerOn(route: Route, options: FollowingOptions, saved?: SavedFollowing): Follower {
  const following = new Following(preparedRoute(route), options, saved);
  const { lag, sigma = null, maxDistance = null } = options;
  return {
    push(fix) {
      checkMembers(fix, fixKeys, 'fix');
      const { position, time, accuracy = 0, gapBefore = 0 } = fix;
      checkPosition(position, 'fix.position');
      if (time !== undefined) checkNumber(time, 'fix.time', { min: -LATEST, max: LATEST });
      if (accuracy !== 0) checkNumber(accuracy, 'fix.accuracy', { min: 0 });
      if (gapBefore !== 0 && gapBefore !== 1) {
        throw new InputError({ reason: 'wrong-type', argument: 'fix.gapBefore', rule: '0 or 1', value: gapBefore });
      }
      return following.push({ position, time, accuracy, gapBefore });
    },
    settled: () => following.settled(),
    end: () => following.end(),
    save: () => ({
      version: SAVED_VERSION,
      route: routeHash(route),
      options: { lag: lag === Infinity ? null : lag, sigma, maxDistance },
      ...following.save(),
    }),
  };
}
