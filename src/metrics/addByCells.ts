import type { Vertices } from '../index';
import type { BandPieces } from './BandPieces';
import type { EdgeInPlane } from './EdgeInPlane';
import type { PlaneCells } from './PlaneCells';

/** So far from its middle, metres, a plane is exact enough: squared. */
const SAME_PLANE2 = 500 ** 2;

/** Adds an edge by the cells of the other line through which it goes; false where these can't tell. */
export function addByCells(
  inPlane: EdgeInPlane,
  pieces: BandPieces,
  vertices: Vertices,
  cells: PlaneCells,
  edge: number,
  weight: number,
): boolean {
  const { view, size, west, south, columns, rows, held } = cells;
  view.see(vertices, edge);
  const px = view.x;
  const py = view.y;
  view.see(vertices, edge + 1);
  const qx = view.x;
  const qy = view.y;
  if (!(Math.max(px * px + py * py, qx * qx + qy * qy) <= SAME_PLANE2)) return false;
  const length = inPlane.goAlong(px, py, qx, qy, weight);
  const scale = weight / length;
  const ux = (qx - px) / length;
  const uy = (qy - py) / length;
  const left = px - west;
  const below = py - south;
  let column = Math.floor(left / size);
  let row = Math.floor(below / size);
  // a piece whose small cells no edge goes through, and its cell
  let begin = 0;
  let first = -1;
  for (let at = 0; at < length; ) {
    const nextColumn = ux === 0 ? Infinity : ((ux > 0 ? column + 1 : column) * size - left) / ux;
    const nextRow = uy === 0 ? Infinity : ((uy > 0 ? row + 1 : row) * size - below) / uy;
    const next = Math.min(Math.max(at, Math.min(nextColumn, nextRow)), length);
    // no edge is near to a place outside of all cells
    const isOut = column < 0 || column >= columns || row < 0 || row >= rows;
    const isHeld = !isOut && held[row * columns + column] === 1;
    if (isHeld) pieces.hold(scale * (next - at));
    const entry = isOut || isHeld ? -1 : cells.firstAt(column, row);
    if (entry !== first) {
      if (first >= 0) inPlane.addInCell(cells, first, begin, at);
      first = entry;
      begin = at;
    }
    if (nextColumn <= nextRow) column += ux > 0 ? 1 : -1;
    else row += uy > 0 ? 1 : -1;
    at = next;
  }
  if (first >= 0) inPlane.addInCell(cells, first, begin, length);
  return true;
}
