/** Metres along a route of a place on one of its edges: never beyond the edge, as rounding would have it for one in 10⁵. */
export function alongEdge(alongTrack: Float64Array, edge: number, fraction: number): number {
  const begin = alongTrack[edge];
  const end = alongTrack[edge + 1];
  return Math.min(end, begin + fraction * (end - begin));
}
