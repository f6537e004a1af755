import type { Position } from 'geojson';
import { checkPosition, type GivenPosition } from '../model';
import { edgeLine, positionAlong } from './edgeLine';
import { footOnLine } from './interception';

/** A point seen from a geodesic. */
export interface PointToGeodesicResult {
  /** Metres from the geodesic: right of the direction of travel positive, left negative, 0 on it. */
  readonly crossTrack: number;
  /** Metres from `from` to the foot along the geodesic, negative behind `from`. */
  readonly alongTrack: number;
  /** Metres from the point to the foot, unsigned. */
  readonly distance: number;
  /** The nearest position of the geodesic: there it meets the shortest way to the point at right angles. */
  readonly foot: Position;
}

/**
 * Cross-track and along-track in metres, and the foot, of a point on the endless geodesic through `from` and `to`.
 *
 * - A geodesic runs round the ellipsoid for ever: the foot is the nearest one within half a turn, 20 037 km and up to
 *   200 km more, either way of the middle between `from` and `to`; of equally near ones `from`, else the first.
 * - Between nearly or exactly antipodal ends it is the shortest geodesic that {@link inverse} takes.
 * - `from` and `to` the same, or closer than 1e-9 m: no direction, so the foot is `from`, alongTrack 0 and crossTrack
 *   the distance, counted right.
 * - Heights are ignored; the foot has none, and a longitude within [-180, 180).
 *
 * @example
 * pointToGeodesic([5.5, 52], [5, 52], [6, 51.4]) // → { crossTrack: -23767.7241…, alongTrack: 24784.2884…, foot: [5.2604…, 51.8460…] }
 *
 * @throws {InputError} a position not on the globe
 * @remarks Newton on reduced length and geodesic scale: 1 round up to some 2 km, 2–3 up to 10 000 km; converged to 1e-9 m of
 * along-track, for edges and distances up to 10 000 km. What double precision adds: positions are rounded by 3e-9 m and
 * distances good to 15 nm, which moves the foot of a point `d` metres off an edge of `l` metres by up to 3e-9 d/l, and
 * without bound where it nears a pole of the geodesic. There, over 9 500 km away, and where the foot that Newton finds lies
 * about half a turn from the edge, a bracketed search all round takes its place. Costs under five of geographiclib's
 * distance solutions (bench/geodesy.bench.ts), the search hundreds.
 * @see Karney, Algorithms for geodesics, J. Geod. 87 (2013), §8, doi:10.1007/s00190-012-0578-z
 * @see Baselga & Martínez-Llario, Intersection and point-to-line solutions for geodesics on the ellipsoid, Stud.
 * Geophys. Geod. 62 (2018), doi:10.1007/s11200-017-1020-z
 */
export function pointToGeodesic(point: GivenPosition, from: GivenPosition, to: GivenPosition): PointToGeodesicResult {
  checkPosition(point, 'point');
  const line = edgeLine(from, to);
  const { alongTrack, crossTrack } = footOnLine({ line, lon: point[0], lat: point[1] });
  return { crossTrack, alongTrack, distance: Math.abs(crossTrack), foot: positionAlong(line, alongTrack) };
}
