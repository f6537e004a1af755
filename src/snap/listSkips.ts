import type { Skip } from '../model';
import type { FixPlaces } from './fixPlaces';

/** The skips of a recording: between which fixes, and from where to where. Those that begin or end off the route are none. */
export function listSkips(knots: Int32Array, { at, skips }: FixPlaces, alongTrack: Float64Array): Skip[] {
  const found: Skip[] = [];
  for (let knot = 1; knot < knots.length; knot++) {
    if (skips[knot] === 0) continue;
    const [before, after] = [at[knots[knot - 1]], at[knots[knot]]];
    let fix = knots[knot - 1] + 1;
    while (fix < knots[knot] && Math.abs(at[fix] - before) < Math.abs(at[fix] - after)) fix++;
    const [from, to] = [alongTrack[fix - 1], alongTrack[fix]];
    if (!Number.isNaN(from + to)) found.push({ fix, from, to });
  }
  return found;
}
