import { turnBetween } from '../internal/azimuth';
import { arcPiece, type LinePiece, type Piece, partOfArc, partOfLine, SAME_POINT, step } from './Piece';

/** Degrees: a bend below this is the rounding of a straight line. */
const STRAIGHT = 1e-3;

/**
 * Degrees: sharper than this, the points of tangency run away from the corner (at 150° nearly 4 radii), so that rounding
 * would cut off the leg. Such a turn is left as it is; `uTurn` makes a semicircle.
 */
const SHARP = 150;

/** What became of the pieces. */
export interface RoundedLine {
  readonly pieces: Piece[];
  /** For each node of the drawn line, how many of the new pieces lie before it. */
  readonly piecesBefore: number[];
  /** Nodes rounded with less than the radius asked for, and how much. */
  readonly tight: { readonly node: number; readonly radius: number }[];
  /** Nodes too sharp to be rounded. */
  readonly sharp: number[];
}

/**
 * The line with an arc of `radius` metres in every corner between two straight legs; a node that was a corner lies
 * halfway along its arc. Where legs are too short for the radius, they are shared in proportion and the arc is tighter.
 */
export function roundCorners(pieces: readonly Piece[], radius: number): RoundedLine {
  const bends = pieces.map((piece, i) =>
    i > 0 && piece.corner && piece.kind === 'line' && pieces[i - 1].kind === 'line'
      ? turnBetween(pieces[i - 1].endAzimuth, piece.startAzimuth)
      : 0,
  );
  const sharp = radius > 0 ? bends.flatMap((bend, i) => (Math.abs(bend) > SHARP ? [i] : [])) : [];
  const tangents = bends.map((bend) =>
    Math.abs(bend) < STRAIGHT || Math.abs(bend) > SHARP ? 0 : radius * Math.tan((Math.abs(bend) * Math.PI) / 360),
  );
  /** How much of the tangents at its two ends each piece has room for. */
  const shares = pieces.map((piece, i) => Math.min(1, piece.length / (tangents[i] + (tangents[i + 1] ?? 0) || 1e-300)));
  const out: Piece[] = [];
  const piecesBefore = [0];
  const tight: RoundedLine['tight'] = [];
  const fitted = tangents.map((tangent, i) => (i === 0 ? 0 : tangent * Math.min(shares[i - 1], shares[i])));
  pieces.forEach((piece, i) => {
    const [begin, end] = [fitted[i], piece.length - (fitted[i + 1] ?? 0)];
    if (begin > 0) {
      const scale = fitted[i] / tangents[i];
      const arc = filletArc(pieces[i - 1] as LinePiece, fitted[i], bends[i], radius * scale, piece.origin);
      out.push(partOfArc(arc, 0, arc.sweep / 2));
      piecesBefore[i] = out.length;
      out.push(partOfArc(arc, arc.sweep / 2, arc.sweep));
      if (scale < 0.99) tight.push({ node: i, radius: radius * scale });
    }
    if (piece.kind === 'arc') out.push(piece);
    else if (end - begin > SAME_POINT) {
      const previous = out[out.length - 1];
      const part = begin === 0 && end === piece.length ? piece : partOfLine(piece, begin, end);
      // The arc before ends here to a rounding of the geodesic; one position must serve both.
      out.push(begin > 0 ? { ...part, from: previous.to } : part);
    }
    piecesBefore.push(out.length);
  });
  return { pieces: out, piecesBefore, tight, sharp };
}

function filletArc(before: LinePiece, tangent: number, bend: number, radius: number, origin: number) {
  const start = step(before.to, before.endAzimuth, -tangent);
  return arcPiece(
    start.to,
    start.azimuth,
    { turn: bend > 0 ? 'right' : 'left', radius, sweep: Math.abs(bend) },
    origin,
  );
}
