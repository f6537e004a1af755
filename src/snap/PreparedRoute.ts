import { SegmentTree } from '../index';
import { ofRoute, type Route } from '../model';
import { Bins } from './Bins';

/** A route made ready for recordings to be placed on it. */
export interface PreparedRoute {
  readonly route: Route;
  readonly tree: SegmentTree;
  readonly bins: Bins;
}

/** Made once for a route that keeps it. */
export function preparedRoute(route: Route): PreparedRoute {
  return ofRoute(route, prepare);
}

function prepare(route: Route): PreparedRoute {
  return { route, tree: new SegmentTree(route.lon, route.lat), bins: new Bins(route) };
}
