/** Looks at each point, on the average, after which parts are cut in their middle: rides take 15 to 35, streets for days 170. */
const PATIENCE = 200;

/**
 * Indices of the points that a drawn line can't do without: every other lies within `tolerance` of the line through these.
 *
 * The first and the last always stay; for no points the list is empty. Coordinates are plane, the tolerance is in their
 * unit.
 *
 * @remarks n log n. A line that coils has its worst point again and again near an end of what is left: after a while it is cut in
 * halves instead, which keeps a few points more than are needed.
 * @see Douglas, Peucker, Algorithms for the reduction of the number of points, Cartographica 10 (1973)
 */
export function thinLine(x: ArrayLike<number>, y: ArrayLike<number>, tolerance: number): number[] {
  const n = x.length;
  const keep = new Uint8Array(n);
  if (n > 0) keep[0] = keep[n - 1] = 1;
  /** Ends of what is still to be looked at, two by two. */
  const open = n > 2 ? [0, n - 1] : [];
  let looks = PATIENCE * n;
  while (open.length > 0) {
    const b = open.pop()!;
    const a = open.pop()!;
    looks -= b - a;
    const ex = x[b] - x[a];
    const ey = y[b] - y[a];
    const length2 = ex * ex + ey * ey;
    let worst = tolerance * tolerance;
    let at = -1;
    const share = length2 > 0 ? 1 / length2 : 0;
    for (let i = a + 1; i < b; i++) {
      let px = x[i] - x[a];
      let py = y[i] - y[a];
      const along = (px * ex + py * ey) * share;
      if (along > 0) {
        const foot = Math.min(along, 1);
        px -= foot * ex;
        py -= foot * ey;
      }
      const square = px * px + py * py;
      if (square > worst) {
        worst = square;
        at = i;
      }
    }
    if (at < 0) continue;
    const cut = looks > 0 ? at : (a + b) >> 1;
    keep[cut] = 1;
    open.push(a, cut, cut, b);
  }
  const kept: number[] = [];
  for (let i = 0; i < n; i++) if (keep[i] === 1) kept.push(i);
  return kept;
}
