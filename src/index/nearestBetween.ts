import { Geodesic, WGS84 } from '../geodesy';
import { checkStretch, type GivenPosition, type Route, type RoutePlace, type Stretch } from '../model';
import { type Foot, locate } from './locate';
import { placeOnEdge } from './placeOnEdge';
import type { SegmentTree } from './SegmentTree';
import { segmentAt } from './segmentAt';

/** A later foot must be nearer by this, in metres, to win over an earlier one. */
const TIE = 1e-6;

/** The place nearest to a position on one stretch of the route: whole segments by the tree, its two cut edges by hand. */
export function nearestBetween(
  route: Route,
  tree: SegmentTree,
  position: GivenPosition,
  between: Stretch,
  maxDistance: number,
): RoutePlace | undefined {
  checkStretch(route, between, 'options.between');
  const { from, to } = between;
  const [lon, lat] = position;
  const first = segmentAt(route.alongTrack, from);
  const last = segmentAt(route.alongTrack, to);
  let nearest: Foot | undefined;
  if (tree.nearest(lon, lat, maxDistance, first + 1, last) >= 0) {
    const { segment, fraction, distance, crossTrack } = tree;
    nearest = { segment, fraction, distance, crossTrack };
  } else tree.moveTo(lon, lat);
  // part of an edge is no nearer than the edge
  const begin = fractionAt(route, first, from);
  const end = fractionAt(route, last, to);
  if (!(tree.measure(first) > (nearest?.distance ?? maxDistance) + TIE)) {
    const foot = footOnPart(route, tree, position, begin, first === last ? end : 1);
    if (!nearest || foot.distance <= nearest.distance + TIE) nearest = foot;
  }
  if (first < last && !(tree.measure(last) > (nearest?.distance ?? maxDistance) + TIE)) {
    const foot = footOnPart(route, tree, position, 0, end);
    if (!nearest || foot.distance < nearest.distance - TIE) nearest = foot;
  }
  return nearest && nearest.distance <= maxDistance ? locate(route, nearest, position) : undefined;
}

function fractionAt({ alongTrack }: Route, segment: number, distance: number): number {
  const length = alongTrack[segment + 1] - alongTrack[segment];
  return length > 0 ? Math.min((distance - alongTrack[segment]) / length, 1) : 0;
}

/**
 * The foot on part of the edge that was measured last. Distance to an edge is convex along it: a foot off the part means
 * the part's nearer end.
 */
function footOnPart(route: Route, tree: SegmentTree, [lon, lat]: GivenPosition, from: number, to: number): Foot {
  const { segment, fraction, distance, crossTrack } = tree;
  if (from <= fraction && fraction <= to) return { segment, fraction, distance, crossTrack };
  const end = fraction < from ? from : to;
  const length = route.alongTrack[segment + 1] - route.alongTrack[segment];
  const place = placeOnEdge(route.lon, route.lat, segment, end, length);
  const { s12 } = WGS84.Inverse(lat, lon, place.lat, place.lon, Geodesic.DISTANCE);
  return { segment, fraction: end, distance: s12!, crossTrack: crossTrack < 0 ? -s12! : s12! };
}
