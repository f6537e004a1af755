import type { Position } from 'geojson';
import type { Line } from '../model';
import { curveOf } from './curveOf';
import { farthest } from './farthest';
import { NearestEdge } from './NearestEdge';

/** How far one line is from another at most, and the two places that decide it. */
export interface DirectedHausdorff {
  /** Metres. */
  readonly distance: number;
  /** The place of the first line farthest from the second: a vertex or inside an edge. */
  readonly at: Position;
  /** The place of the second line nearest to it. */
  readonly nearest: Position;
}

/**
 * Greatest distance in metres of any place of `a`, edges included, from the nearest place of `b`; and both places.
 *
 * This is the **continuous** directed Hausdorff distance of two sets: order and direction don't matter. Libraries that try
 * vertices only answer less, wherever the farthest place lies inside an edge. Of places equally far within 1e-7 m one is
 * given. A recording's gaps are no part of either line, the fixes beside them are.
 *
 * @example
 * const east = (metres) => direct([0, 0], 90, metres).position
 * const peak = direct(east(50), 0, 50).position
 * directedHausdorff([east(0), east(100)], [east(0), peak, east(100)]).distance // → 35.3553…
 * directedHausdorff([east(0), peak, east(100)], [east(0), east(100)]) // → { distance: 50.000, nearest: [0.00044915…, 0.000…] }
 * directedHausdorff([], [[5, 60]]) // throws too-few: a must be a line of at least 1 position
 *
 * @throws {InputError} no position, one that is not on the globe, or a line of over 5 000 000 km
 * @remarks 1e-6 m while the lines are within 10 000 km of each other. An R-tree over the edges of `b`, a local first guess,
 * and edges of `a` split by upper bound: near-linear; some 50 bytes a vertex. Edges over 1 km are cut along their geodesic
 * first.
 * @see Alt, Behrends, Blömer, Approximate matching of polygonal shapes, Ann. Math. Artif. Intell. 13 (1995),
 * doi:10.1007/BF01530830
 */
export function directedHausdorff(a: Line, b: Line): DirectedHausdorff {
  const from = curveOf(a, 'a', 'open');
  return farthest(from, new NearestEdge(curveOf(b, 'b', 'open')))!;
}
