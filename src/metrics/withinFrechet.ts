import { checkNumber, type Line } from '../model';
import { convexPiece } from './convexPiece';
import { curveOf } from './curveOf';
import { FreeSpace } from './FreeSpace';
import { finerCurve } from './finerCurve';

/**
 * Whether the Fréchet distance of two lines is at most `distance` metres: one decision, without finding the distance.
 *
 * @param distance - metres, 0 or more; up to 1e-7 m over it still counts as within
 *
 * @example
 * const east = (metres) => direct([0, 0], 90, metres).position
 * withinFrechet([east(0), east(100)], [east(0), east(70)], 30) // → true
 * withinFrechet([east(0), east(100)], [east(0), east(70)], 29.9) // → false
 * withinFrechet([[5, 60]], [[5, 60]], -1) // throws out-of-range: distance must be a number of at least 0, not -1
 *
 * @throws {InputError} no position, one that is not on the globe, or a distance below 0
 * @remarks As {@link frechet}, on which see gaps, accuracy and cost.
 */
export function withinFrechet(a: Line, b: Line, distance: number): boolean {
  checkNumber(distance, 'distance', { min: 0 });
  const [first, second] = [curveOf(a, 'a', 'joined'), curveOf(b, 'b', 'joined')];
  const most = convexPiece(distance);
  return new FreeSpace(finerCurve(first, most, 'a'), finerCurve(second, most, 'b')).crosses(distance);
}
