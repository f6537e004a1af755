import { Sum } from '../geodesy';
import { checkNumber, type Line } from '../model';
import { BufferedLine } from './BufferedLine';
import { convexPiece } from './convexPiece';
import { curveOf } from './curveOf';
import { farthest } from './farthest';
import { finerCurve } from './finerCurve';
import { NearestEdge } from './NearestEdge';

// Width of the last bracket in metres.
const TOLERANCE = 1e-7;

/**
 * Least width in metres of the buffer around `reference` that holds the share `share` of the length of `tested`: the
 * inverse of {@link bufferShare}.
 *
 * With a share of 1 it is the directed Hausdorff distance from `tested` to `reference`. It is a length-weighted quantile of
 * the distance from line to line, hence neither a radius that holds 95 % of positions nor an offset to one side.
 *
 * @param share - above 0, at most 1
 *
 * @example
 * const plane = localPlane([20, 0])
 * const line = (...points) => points.map(plane.toPosition)
 * bufferWidth(line([0, 0], [100, 10]), line([0, 0], [100, 0])) // → 9.5000
 * bufferWidth(line([0, 5], [100, 5]), line([0, 0], [100, 0]), 0.5) // → 5.0000
 * bufferWidth([[5, 60]], [[5, 60]], 2) // throws out-of-range: share must be a number above 0 up to 1, not 2
 *
 * @throws {InputError} no position, one that is not on the globe, or a share outside (0, 1]
 * @remarks 1e-6 m, by bisection; an edge is looked at again only while the bracket can change its part.
 * @see Goodchild, Hunter, A simple positional accuracy measure for linear features, IJGIS 11 (1997), 299–306,
 * doi:10.1080/136588197242419
 */
export function bufferWidth(tested: Line, reference: Line, share = 0.95): number {
  const curve = curveOf(tested, 'tested', 'open');
  const near = new NearestEdge(curveOf(reference, 'reference', 'open'));
  checkNumber(share, 'share', { above: 0, max: 1 });
  let high = farthest(curve, near)!.distance;
  const buffered = new BufferedLine(finerCurve(curve, convexPiece(high), 'tested'), near);
  const { weights } = buffered;
  const total = new Sum();
  for (const weight of weights) total.add(weight);
  // as much as rounding could hold back from a full share
  const wanted = share * total.value * (1 - 1e-12);

  let low = 0;
  // edges that lie neither wholly inside the narrower nor wholly outside the wider width; the length inside of the others
  let open = [...weights.keys()].filter((edge) => weights[edge] > 0);
  let settled = 0;
  while (high - low > TOLERANCE) {
    const width = (low + high) / 2;
    const inside = new Sum();
    inside.add(settled);
    const shares = open.map((edge) => buffered.shareWithin(edge, width));
    for (const [k, part] of shares.entries()) inside.add(part * weights[open[k]]);
    const enough = inside.value >= wanted;
    if (enough) high = width;
    else low = width;
    // what a wider width holds wholly it goes on holding, what a narrower one misses it goes on missing
    const done = enough ? 0 : 1;
    for (const [k, part] of shares.entries()) if (part === done) settled += done * weights[open[k]];
    open = open.filter((_, k) => shares[k] !== done);
  }
  return high;
}
