/** The segment that holds a distance along the route, metres: the one that starts there when it is a vertex. */
export function segmentAt(alongTrack: Float64Array, distance: number): number {
  let low = 0;
  let high = alongTrack.length - 2;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (alongTrack[middle] <= distance) low = middle;
    else high = middle - 1;
  }
  return low;
}
