/** The edge whose direction a segment has: itself; for one of no length the next with any, or else the one before. */
export function directedEdge(alongTrack: Float64Array, segment: number): number {
  const last = alongTrack.length - 2;
  let edge = segment;
  while (edge < last && alongTrack[edge] === alongTrack[edge + 1]) edge++;
  while (edge > 0 && alongTrack[edge] === alongTrack[edge + 1]) edge--;
  return edge;
}
