import type { FixState, Route, Snapped } from '../model';
import type { FixTrack } from './FixTrack';

/**
 * Fixes closer to the route than this lie on it, whatever those around them say: standard deviations, and metres at least.
 * At the route's very ends, where the foot can't follow, more is needed.
 */
const CLOSE_SIGMAS = 2;
const CLOSE_AT_ENDS = 3;
const CLOSE = 15;

/**
 * From here on a fix speaks for another way than the route's, standard deviations and metres at least: errors of this
 * size are rare, and rarer still for long. A receiver is not believed to be better than the least sigma when it is so far
 * off: where it errs most, its middling errors say little.
 */
const SPEAKS_SIGMAS = 2;
const SPEAKS = 25;
const LEAST_SIGMA = 5;

/**
 * How much the fixes must speak for another way, natural logarithm of the odds beyond what fixes at the distance above say:
 * found between missed ways (a minute at 40 m where sigma is 10 m) and false alarms (an hour without any way beside it).
 */
const ENOUGH = 3.5;

/** Errors persist: so many seconds of fixes speak once. */
const PERSISTS = 60;

/** However far off, no fix speaks louder than this: a third of a minute is needed, for bursts of errors last less. */
const LOUDEST = 10;

/** Errors bring a fix on another way close to the route for less than so many seconds. */
const DIP = 10;

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
  own: { readonly sigma?: number; readonly maxDistance?: number },
): FixState[] {
  const state: FixState[] = new Array(n).fill('on');
  const beyond = (i: number, sigmas: number, metres: number) =>
    distance[i] > Math.min(Math.max(sigmas * sigmaOf(foot[i]), metres), reach);
  const aside = (i: number) => beyond(i, CLOSE_SIGMAS, CLOSE);
  const sorted = distance.slice().sort();
  for (let from = 0; from < n; from++) {
    if (!aside(from)) continue;
    let to = from + 1;
    for (let i = to; i < n && (aside(i) || clock[i] - clock[to - 1] < DIP); i++) if (aside(i)) to = i + 1;
    let off = false;
    let evidence = 0;
    // a way beside the route makes the receiver look worse than it is: by so much less without these fixes
    const rest = own.sigma === undefined ? sorted[(n - to + from) >> 1] / sorted[n >> 1] || 1 : 1;
    for (let i = from; i < to && !off; i++) {
      const sigma = Math.max(rest * sigmaOf(foot[i]), LEAST_SIGMA);
      const speaks = Math.max(SPEAKS_SIGMAS * sigma, SPEAKS);
      const seconds = i > 0 ? Math.min(clock[i] - clock[i - 1], PERSISTS) : 1;
      const likelier = Math.min((distance[i] ** 2 - speaks ** 2) / (2 * sigma * sigma), LOUDEST);
      evidence = Math.max(evidence + (likelier * seconds) / PERSISTS, 0);
      off ||= distance[i] > reach || (own.maxDistance === undefined && evidence > ENOUGH);
    }
    if (off) state.fill('off', from, to);
    from = to - 1;
  }
  // at the very ends, clearly before the start or past the end is enough
  const outside = (i: number) => beyond(i, BEYOND_SIGMAS, BEYOND);
  const leaves = (i: number) => beyond(i, CLOSE_AT_ENDS, CLOSE);
  let before = 0;
  let seen = false;
  for (let i = 0; i < n && (state[i] === 'off' || foot[i] === 0); i++) {
    seen ||= state[i] === 'off' || outside(i);
    if (leaves(i)) before = i + 1;
  }
  if (!seen) before = 0;
  let after = n;
  seen = false;
  for (let i = n - 1; i >= before && (state[i] === 'off' || foot[i] === route.length); i--) {
    seen ||= state[i] === 'off' || outside(i);
    if (leaves(i)) after = i;
  }
  if (!seen) after = n;
  return state.fill('before', 0, before).fill('after', after);
}
