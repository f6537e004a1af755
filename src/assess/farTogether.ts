import type { NamedPlaced } from './NamedPlaced';
import type { RouteGrid } from './RouteGrid';

/** Metres: nearer than this, or than the corridor is wide, errors that receivers share explain it too. */
const FAR = 10;
/** Metres of the way: what is shorter is a corner or a burst of errors. */
const LEAST_METRES = 50;
/** Metres that may lie between two such places that are told as one. */
const BETWEEN = 100;

/** A stretch on which all recordings lie far off the line, and the least that any lies off where all lie furthest. */
export interface FarTogether {
  readonly from: number;
  readonly to: number;
  readonly metres: number;
}

/**
 * Where all recordings lie on one side of the line, far from it and nearer to each other than to it: the way that was travelled
 * is more likely another than that all receivers err alike.
 */
export function farTogether(grid: RouteGrid, recordings: readonly NamedPlaced[]): readonly FarTogether[] {
  const { count, edges, width, halfWidth, lateral95, excluded } = grid;
  const found: (FarTogether & { readonly far: number })[] = [];
  // one is never together with another
  if (recordings.length < 2) return found;
  for (let k = 0; k < count; k++) {
    if (excluded[k] === 1) continue;
    let covering = 0;
    let low = Infinity;
    let high = -Infinity;
    for (const { placed } of recordings) {
      if (Number.isNaN(placed.offset[k])) continue;
      covering++;
      low = Math.min(low, placed.offset[k]);
      high = Math.max(high, placed.offset[k]);
    }
    const least = low > 0 ? low : -high;
    const limit = Math.max(FAR, halfWidth[k] || 0, lateral95[k] || 0);
    if (covering < 2 || 2 * covering < recordings.length || !(least > limit && high - low < least)) continue;
    const last = found.at(-1);
    const joins = last !== undefined && edges[k] - last.to < BETWEEN;
    if (joins) found.pop();
    found.push({
      from: joins ? last.from : edges[k],
      to: edges[k + 1],
      metres: Math.max(least, joins ? last.metres : 0),
      far: width[k] + (joins ? last.far : 0),
    });
  }
  return found.flatMap(({ far, ...stretch }) => (far >= LEAST_METRES ? [stretch] : []));
}
