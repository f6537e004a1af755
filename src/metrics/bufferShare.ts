import { Sum } from '../geodesy';
import { checkNumber, type Line } from '../model';
import { BufferedLine } from './BufferedLine';
import { convexPiece } from './convexPiece';
import { curveOf } from './curveOf';
import { finerCurve } from './finerCurve';
import { NearestEdge } from './NearestEdge';
import { withoutRepeats } from './withoutRepeats';

/**
 * Share, 0 to 1, of the length of `tested` that lies within `width` metres of `reference`: inside its buffer, the ends
 * round.
 *
 * Not symmetric: a tested line that covers only a part of the reference can lie wholly inside. Of a line of length 0 the
 * share of its positions is given. A recording's gaps have no length and no buffer.
 *
 * @param width - metres to either side, 0 or more; up to 1e-8 m over it still counts as inside
 *
 * @example
 * const plane = localPlane([20, 0])
 * const line = (...points) => points.map(plane.toPosition)
 * bufferShare(line([0, 0], [100, 10]), line([0, 0], [100, 0]), 4) // → 0.4000
 * bufferShare(line([0, 0], [110, 0]), line([0, 0], [100, 0]), 4.5) // → 0.950000
 * bufferShare([[5, 60]], [[5, 60]], -1) // throws out-of-range: width must be a number of at least 0, not -1
 *
 * @throws {InputError} no position, one that is not on the globe, or a width below 0
 * @remarks Places where the tested line passes the buffer's edge are found to 1e-6 m. Near-linear for a recording beside
 * its route. It grows with how often the one passes the edge of a buffer about the other: two that stand still, up to n² times.
 * @see Goodchild, Hunter, A simple positional accuracy measure for linear features, IJGIS 11 (1997), 299–306,
 * doi:10.1080/136588197242419
 */
export function bufferShare(tested: Line, reference: Line, width: number): number {
  const curve = curveOf(tested, 'tested', 'open');
  const near = new NearestEdge(withoutRepeats(curveOf(reference, 'reference', 'open')));
  checkNumber(width, 'width', { min: 0 });
  const buffered = new BufferedLine(finerCurve(curve, convexPiece(width), 'tested'), near);
  const inside = new Sum();
  const total = new Sum();
  for (const [edge, weight] of buffered.weights.entries()) {
    if (weight === 0) continue;
    total.add(weight);
    inside.add(weight * buffered.shareWithin(edge, width));
  }
  return Math.min(1, inside.value / total.value);
}
