import { type Recording, type Route, type Snapped, sectionFinder } from '../model';
import { routeExtent, SHOWN_WITHIN } from '../privacy';

/**
 * The numbers of the fixes whose position may be shown: of those from joining the route to leaving it, what lies on the
 * route's extent, or within its corridor where that is wider.
 */
export function shownFixes(route: Route, { lon, lat }: Recording, { alongTrack, distance, state }: Snapped): number[] {
  const onExtent = routeExtent(route, SHOWN_WITHIN);
  const sectionsAt = sectionFinder(route);
  return Array.from(state.keys()).filter((i) => {
    if (state[i] !== 'on' && state[i] !== 'off') return false;
    return onExtent(lon[i], lat[i]) || distance[i] <= (sectionsAt(alongTrack[i]).at(0)?.halfWidth ?? 0);
  });
}
