import { RADIAN, turnBetween } from '../geodesy';
import { type Corner, type Fillet, fitFillet } from './fitFillet';
import { arcPiece, type Piece, partOfArc, partOfLine, SAME_POINT, step } from './Piece';

/** Degrees: a bend below this is the rounding of a straight line, and a turn so near to 180° has no width for an arc. */
const STRAIGHT = 1e-3;

/**
 * Degrees: sharper than this, the points of tangency run away from the corner (at 150° nearly 4 radii), so that rounding
 * would cut off the leg.
 */
const SHARP = 150;

/** What became of the pieces. */
export interface RoundedLine {
  readonly pieces: Piece[];
  /** For each node of the drawn line, how many of the new pieces lie before it. */
  readonly piecesBefore: number[];
  /** Nodes rounded with less than the radius asked for, and how much. */
  readonly tight: { readonly node: number; readonly radius: number }[];
  /** Nodes with a turn too sharp for the radius, and what they are rounded with. */
  readonly sharp: { readonly node: number; readonly radius: number }[];
}

/**
 * The line with an arc of `radius` metres in every corner, or of those that `own` has for its node, be its sides straight or arcs; a node that was a corner lies
 * halfway along its arc. Where pieces are too short for the radius, their corners share them in proportion to what each
 * would take, and the arcs are tighter. A turn over 150° is rounded no further back than `radius`: a near semicircle,
 * as wide as its legs are apart there.
 */
export function roundCorners(pieces: readonly Piece[], radius: number, own: ReadonlyMap<number, number>): RoundedLine {
  const radiusAt = (i: number) => own.get(i) ?? radius;
  const bends = pieces.map((piece, i) => {
    if (!(i > 0 && radiusAt(i) > 0 && piece.corner)) return 0;
    const bend = turnBetween(pieces[i - 1].endAzimuth, piece.startAzimuth);
    return Math.abs(bend) < STRAIGHT ? 0 : bend;
  });
  const isSharp = (i: number) => Math.abs(bends[i]) > SHARP;
  const wanted = pieces.map((piece, i) => {
    if (bends[i] === 0 || Math.abs(bends[i]) > 180 - STRAIGHT) return undefined;
    const most = isSharp(i) ? radiusAt(i) : Number.POSITIVE_INFINITY;
    const room = [Math.min(pieces[i - 1].length, most), Math.min(piece.length, most)] as const;
    return fitFillet(cornerOf(pieces[i - 1], piece, bends[i]), radiusAt(i), room);
  });
  /** How much of the tangents at its two ends each piece has room for. */
  const shares = pieces.map((piece, i) => {
    const taken = (wanted[i]?.tangent[1] ?? 0) + (wanted[i + 1]?.tangent[0] ?? 0);
    return taken > piece.length ? piece.length / taken : 1;
  });
  const fillets = wanted.map((fillet, i) => {
    const [before, after] = [shares[i - 1], shares[i]];
    if (fillet === undefined || (before === 1 && after === 1)) return fillet;
    const room = [fillet.tangent[0] * before, fillet.tangent[1] * after] as const;
    return fitFillet(cornerOf(pieces[i - 1], pieces[i], bends[i]), fillet.radius, room);
  });
  const out: Piece[] = [];
  const piecesBefore = [0];
  const tight: RoundedLine['tight'] = [];
  const sharp: RoundedLine['sharp'] = [];
  pieces.forEach((piece, i) => {
    const fillet = fillets[i];
    if (fillet !== undefined) {
      const arc = filletArc(pieces[i - 1], fillet, bends[i], piece.origin);
      out.push(partOfArc(arc, 0, arc.sweep / 2));
      piecesBefore[i] = out.length;
      out.push(partOfArc(arc, arc.sweep / 2, arc.sweep));
    }
    if (isSharp(i)) sharp.push({ node: i, radius: fillet?.radius ?? 0 });
    else if (fillet !== undefined && fillet.radius < 0.99 * radiusAt(i)) tight.push({ node: i, radius: fillet.radius });
    const [begin, end] = [fillet?.tangent[1] ?? 0, piece.length - (fillets[i + 1]?.tangent[0] ?? 0)];
    if (begin === 0 && end === piece.length) out.push(piece);
    else if (end - begin > SAME_POINT) {
      const part = partOf(piece, begin, end);
      // The arc before ends here to a rounding of the geodesic; one position must serve both.
      out.push(begin > 0 ? { ...part, from: out[out.length - 1].to } : part);
    }
    piecesBefore.push(out.length);
  });
  return { pieces: out, piecesBefore, tight, sharp };
}

function cornerOf(before: Piece, after: Piece, bend: number): Corner {
  const turn = bend > 0 ? 'right' : 'left';
  const curvature = (piece: Piece) => (piece.kind === 'line' ? 0 : (piece.turn === turn ? 1 : -1) / piece.radius);
  return { bend: Math.abs(bend) * RADIAN, curvature: [curvature(before), curvature(after)] };
}

function filletArc(before: Piece, { radius, sweep, tangent }: Fillet, bend: number, origin: number) {
  const from = before.length - tangent[0];
  const start =
    before.kind === 'line'
      ? step(before.to, before.endAzimuth, -tangent[0])
      : { to: partOf(before, 0, from).to, azimuth: partOf(before, 0, from).endAzimuth };
  const turn = bend > 0 ? 'right' : 'left';
  return arcPiece(start.to, start.azimuth, { turn, radius, sweep: sweep / RADIAN }, origin);
}

/** The part of a piece between two distances from its start, metres. */
function partOf(piece: Piece, from: number, to: number): Piece {
  if (piece.kind === 'line') return partOfLine(piece, from, to);
  const sweep = piece.sweep / piece.length;
  return partOfArc(piece, from * sweep, to === piece.length ? piece.sweep : to * sweep);
}
