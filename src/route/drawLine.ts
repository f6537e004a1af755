import type { Position } from 'geojson';
import type { Draft } from './Draft';
import { linePiece, SAME_POINT } from './Piece';

/** Draws the geodesic to a position; to the pen itself, nothing. */
export function drawLine(draft: Draft, position: Position, pen: Position, corner = true): void {
  const piece = linePiece(pen, position, corner, draft.origin);
  if (piece.length <= SAME_POINT) return;
  draft.pieces.push(piece);
  draft.azimuth = piece.endAzimuth;
}
