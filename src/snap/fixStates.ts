import type { FixState, Route, Snapped } from '../model';
import { asideEvidence, ENOUGH, TOO_SHORT } from './asideEvidence';
import type { FixTrack } from './FixTrack';

/**
 * Fixes closer to the route than this lie on it, whatever those around them say: standard deviations, and metres at least.
 * At the route's very ends, where the foot can't follow, more is needed.
 */
export const CLOSE_SIGMAS = 2;
export const CLOSE_AT_ENDS = 3;
export const CLOSE = 15;

/** Errors bring a fix on another way close to the route for less than so many seconds. */
export const DIP = 10;

/** Before its start or past its end a single fix this far away shows it, standard deviations and metres at least. */
const BEYOND_SIGMAS = 6;
const BEYOND = 25;

/** What a fix is that isn't close to the route. */
const ASIDE = 1;
const THROWN = 2;

/**
 * What each fix is to the route. Stretches of fixes that are not close to it are off where one lies beyond `reach`, or,
 * unless the reach is the user's own, where together they speak for another way. One thrown aside for an instant says nothing of
 * those around it.
 */
export function fixStates(
  route: Route,
  track: FixTrack,
  { footAlongTrack: foot, distance }: Pick<Snapped, 'footAlongTrack' | 'distance'>,
  sigmaOf: (place: number) => number,
  reach: number,
  own: { readonly sigma?: number; readonly maxDistance?: number },
): FixState[] {
  const { clock, count: n } = track;
  const state: FixState[] = new Array(n).fill('on');
  const beyond = (i: number, sigmas: number, metres: number) =>
    distance[i] > Math.min(Math.max(sigmas * sigmaOf(foot[i]), metres), reach) && kind[i] !== THROWN;
  const kind = new Uint8Array(n);
  for (let i = 0; i < n; i++) if (beyond(i, CLOSE_SIGMAS, CLOSE)) kind[i] = track.isThrown(i) ? THROWN : ASIDE;
  let sorted: Float64Array | undefined;
  for (let from = 0; from < n; from++) {
    if (kind[from] !== ASIDE) continue;
    let to = from + 1;
    for (let i = to; i < n && (kind[i] === ASIDE || clock[i] - clock[to - 1] < DIP); i++) {
      if (kind[i] === ASIDE) to = i + 1;
    }
    let off = false;
    let evidence = 0;
    // a way beside the route makes the receiver look worse than it is: by so much less without these fixes
    let rest = 1;
    const speaks = own.maxDistance === undefined && clock[to - 1] - (from > 0 ? clock[from - 1] : -1) > TOO_SHORT;
    if (speaks && own.sigma === undefined) {
      sorted ??= distance.slice().sort();
      rest = sorted[(n - to + from) >> 1] / sorted[n >> 1] || 1;
    }
    for (let i = from; i < to && !off; i++) {
      if (kind[i] === THROWN) continue;
      off = distance[i] > reach;
      if (off || !speaks) continue;
      evidence = asideEvidence(evidence, distance[i], rest * sigmaOf(foot[i]), i > 0 ? clock[i] - clock[i - 1] : 1);
      off = evidence > ENOUGH;
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
  for (let i = before; i < after; i++) if (distance[i] > reach) state[i] = 'off';
  return state.fill('before', 0, before).fill('after', after);
}
