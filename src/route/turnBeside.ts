import type { Position } from 'geojson';
import { intersection, turnBetween } from '../geodesy';
import type { Draft } from './Draft';
import { arcPiece, linePiece, SAME_POINT } from './Piece';

/** Metres: ends of two legs drawn this near to each other were meant to meet; 6 decimals are 0.11 m. */
export const NEARLY_MET = 0.1;

/**
 * No way is cut by more than this many times what both are aside together: ways as far aside lose tan(turn / 2) times half of
 * that each, so corners to 165° are cut; a sharper one is a way back.
 */
const REACH = 4;

/** Nor carried on by more than this many times that: at sharper corners they would meet far out. */
const CARRY_ON = 1.5;

/**
 * Turns with the corner between two lines that are followed, one drawn after the other, or into the first that is: round the
 * outside of ways as far aside by an arc; elsewhere each ends where they cross, shortened or carried on.
 *
 * @param vertices - Of the way beside the line to be followed.
 * @param right - Metres that it runs right of that line.
 * @returns the vertices yet to be drawn; they are as given where the two lines don't meet
 */
export function turnBeside(draft: Draft, vertices: readonly Position[], right: number): readonly Position[] {
  const last = draft.pieces[draft.pieces.length - 1];
  const before = draft.followed?.right ?? 0;
  const aside = Math.abs(before) + Math.abs(right);
  if (last === undefined || aside === 0 || vertices.length < 2) return vertices;
  if (linePiece(last.to, vertices[0], false, -1).length > aside + NEARLY_MET) return vertices;
  const first = linePiece(vertices[0], vertices[1], false, -1);
  if (first.length <= SAME_POINT) return vertices;

  const turn = turnBetween(last.endAzimuth, first.startAzimuth);
  if (before === right && turn * right < 0) {
    const arc = { turn: turn > 0 ? 'right' : 'left', radius: Math.abs(right), sweep: Math.abs(turn) } as const;
    const piece = arcPiece(last.to, last.endAzimuth, arc, draft.origin);
    const meets = linePiece(piece.to, vertices[0], false, -1).length <= NEARLY_MET;
    if (!meets || piece.length <= SAME_POINT) return vertices;
    draft.pieces.push(piece);
    draft.azimuth = piece.endAzimuth;
    return vertices;
  }

  if (last.kind !== 'line') return vertices;
  const crossing = intersection(last.from, last.to, vertices[0], vertices[1]);
  if (crossing === undefined) return vertices;
  const { position, alongFirst, alongSecond } = crossing;
  const cut = last.length - alongFirst;
  // what was drawn where it was travelled ends where it was drawn
  const furthest = before === 0 ? SAME_POINT : CARRY_ON * aside;
  const cutEnd = alongFirst > SAME_POINT && cut > -furthest && cut < REACH * aside;
  const cutStart = alongSecond > -CARRY_ON * aside && alongSecond < Math.min(REACH * aside, first.length - SAME_POINT);
  if (!cutEnd || !cutStart) return vertices;
  const fitted = linePiece(last.from, position, last.corner, last.origin);
  draft.pieces[draft.pieces.length - 1] = fitted;
  draft.azimuth = fitted.endAzimuth;
  return [fitted.to, ...vertices.slice(1)];
}
