/** Metres along a route of a place on one of its edges: never beyond its end, as rounding may have it. */
export function alongEdge(alongTrack: Float64Array, edge: number, fraction: number): number {
  const begin = alongTrack[edge];
  const end = alongTrack[edge + 1];
  return Math.min(end, begin + fraction * (end - begin));
}
