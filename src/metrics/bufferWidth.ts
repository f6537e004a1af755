import { Sum } from '../geodesy';
import { checkNumber, type Line } from '../model';
import type { Curve } from './Curve';
import { curveOf } from './curveOf';
import { DistancePiece, FEW_EDGES, type PieceEnd } from './DistancePiece';
import { farthest } from './farthest';
import { NearestEdge } from './NearestEdge';
import { Spans } from './Spans';
import { withoutRepeats } from './withoutRepeats';

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
 * @remarks 1e-6 m for lines up to 300 m apart, 5e-6 m up to 1 km, 1e-7 of the distance up to 100 km, a few 1e-4 of it beyond. Distances at the vertices
 * bracket it; only pieces of edges that can lie on either side of what is left of the bracket are halved or measured in
 * full. Near-linear for lines beside each other, a few dozen times the cost of {@link hausdorff} where one zigzags across the
 * other. It grows with how often the one passes the edge of a buffer about the other: two recordings that stand still, n
 * fixes each, pass it up to n² times.
 * @see Goodchild, Hunter, A simple positional accuracy measure for linear features, IJGIS 11 (1997), 299–306,
 * doi:10.1080/136588197242419
 */
export function bufferWidth(tested: Line, reference: Line, share = 0.95): number {
  const curve = curveOf(tested, 'tested', 'open');
  const against = withoutRepeats(curveOf(reference, 'reference', 'open'));
  checkNumber(share, 'share', { above: 0, max: 1 });
  const near = new NearestEdge(against, share < 1 ? 'sphere' : 'exact');
  if (share === 1) return farthest(curve, near)!.distance;

  let open = piecesOf(curve, near);
  const total = new Sum();
  for (const { weight } of open) total.add(weight);
  // as much as rounding could hold back from a full share
  const wanted = share * total.value * (1 - 1e-12);
  const inside = new Sum();
  const known: DistancePiece[] = [];
  let [low, high] = [0, Infinity];
  while (open.length > 0) {
    [low, high] = bracket([...open, ...known], wanted - inside.value, low, high);
    const next: DistancePiece[] = [];
    for (const piece of open) {
      if (piece.greatest <= low) inside.add(piece.weight);
      else if (piece.least > high) continue;
      else if (piece.isKnown(near, high)) known.push(piece);
      else next.push(...halves(curve, near, piece));
    }
    open = next;
  }
  return leastWidth(known, wanted, inside.value, low, high);
}

/** The edges of a curve, with the distances of their ends; of points alone, each by itself. */
function piecesOf(curve: Curve, near: NearestEdge): DistancePiece[] {
  const { vertices, edges, gap } = curve;
  const ends: PieceEnd[] = [];
  let guess = 0;
  for (let i = 0; i <= edges; i++) {
    const [x, y, z] = [vertices.x[i], vertices.y[i], vertices.z[i]];
    guess = vertices.hop(i, near.curve.vertices, guess);
    ends.push(endAt(near, x, y, z, guess, 0));
    guess = ends[i].near;
  }
  const lengths = Float64Array.from({ length: edges }, (_, i) => (gap?.[i] === 1 ? 0 : Math.sqrt(vertices.chord2(i))));
  const isPoints = !lengths.some((length) => length > 0);
  const pieces: DistancePiece[] = [];
  for (let i = 0; i < edges; i++) {
    if (gap?.[i] === 1 || (lengths[i] === 0 && !isPoints)) continue;
    pieces.push(new DistancePiece(i, ends[i], { ...ends[i + 1], fraction: 1 }, isPoints ? 1 : lengths[i], near));
  }
  return pieces;
}

function endAt(near: NearestEdge, x: number, y: number, z: number, guess: number, fraction: number): PieceEnd {
  near.moveTo(x, y, z);
  near.offer(guess);
  near.walk();
  near.search(0);
  return { x, y, z, fraction, distance: Math.sqrt(near.squared), near: near.edge };
}

function halves({ vertices }: Curve, near: NearestEdge, piece: DistancePiece): DistancePiece[] {
  const { edge, from, to, weight } = piece;
  const place = new Float64Array(3);
  const fraction = (from.fraction + to.fraction) / 2;
  vertices.between(edge, fraction, place);
  const middle = endAt(near, place[0], place[1], place[2], from.near, fraction);
  return [
    new DistancePiece(edge, from, middle, weight / 2, near),
    new DistancePiece(edge, middle, to, weight / 2, near),
  ];
}

/** Two widths between which the one lies that holds the weight wanted, by what the pieces can be at least and at most. */
function bracket(
  pieces: readonly DistancePiece[],
  wanted: number,
  low: number,
  high: number,
): [low: number, high: number] {
  const top = pieces.reduce((most, { greatest }) => Math.max(most, greatest), 0);
  const find = (of: 'least' | 'greatest') => {
    let [less, enough] = [low, Math.min(high, top)];
    for (let k = 0; k < 16; k++) {
      const width = (less + enough) / 2;
      let held = 0;
      for (const piece of pieces) if (piece[of] <= width) held += piece.weight;
      if (held >= wanted) enough = width;
      else less = width;
    }
    return [less, enough];
  };
  return [find('least')[0], find('greatest')[1]];
}

/** The least width between two at which what is within the pieces, and `inside` beside, is the weight wanted. */
function leastWidth(
  pieces: readonly DistancePiece[],
  wanted: number,
  inside: number,
  from: number,
  to: number,
): number {
  let [low, high] = [from, to];
  let [heldLow, heldHigh] = [Number.NaN, Number.NaN];
  let open = pieces;
  let settled = inside;
  const spans = new Spans(FEW_EDGES);
  // steps in halves before the next by a straight line, and how many after that, should it lead no further
  let [halving, next] = [1, 1];
  while (high - low > TOLERANCE) {
    const before = high - low;
    const middle = (low + high) / 2;
    if (!(middle > low && middle < high)) break;
    const straight = low + ((wanted - heldLow) / (heldHigh - heldLow)) * before;
    // a little to the side that is longer, so that both ends close in
    const beyond = straight + (straight < middle ? TOLERANCE / 4 : -TOLERANCE / 4);
    const byLine = halving === 0 && beyond > low && beyond < high;
    const width = byLine ? beyond : middle;
    const shares = open.map((piece) => piece.shareWithin(width, spans));
    const held = new Sum();
    held.add(settled);
    for (let k = 0; k < shares.length; k++) held.add(shares[k] * open[k].weight);
    const enough = held.value >= wanted;
    if (enough) [high, heldHigh] = [width, held.value];
    else [low, heldLow] = [width, held.value];
    if (halving > 0) halving--;
    else if (high - low > before / 2) {
      halving = next;
      next++;
    }
    // what a wider width holds wholly it goes on holding, what a narrower one misses it goes on missing
    const done = enough ? 0 : 1;
    for (let k = 0; k < shares.length; k++) if (shares[k] === done) settled += done * open[k].weight;
    open = open.filter((_, k) => shares[k] !== done);
  }
  return high;
}
