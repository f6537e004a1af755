import { endPassed, SegmentTree } from '../index';
import type { Route } from '../model';

/** Metres from the route within which a fix may be shown. */
export const SHOWN_WITHIN = 50;

/** A fix nearer than this to the route's first or last point, in metres, lies on it and not beyond: rounding. */
const ON_END = 1e-3;

/** The function that tells whether a position, in degrees, lies on the extent of a route: so near, and not before its start or past its end. */
export function routeExtent(route: Route, maxDistance: number): (lon: number, lat: number) => boolean {
  const tree = new SegmentTree(route.lon, route.lat);
  return (lon, lat) => {
    if (tree.nearest(lon, lat, maxDistance) < 0) return false;
    return tree.distance <= ON_END || endPassed(route, tree, [lon, lat]) === undefined;
  };
}
