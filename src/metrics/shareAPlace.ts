/** Whether some place of a line is in a run of the one and in one of the other; runs are places from, to, from, to … in order. */
export function shareAPlace(runs: Float64Array, others: Float64Array, edges: number): boolean {
  // rounding may part them by the last bits of an edge number
  const slack = 1e-12 * edges;
  let k = 0;
  for (let at = 0; at < runs.length; at += 2) {
    while (k < others.length && others[k + 1] < runs[at] - slack) k += 2;
    if (k < others.length && others[k] <= runs[at + 1] + slack) return true;
  }
  return false;
}
