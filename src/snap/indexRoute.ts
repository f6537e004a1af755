import type { Position } from 'geojson';
import { checkNumber } from '../internal/checkNumber';
import { checkOptions, type OptionKeys } from '../internal/checkOptions';
import { checkPosition } from '../internal/checkPosition';
import type { Route } from '../route/Route';
import { SegmentTree } from '../route/SegmentTree';
import type { Located } from './Located';
import { localNearest } from './localNearest';
import { locate } from './locate';
import { nearestBetween } from './nearestBetween';

/** Options of {@link RouteIndex.nearest}. */
export interface NearestOptions {
  /** Only this stretch is searched, metres along the route. @defaultValue the whole route */
  readonly between?: readonly [from: number, to: number];
  /** Nothing further away is found, in metres. @defaultValue no limit */
  readonly maxDistance?: number;
}

/** Options of {@link RouteIndex.candidates}. */
export interface CandidatesOptions {
  /** Nothing further away is listed, in metres. */
  readonly within: number;
}

/** Answers questions of place about one route. */
export interface RouteIndex {
  /**
   * The place on the route nearest to a position, `undefined` when none lies within the limits. Of places equally near
   * (to a micrometre) the first along the route.
   *
   * @throws {InputError} a position not on the globe, or a stretch not on the route
   */
  nearest(position: Position, options?: NearestOptions): Located | undefined;
  /** Every place nearest of its surroundings along the route, once for each pass, in order along it. */
  candidates(position: Position, options: CandidatesOptions): Located[];
  /** The segments within `radius` metres of a position, ascending. */
  segmentsWithin(position: Position, radius: number): number[];
}

const nearestKeys: OptionKeys<NearestOptions> = { between: true, maxDistance: true };
const candidatesKeys: OptionKeys<CandidatesOptions> = { within: true };

/**
 * An index over the segments of a route: the nearest place, all candidates for it, all segments around.
 *
 * @example
 * const outAndBack = routeFromLine([[5, 60], [5.01, 60], [5, 60]])
 * const index = indexRoute(outAndBack)
 * index.nearest([5.003, 60.0001]) // → { alongTrack: 167.40…, crossTrack: -11.14…, segment: 33 }
 * index.candidates([5.003, 60.0001], { within: 30 }).map((place) => place.crossTrack) // → [-11.14…, 11.14…]
 *
 * @remarks A question costs time with the logarithm of the number of segments, building with the number.
 */
export function indexRoute(route: Route): RouteIndex {
  const tree = new SegmentTree(route.lon, route.lat);
  return {
    nearest(position, options) {
      checkPosition(position, 'position');
      checkOptions(options, nearestKeys);
      const { between, maxDistance = Infinity } = options ?? {};
      if (maxDistance !== Infinity) checkNumber(maxDistance, 'options.maxDistance', { min: 0 });
      if (between !== undefined) return nearestBetween(route, tree, position, between, maxDistance);
      return tree.nearest(position[0], position[1], maxDistance) < 0 ? undefined : locate(route, tree, position);
    },
    candidates(position, options) {
      checkPosition(position, 'position');
      checkOptions(options, candidatesKeys);
      const within = checkNumber(options?.within, 'options.within', { min: 0 });
      return localNearest(route, tree, position, within);
    },
    segmentsWithin(position, radius) {
      checkPosition(position, 'position');
      checkNumber(radius, 'radius', { min: 0 });
      return tree.within(position[0], position[1], radius);
    },
  };
}
