import type { FixTrack } from './FixTrack';

/** Knots lie this many seconds or metres apart at least: three bins of a runner, too few to lose a turn. */
export const SECONDS = 5;
export const METRES = 15;

/**
 * The fixes on which the lattice stands, ascending, the first and the last among them. Those between follow from their
 * neighbours: errors of fixes a second apart are nearly the same error.
 *
 * @param coarseness - How many times further apart they lie.
 */
export function chooseKnots(track: FixTrack, wanted: ReadonlySet<number>, coarseness = 1): Int32Array {
  const knots: number[] = [];
  const seconds = coarseness * SECONDS;
  const metres = coarseness * METRES;
  for (let i = 0; i < track.count; i++) {
    const last = knots[knots.length - 1];
    if (
      knots.length === 0 ||
      i === track.count - 1 ||
      track.clock[i + 1] - track.clock[i] >= seconds ||
      track.clock[i] - track.clock[last] >= seconds ||
      wanted.has(i) ||
      track.isApart(last, i, metres)
    ) {
      knots.push(i);
    }
  }
  return Int32Array.from(knots);
}
