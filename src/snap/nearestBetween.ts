import type { Position } from 'geojson';
import { InputError } from '../errors';
import { Geodesic, WGS84 } from '../geodesy/ellipsoid';
import { checkNumber } from '../internal/checkNumber';
import type { Route } from '../route/Route';
import type { SegmentTree } from '../route/SegmentTree';
import type { Located } from './Located';
import { type Foot, locate } from './locate';
import { placeOnEdge } from './placeOnEdge';
import { segmentAt } from './segmentAt';

/** A later foot must be nearer by this, in metres, to win over an earlier one. */
const TIE = 1e-6;

/** The place nearest to a position on one stretch of the route: whole segments by the tree, its two cut edges by hand. */
export function nearestBetween(
  route: Route,
  tree: SegmentTree,
  position: Position,
  between: readonly [from: number, to: number],
  maxDistance: number,
): Located | undefined {
  const [from, to] = checkStretch(route, between);
  const first = segmentAt(route.alongTrack, from);
  const last = segmentAt(route.alongTrack, to);
  const feet = [
    footOnPart(
      route,
      tree,
      position,
      first,
      fractionAt(route, first, from),
      first === last ? fractionAt(route, last, to) : 1,
    ),
  ];
  if (first + 1 < last && tree.nearest(position[0], position[1], maxDistance, first + 1, last) >= 0) {
    feet.push({ segment: tree.segment, fraction: tree.fraction, distance: tree.distance, crossTrack: tree.crossTrack });
  }
  if (first < last) feet.push(footOnPart(route, tree, position, last, 0, fractionAt(route, last, to)));
  const nearest = feet.reduce((best, foot) => (foot.distance < best.distance - TIE ? foot : best));
  return nearest.distance <= maxDistance ? locate(route, nearest, position) : undefined;
}

function checkStretch(route: Route, between: unknown): [from: number, to: number] {
  const argument = 'options.between';
  if (!Array.isArray(between) || between.length !== 2) {
    throw new InputError({
      reason: 'wrong-type',
      argument,
      rule: '[from, to] in metres along the route',
      value: between,
    });
  }
  const from = checkNumber(between[0], `${argument}[0]`);
  const to = checkNumber(between[1], `${argument}[1]`);
  if (!(0 <= from && from <= to && to <= route.length)) {
    throw new InputError({
      reason: 'outside',
      argument,
      rule: `a stretch of the route, 0 to ${route.length} metres`,
      value: between,
    });
  }
  return [from, to];
}

function fractionAt({ alongTrack }: Route, segment: number, distance: number): number {
  const length = alongTrack[segment + 1] - alongTrack[segment];
  return length > 0 ? Math.min((distance - alongTrack[segment]) / length, 1) : 0;
}

/** The foot on part of an edge. Distance to an edge is convex along it: a foot off the part means the part's nearer end. */
function footOnPart(
  route: Route,
  tree: SegmentTree,
  position: Position,
  segment: number,
  from: number,
  to: number,
): Foot {
  const [lon, lat] = position;
  tree.moveTo(lon, lat);
  tree.measure(segment);
  const { fraction, distance, crossTrack } = tree;
  if (from <= fraction && fraction <= to) return { segment, fraction, distance, crossTrack };
  const end = fraction < from ? from : to;
  const place = placeOnEdge(route, segment, end);
  const { s12 } = WGS84.Inverse(lat, lon, place[1], place[0], Geodesic.DISTANCE);
  return { segment, fraction: end, distance: s12!, crossTrack: crossTrack < 0 ? -s12! : s12! };
}
