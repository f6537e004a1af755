import {
  checkNumber,
  checkOptions,
  checkPosition,
  checkRoute,
  type GivenPosition,
  type OptionKeys,
  type Route,
  type RoutePlace,
  type Stretch,
} from '../model';
import { localNearest } from './localNearest';
import { locate } from './locate';
import { nearestBetween } from './nearestBetween';
import { SegmentTree } from './SegmentTree';

/** Options of {@link RouteIndex.nearest}. */
export interface NearestOptions {
  /** Only this stretch is searched, metres along the route. @defaultValue the whole route */
  readonly between?: Stretch;
  /** Nothing further away is found, in metres. @defaultValue no limit */
  readonly maxDistance?: number;
}

/** Options of {@link RouteIndex.candidates}. */
export interface CandidatesOptions {
  /** Nothing further away is listed, in metres. */
  readonly maxDistance: number;
}

/** Answers questions of place about one route. Made by {@link indexRoute}. */
export interface RouteIndex {
  /**
   * The place on the route nearest to a position, `undefined` when none lies within the limits.
   *
   * Of places equally near (to a micrometre) it is the first along the route. A vertex belongs to the segment it starts,
   * the last one to the last segment. `between` keeps to a stretch, its ends included, wherever else the route is nearer.
   *
   * @example
   * const route = routeFromLine([[5, 60], [5.01, 60], [5, 60]]);
   * const index = indexRoute(route);
   * index.nearest([5.003, 60.0001]) // → { alongTrack: 167.40…, crossTrack: -11.13…, azimuth: 89.99… }
   * index.nearest([5.003, 60.0001], { between: { from: 558, to: 1116 } }) // → { alongTrack: 948.59…, crossTrack: 11.13… }
   * index.nearest([5.003, 60.0001], { maxDistance: 10 }) // → undefined
   * index.nearest([4.999, 60.0001]) // → { alongTrack: 0, distance: 56.90…, beyond: 'start' }
   * index.nearest([5.003, 60.0001], { between: { from: 0, to: 2000 } }) // throws outside: options.between must be
   *
   * @throws {InputError} a position not on the globe; a stretch not on the route; unknown options
   * @remarks 1e-5 m from the exact foot for a position within 1 km of the route, distance and place alike, and the distance
   * at any range. Along a recording some 1 µs, whatever the number of segments, as each search begins where the last one
   * ended; for places at random some 2 µs with 2 000 segments and 5 µs with 200 000. The answer doesn't depend on what was
   * asked before.
   */
  nearest(position: GivenPosition, options?: NearestOptions): RoutePlace | undefined;
  /**
   * Every place nearest of its surroundings along the route, within so many metres: once for each pass, in order along it;
   * `[]` when there is none.
   *
   * Two such places of one pass count as one where the distance between them rises by less than 25 mm: an arc is drawn as
   * chords, and each chord has a nearest place of its own.
   *
   * @example
   * const route = routeFromLine([[5, 60], [5.01, 60], [5, 60]]);
   * const both = indexRoute(route).candidates([5.003, 60.0001], { maxDistance: 30 });
   * both.map((place) => place.alongTrack) // → [167.40…, 948.59…]
   * both.map((place) => place.crossTrack) // → [-11.13…, 11.13…]
   *
   * @throws {InputError} a position not on the globe; `maxDistance` missing or negative
   * @remarks A few microseconds for each segment within the distance.
   */
  candidates(position: GivenPosition, options: CandidatesOptions): RoutePlace[];
  /**
   * The segments within `maxDistance` metres of a position, ascending; `[]` when there are none. Segment `i` runs from the
   * route's vertex `i` to the next.
   *
   * @example
   * const index = indexRoute(routeFromLine([[5, 60], [5.01, 60]], { maxSpacing: 100 }));
   * index.segmentsWithin([5.0034, 60], 20) // → [1, 2]
   *
   * @throws {InputError} a position not on the globe; a negative distance
   * @remarks Grows with the number found, and with the logarithm of that of all.
   */
  segmentsWithin(position: GivenPosition, maxDistance: number): number[];
}

const nearestKeys: OptionKeys<NearestOptions> = { between: true, maxDistance: true };
const candidatesKeys: OptionKeys<CandidatesOptions> = { maxDistance: true };

/**
 * An index over the segments of a route: the nearest place, all candidates for it, all segments around.
 *
 * Answers are those of trying every segment, each of them a geodesic, only sooner; also where the route repeats itself,
 * crosses ±180° or runs over a pole. A recording is better placed by {@link snap}: where a route passes a place twice, the
 * nearest place can't tell which time it was.
 *
 * @example
 * const outAndBack = routeFromLine([[5, 60], [5.01, 60], [5, 60]])
 * const index = indexRoute(outAndBack)
 * index.nearest([5.003, 60.0001]) // → { alongTrack: 167.40…, crossTrack: -11.13…, segment: 33 }
 * index.candidates([5.003, 60.0001], { maxDistance: 30 }).map((place) => place.crossTrack) // → [-11.13…, 11.13…]
 *
 * @remarks Built in less than 1 µs a segment: an R-tree by bulk load over boxes of longitude and latitude, which is gone
 * through best first with the true distance to the segment at its leaves. bench/nearest.bench.ts has it beside peers.
 * @see Hjaltason & Samet, Distance browsing in spatial databases, ACM TODS 24 (1999), doi:10.1145/320248.320255
 */
export function indexRoute(route: Route): RouteIndex {
  checkRoute(route);
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
      const maxDistance = checkNumber(options?.maxDistance, 'options.maxDistance', { min: 0 });
      return localNearest(route, tree, position, maxDistance);
    },
    segmentsWithin(position, maxDistance) {
      checkPosition(position, 'position');
      checkNumber(maxDistance, 'maxDistance', { min: 0 });
      return tree.within(position[0], position[1], maxDistance);
    },
  };
}
