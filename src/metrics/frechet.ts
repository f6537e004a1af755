import type { Line } from '../model';
import { convexPiece } from './convexPiece';
import { curveOf } from './curveOf';
import { FreeSpace } from './FreeSpace';
import { farthestOfBoth } from './farthestOfBoth';
import { finerCurve } from './finerCurve';
import { greedyWalk } from './greedyWalk';

// Width of the last bracket in metres.
const TOLERANCE = 4e-7;

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
 * @throws {InputError} no position, one that is not on the globe, or a line of over 5 000 000 pieces
 * @remarks 1e-6 m up to 100 km, farther apart 1e-11 of the distance, within 10 000 km; {@link withinFrechet} accepts the
 * value returned. The distance of the ends and the Hausdorff distance bound it from below: where they decide, near-linear.
 * Else it is sought between them and a greedy walk: first on the way past the place where the last decision failed, then
 * proven by two whole decisions, and by halving where that leads to none. A decision hops from vertex to vertex where it can,
 * else it follows the outline of the reachable free space, not its area, from both ends in turns, and looks for some path
 * meanwhile: near-linear back and forth, and for fixes about one place that are each by itself. Where such fixes wander, that
 * outline grows with the square, and so does a decision; for some lines every method known does (Bringmann, Why walking the
 * dog takes time, FOCS (2014), doi:10.1109/FOCS.2014.76). Edges over 1 km are cut along their geodesic first, and shorter
 * ones where the lines are over 30 m apart; some 60 bytes a vertex.
 * @see Alt, Godau, Computing the Fréchet distance between two polygonal curves, IJCGA 5 (1995),
 * doi:10.1142/S0218195995000064
 * @see Bringmann, Künnemann, Nusser, Walking the dog fast in practice, SoCG (2019), doi:10.4230/LIPIcs.SoCG.2019.17
 */
export function frechet(a: Line, b: Line): number {
  let curveA = curveOf(a, 'a', 'joined');
  let curveB = curveOf(b, 'b', 'joined');
  const apart = farthestOfBoth(curveA, curveB).distance;
  let walk = greedyWalk(curveA.vertices, curveB.vertices);
  const most = convexPiece(Math.sqrt(walk.squared));
  if (Math.max(curveA.longest, curveB.longest) > most) {
    curveA = finerCurve(curveA, most, 'a');
    curveB = finerCurve(curveB, most, 'b');
    walk = greedyWalk(curveA.vertices, curveB.vertices);
  }
  const [first, second] = [curveA.vertices, curveB.vertices];
  let low = Math.max(apart, first.distance(0, second, 0), first.distance(curveA.edges, second, curveB.edges));
  let high = Math.sqrt(walk.squared);
  const space = new FreeSpace(curveA, curveB);
  if (high <= low || space.crosses(low)) return low;
  while (high - low > TOLERANCE) {
    const [bracket, stuck, from] = [high - low, space.stuck, space.from];
    const guess = space.passes(low, high, TOLERANCE / 4);
    if (guess < high) {
      if (space.crosses(guess)) {
        high = guess;
        // most often the guess is the answer: then nothing shorter does
        const shorter = Math.max(low, guess - 0.99 * TOLERANCE);
        if (space.crosses(shorter)) high = shorter;
        else low = shorter;
      } else low = guess;
    }
    // where guessing neither halves the bracket nor leads well on, halve it
    const leadsOn = space.from === from && space.stuck >= stuck + curveA.edges / 16;
    if (high - low > TOLERANCE && high - low > bracket / 2 && !leadsOn) {
      const middle = (low + high) / 2;
      if (!(middle > low && middle < high)) break;
      if (space.crosses(middle)) high = middle;
      else low = middle;
    }
  }
  return high;
}
