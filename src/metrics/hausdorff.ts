import type { Line } from '../model';
import { curveOf } from './curveOf';
import type { DirectedHausdorff } from './directedHausdorff';
import { farthestOfBoth } from './farthestOfBoth';

/** The greater of the two directed distances. */
export interface Hausdorff extends DirectedHausdorff {
  /** The line on which `at` lies; `nearest` lies on the other. */
  readonly farther: 'a' | 'b';
}

/**
 * Greatest distance in metres of any place of either line, edges included, from the nearest place of the other; and the
 * two places that decide it.
 *
 * This is the **continuous** Hausdorff distance, the greater of the two values of {@link directedHausdorff} (`a` where both
 * are equal). Symmetric, and blind to order and direction: {@link discreteFrechet} is not.
 *
 * @example
 * const plane = localPlane([20, 0])
 * const line = (...points) => points.map(plane.toPosition)
 * // a figure for which vertices alone give 14.142, and some manuals 70: it is 970 / 13
 * hausdorff(line([130, 0], [0, 0], [0, 150]), line([10, 10], [10, 150], [130, 10])) // → { distance: 74.61538…, farther: 'b' }
 * hausdorff([[5, 60]], [[5, 60]]).distance // → 0
 * hausdorff([[5, 60]], [[5, Infinity]]) // throws not-finite: b[0] latitude must be a finite number
 *
 * @throws {InputError} no position, one that is not on the globe, or a line of over 5 000 000 km
 * @remarks As {@link directedHausdorff}, on which see gaps, accuracy and cost.
 */
export function hausdorff(a: Line, b: Line): Hausdorff {
  return farthestOfBoth(curveOf(a, 'a', 'open'), curveOf(b, 'b', 'open'));
}
