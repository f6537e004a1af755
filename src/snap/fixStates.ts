import type { FixState, Route, Snapped } from '../model';
import type { FixTrack } from './FixTrack';

/** Fixes closer to the route than this lie on it: standard deviations, and metres at least. */
const CLOSE_SIGMAS = 3;
const CLOSE = 15;

/**
 * From here on a fix speaks for another way than the route's, standard deviations and metres at least: errors of this
 * size are rare, and rarer still for long. A receiver is not believed to be better than the least sigma when it is so far
 * off: where it errs most, its middling errors say little.
 */
const SPEAKS_SIGMAS = 4;
const SPEAKS = 25;
const LEAST_SIGMA = 5;

/** How much likelier another way must be than errors of the receiver, natural logarithm: 3 000 to 1. */
const ENOUGH = 8;

/** Errors persist: so many seconds of fixes speak once. */
const PERSISTS = 60;

/** Before its start or past its end a single fix this far away shows it, standard deviations and metres at least. */
const BEYOND_SIGMAS = 6;
const BEYOND = 25;

/**
 * What each fix is to the route. Stretches of fixes that are not close to it are off where one lies beyond `reach`, or,
 * unless the reach is the user's own, where together they speak for another way.
 */
export function fixStates(
  route: Route,
  { clock, count: n }: FixTrack,
  { footAlongTrack: foot, distance }: Pick<Snapped, 'footAlongTrack' | 'distance'>,
  sigmaOf: (place: number) => number,
  reach: number,
  ownReach: number | undefined,
): FixState[] {
  const state: FixState[] = new Array(n).fill('on');
  const leaves = (i: number) => distance[i] > Math.min(Math.max(CLOSE_SIGMAS * sigmaOf(foot[i]), CLOSE), reach);
  for (let from = 0; from < n; from++) {
    if (!leaves(from)) continue;
    let to = from;
    let off = false;
    let evidence = 0;
    for (; to < n && leaves(to); to++) {
      const sigma = Math.max(sigmaOf(foot[to]), LEAST_SIGMA);
      const speaks = Math.max(SPEAKS_SIGMAS * sigma, SPEAKS);
      const seconds = to > 0 ? Math.min(clock[to] - clock[to - 1], PERSISTS) : 1;
      const likelier = (distance[to] ** 2 - speaks ** 2) / (2 * sigma * sigma);
      evidence = Math.max(evidence + (likelier * seconds) / PERSISTS, 0);
      off ||= distance[to] > reach || (ownReach === undefined && evidence > ENOUGH);
    }
    if (off) state.fill('off', from, to);
    from = to;
  }
  // at the very ends, clearly before the start or past the end is enough
  const beyond = (i: number) => distance[i] > Math.min(Math.max(BEYOND_SIGMAS * sigmaOf(foot[i]), BEYOND), reach);
  let before = 0;
  let seen = false;
  for (let i = 0; i < n && (state[i] === 'off' || foot[i] === 0); i++) {
    seen ||= state[i] === 'off' || beyond(i);
    if (leaves(i)) before = i + 1;
  }
  if (!seen) before = 0;
  let after = n;
  seen = false;
  for (let i = n - 1; i >= before && (state[i] === 'off' || foot[i] === route.length); i--) {
    seen ||= state[i] === 'off' || beyond(i);
    if (leaves(i)) after = i;
  }
  if (!seen) after = n;
  return state.fill('before', 0, before).fill('after', after);
}
