import { checkPosition, type GivenPosition } from '../model';
import { edgeLine, positionAlong } from './edgeLine';
import { footOnSegment } from './interception';
import { wrapLongitude } from './longitude';
import type { PointToGeodesicResult } from './pointToGeodesic';

/** A point seen from an edge. */
export interface PointToSegmentResult extends PointToGeodesicResult {
  /** Set where no perpendicular from the edge is nearer than this end of it. */
  readonly beyond?: 'start' | 'end';
}

/**
 * The nearest place in metres of the edge from `from` to `to`, its ends included.
 *
 * - `distance` and `foot` are those of the nearest place; `crossTrack` is the distance with its sign, right of travel
 *   positive; `alongTrack` lies within the edge.
 * - Where that place is an end and no foot of a perpendicular, `beyond` names it. Straight beyond an end the point lies
 *   on neither side, and crossTrack may have either sign.
 * - Of equally near places the first. `from` and `to` the same: the foot is `from`, crossTrack is counted right.
 * - Heights are ignored; the foot has none, and a longitude within [-180, 180).
 *
 * @example
 * pointToSegment([5.5, 52], [5, 52], [6, 51.4]) // → { crossTrack: -23767.7241…, alongTrack: 24784.2884… }
 * pointToSegment([4.9, 52.1], [5, 52], [6, 51.4]) // → { crossTrack: -13071.64…, alongTrack: 0, foot: [5, 52], beyond: 'start' }
 *
 * @throws {InputError} a position not on the globe
 * @remarks Converged, and with the accuracy, of {@link pointToGeodesic}; about as much time, beyond the second end half as
 * much again.
 * @see Karney, Algorithms for geodesics, J. Geod. 87 (2013), §8, doi:10.1007/s00190-012-0578-z
 */
export function pointToSegment(point: GivenPosition, from: GivenPosition, to: GivenPosition): PointToSegmentResult {
  checkPosition(point, 'point');
  const line = edgeLine(from, to);
  const { alongTrack, crossTrack, beyond } = footOnSegment({ line, lon: point[0], lat: point[1] });
  const distance = Math.abs(crossTrack);
  if (!beyond) return { crossTrack, alongTrack, distance, foot: positionAlong(line, alongTrack) };
  const [lon, lat] = beyond === 'start' ? from : to;
  return { crossTrack, alongTrack, distance, foot: [wrapLongitude(lon), lat], beyond };
}
