import type { Route } from '../route/Route';
import type { FixState } from './Snapped';

/** An excursion reaches back to where the fixes last lay this close to the route: standard deviations, and metres. */
const CLOSE_SIGMAS = 3;
const CLOSE = 15;

/** What each fix is to the route, from where its foot lies. */
export function fixStates(
  route: Route,
  { foot, distance }: { readonly foot: Float64Array; readonly distance: Float64Array },
  sigma: Float64Array,
  spacing: number,
  reach: number,
): FixState[] {
  const n = foot.length;
  const state: FixState[] = new Array(n).fill('on');
  const closeTo = (i: number) => Math.min(Math.max(CLOSE_SIGMAS * sigma[Math.round(foot[i] / spacing)], CLOSE), reach);
  // far: surely not on the route; at the very ends, clearly before its start or past its end is enough
  const far = (i: number) =>
    distance[i] > reach || ((foot[i] === 0 || foot[i] === route.length) && distance[i] > closeTo(i));
  const leaves = (i: number) => far(i) || distance[i] > closeTo(i);
  for (let i = 0; i < n; i++) {
    if (!(distance[i] > reach)) continue;
    state[i] = 'off';
    for (let k = i - 1; k >= 0 && state[k] === 'on' && leaves(k); k--) state[k] = 'off';
    for (; i + 1 < n && leaves(i + 1); i++) state[i + 1] = 'off';
  }
  let before = 0;
  for (let i = 0; i < n && (state[i] === 'off' || foot[i] === 0); i++) {
    if (state[i] === 'off' || far(i)) before = i + 1;
  }
  let after = n;
  for (let i = n - 1; i >= before && (state[i] === 'off' || foot[i] === route.length); i--) {
    if (state[i] === 'off' || far(i)) after = i;
  }
  return state.fill('before', 0, before).fill('after', after);
}
