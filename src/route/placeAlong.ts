import { SAME_POINT } from './Piece';

/** The place so many metres along a line of edges with these lengths: vertex index and fraction of the edge after it. */
export function placeAlong(lengths: readonly number[], metres: number): number {
  let left = metres;
  for (const [edge, length] of lengths.entries()) {
    // A place within rounding of a vertex is that vertex.
    if (left <= SAME_POINT) return edge;
    if (left < length - SAME_POINT) return edge + left / length;
    left -= length;
  }
  return lengths.length;
}
