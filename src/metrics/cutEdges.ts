import { Vertices } from '../index';
import { InputError } from '../model';
import { Curve } from './Curve';

const MAX_PIECES = 5_000_000;

/** How a curve is to be cut. */
interface Cut {
  /** Names the line in the error. */
  readonly argument: string;
  /** No chord of a piece will be longer, metres. */
  readonly most: number;
  /** Into how many pieces an edge with such a chord must go, at least 1. */
  readonly piecesOf: (chord: number) => number;
  /** Sets the vertices from `at` on to the places that cut an edge into so many equal pieces. */
  readonly place: (edge: number, pieces: number, into: Vertices, at: number) => void;
}

/**
 * The curve with its longer edges in pieces; itself where none is too long.
 *
 * @throws {InputError} `too-large` over 5 000 000 pieces
 */
export function cutEdges(curve: Curve, { argument, most, piecesOf, place }: Cut): Curve {
  if (curve.longest <= most) return curve;
  const { vertices, edges, gap } = curve;
  const pieces = (edge: number) => (gap?.[edge] === 1 ? 1 : piecesOf(Math.sqrt(vertices.chord2(edge))));
  let count = 1;
  for (let edge = 0; edge < edges; edge++) count += pieces(edge);
  if (!(count <= MAX_PIECES)) {
    const rule = `at most ${MAX_PIECES} pieces of ${most} m`;
    throw new InputError({ reason: 'too-large', argument, rule, value: count });
  }
  const cut = new Vertices(count);
  const cutGap = gap && new Uint8Array(count);
  let at = 0;
  for (let edge = 0; edge <= edges; edge++) {
    cut.copy(at++, vertices, edge);
    if (edge === edges) break;
    if (gap?.[edge] === 1) cutGap![at - 1] = 1;
    const inEdge = pieces(edge);
    if (inEdge > 1) place(edge, inEdge, cut, at);
    at += inEdge - 1;
  }
  return new Curve(cut, most, cutGap);
}
