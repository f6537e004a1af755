import { type Curve, curveOf } from './Curve';
import { farthest } from './farthest';
import { freeSpacePath } from './freeSpacePath';
import type { Line } from './Line';
import { NearestEdge } from './NearestEdge';
import { surfaceDistance } from './surfaceDistance';

// Width of the last bracket in metres.
const TOLERANCE = 2e-7;

/**
 * Fréchet distance in metres: the shortest leash with which two walkers can go along `a` and `b`, each at its own pace,
 * neither of them back.
 *
 * This is the **continuous** distance, of the lines and not of their vertices: adding vertices on a line changes nothing.
 * Symmetric; order and direction count, so it is never less than {@link hausdorff}. Both lines must be connected: a
 * recording's gaps are walked straight across.
 *
 * @example
 * const east = (metres) => direct([0, 0], 90, metres).position
 * const peak = direct(east(50), 0, 50).position
 * frechet([east(0), east(100)], [east(0), peak, east(100)]) // → 50.000…
 * frechet([east(0), east(100)], [east(100), east(0)]) // → 100.000
 * frechet([[5, 60]], [[5, 60]]) // → 0
 * frechet([], [[5, 60]]) // throws too-few: a must be a line of at least 1 position
 *
 * @throws {InputError} no position, one that is not on the globe, or a line of over 500 000 km
 * @remarks 1e-6 m while the lines are within 10 000 km of each other; {@link withinFrechet} accepts the value returned.
 * The distance of the ends and the Hausdorff distance bound it from below: where they decide, near-linear. Else it is
 * bisected between them and a greedy walk; each decision follows the outline of the reachable free space, not its area, so
 * that a backtrack or a repeated stretch costs no more than its length. Edges over 100 m are cut along their geodesic
 * first; some 60 bytes a vertex.
 * @see Alt, Godau, Computing the Fréchet distance between two polygonal curves, IJCGA 5 (1995),
 * doi:10.1142/S0218195995000064
 * @see Bringmann, Künnemann, Nusser, Walking the dog fast in practice, SoCG (2019), doi:10.4230/LIPIcs.SoCG.2019.17
 */
export function frechet(a: Line, b: Line): number {
  const curveA = curveOf(a, 'a', 'joined');
  const curveB = curveOf(b, 'b', 'joined');
  let low = Math.max(vertexDistance(curveA, 0, curveB, 0), vertexDistance(curveA, curveA.edges, curveB, curveB.edges));
  low = farthest(curveA, new NearestEdge(curveB), low)?.distance ?? low;
  low = farthest(curveB, new NearestEdge(curveA), low)?.distance ?? low;
  if (freeSpacePath(curveA, curveB, low)) return low;
  let high = greedyWalk(curveA, curveB);
  while (high - low > TOLERANCE) {
    const middle = (low + high) / 2;
    if (!(middle > low && middle < high)) break;
    if (freeSpacePath(curveA, curveB, middle)) high = middle;
    else low = middle;
  }
  return high;
}

/** The longest leash of two walkers who hop from vertex to vertex, always the shortest way: an upper bound. */
function greedyWalk(a: Curve, b: Curve): number {
  let [i, j] = [0, 0];
  let longest = vertexDistance(a, 0, b, 0);
  while (i < a.edges || j < b.edges) {
    const both = i < a.edges && j < b.edges ? vertexDistance(a, i + 1, b, j + 1) : Infinity;
    const first = i < a.edges ? vertexDistance(a, i + 1, b, j) : Infinity;
    const second = j < b.edges ? vertexDistance(a, i, b, j + 1) : Infinity;
    const least = Math.min(both, first, second);
    if (least === both || least === first) i++;
    if (least === both || least !== first) j++;
    longest = Math.max(longest, least);
  }
  return longest;
}

function vertexDistance(a: Curve, i: number, b: Curve, j: number): number {
  const [p, q] = [a.vertices, b.vertices];
  return surfaceDistance(p.x[i], p.y[i], p.z[i], q.x[j], q.y[j], q.z[j]);
}
