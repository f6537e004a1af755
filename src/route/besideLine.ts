import type { Position } from 'geojson';
import { RADIAN, unwrapLongitude, wrapLongitude } from '../geodesy';
import { type OffsetLine, offsetLine } from './offsetLine';
import { linePiece, partOfLine, step } from './Piece';

/** A line and the one that runs so many metres to its right; 0 for the line itself. */
export interface BesideLine extends OffsetLine {
  readonly line: readonly Position[];
}

/** @param right - metres, negative to the left */
export function besideLine(line: readonly Position[], right: number): BesideLine {
  if (right !== 0) return { line, ...offsetLine(line, right > 0 ? 'right' : 'left', Math.abs(right)) };
  return { line, vertices: [...line], source: [...line.keys()], smooth: line.map(() => false), wide: [], metres: 0 };
}

/**
 * The places beside one place of the source, given as vertex index and fraction of the edge after it: the vertices made
 * there, several round a corner; else the point straight beside it, or where the trim of a nearby corner ends.
 */
export function placesBeside(
  { line, vertices, source }: BesideLine,
  right: number,
  place: number,
): readonly Position[] {
  let after = source.findIndex((at) => at >= place);
  if (after === -1) after = source.length - 1;
  if (after === 0 || source[after] <= place) {
    let past = after + 1;
    while (past < source.length && source[past] === source[after]) past++;
    return vertices.slice(after, past);
  }
  const edge = Math.floor(place);
  const piece = linePiece(line[edge], line[edge + 1], false, -1);
  const foot = partOfLine(piece, 0, piece.length * (place - edge));
  const [lon, lat] = step(foot.to, foot.endAzimuth + 90, right).to;
  const [a, b] = [vertices[after - 1], vertices[after]];
  const shrink = Math.cos(lat * RADIAN) ** 2;
  const [dx, dy] = [unwrapLongitude(b[0], a[0]) - a[0], b[1] - a[1]];
  const along = (unwrapLongitude(lon, a[0]) - a[0]) * dx * shrink + (lat - a[1]) * dy;
  const share = Math.min(Math.max(along / (dx * dx * shrink + dy * dy || 1), 0), 1);
  return [[wrapLongitude(a[0] + share * dx), a[1] + share * dy]];
}
