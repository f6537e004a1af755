import { Geodesic, WGS84 } from '../geodesy';
import type { GivenPosition, Route, RoutePlace } from '../model';
import { locate } from './locate';
import type { SegmentTree } from './SegmentTree';

/**
 * Two feet are one place unless the line between them rises away by more than this, in metres: chords of an arc drawn to
 * the usual sagitta of 0.02 m each have a foot of their own as seen from near its centre.
 */
const RISE = 0.025;

/** The places on a route nearest of their surroundings, within a distance in metres, in order along the route. */
export function localNearest(
  route: Route,
  tree: SegmentTree,
  position: GivenPosition,
  maxDistance: number,
): RoutePlace[] {
  const [lon, lat] = position;
  const found: number[] = [];
  let best = -1;
  let bestDistance = Infinity;
  /** The furthest that the line has risen since the best foot of this pass. */
  let top = -Infinity;
  let before = -2;
  const close = () => {
    if (best >= 0) found.push(best);
    best = -1;
    bestDistance = Infinity;
    top = -Infinity;
  };
  for (const segment of tree.within(lon, lat, maxDistance)) {
    if (segment !== before + 1) close();
    before = segment;
    const distance = tree.measure(segment);
    if (best >= 0) {
      const { s12 } = WGS84.Inverse(lat, lon, route.lat[segment], route.lon[segment], Geodesic.DISTANCE);
      top = Math.max(top, s12!);
      if (top - Math.max(distance, bestDistance) > RISE) close();
    }
    if (distance < bestDistance) {
      best = segment;
      bestDistance = distance;
      top = -Infinity;
    }
  }
  close();
  return found.map((segment) => {
    tree.settle(segment);
    return locate(route, tree, position);
  });
}
