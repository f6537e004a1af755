import type { Bins } from './Bins';

/** How far from a skip, metres along the route, its crossing is looked for, and how far off its length may be. */
export const WITHIN = 90;
const OFF = 30;

/** Two passes cross where they come so close, metres, and lie further apart than so many that far to either side. */
const TOUCH = 4;
const APART = 10;

/** Metres by which the places may lie further apart than the closest and still count as where they cross. */
const ALIKE = 3;

/** Where two passes cross: the bin of the one that was left, and of the one that was come to. */
export interface Crossing {
  readonly left: number;
  readonly right: number;
}

/**
 * The bins at which two passes cross near a bin of each, or on the way from it to another; undefined where they don't.
 *
 * @remarks The crossing is found to a few metres: bins lie 5 m apart.
 */
export function crossingNear(bins: Bins, left: number, right: number, until: number): Crossing | undefined {
  const within = Math.round(WITHIN / bins.spacing);
  const off = Math.round(OFF / bins.spacing);
  const last = bins.count - 1;
  const nearest = (at: number) => {
    const middle = right + at - left;
    let other = -1;
    let least = Infinity;
    for (let k = Math.max(middle - off, 0); k <= Math.min(middle + off, last); k++) {
      const square = bins.square(k, bins.x[at], bins.y[at], bins.z[at]);
      if (square >= least) continue;
      least = square;
      other = k;
    }
    return { at, other, metres: Math.sqrt(least) };
  };
  const pairs: ReturnType<typeof nearest>[] = [];
  for (let at = Math.max(left - within, 0); at <= Math.min(until + within, last); at++) pairs.push(nearest(at));
  const closest = Math.min(...pairs.map(({ metres }) => metres));
  if (!(closest <= TOUCH)) return undefined;
  const there = pairs.filter(({ metres }) => metres <= closest + ALIKE);
  const mean = (values: readonly number[]) => Math.round(values.reduce((a, b) => a + b, 0) / values.length);
  const at = mean(there.map((pair) => pair.at));
  const ends = [Math.max(at - within, 0), Math.min(at + within, last)];
  if (ends.some((end) => !(nearest(end).metres > APART))) return undefined;
  return { left: at, right: mean(there.map(({ other }) => other)) };
}
