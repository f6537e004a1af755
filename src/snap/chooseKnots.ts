import type { FixTrack } from './FixTrack';

/** Knots lie this many seconds or metres apart at least: three bins of a runner, too few to lose a turn. */
export const SECONDS = 5;
export const METRES = 15;

/**
 * The fixes on which the lattice stands, ascending, the first and the last among them. Those between follow from their
 * neighbours: errors of fixes a second apart are nearly the same error. A fix thrown aside for an instant is none, unless it is
 * wanted.
 *
 * @param coarseness - How many times further apart they lie.
 */
export function chooseKnots(track: FixTrack, wanted: ReadonlySet<number>, coarseness = 1): Int32Array {
  const knots: number[] = [];
  const seconds = coarseness * SECONDS;
  const metres = coarseness * METRES;
  const { clock, count } = track;
  let last = 0;
  for (let i = 0; i < count; i++) {
    if (
      i === 0 ||
      i === count - 1 ||
      (wanted.size > 0 && wanted.has(i)) ||
      ((clock[i + 1] - clock[i] >= seconds || clock[i] - clock[last] >= seconds || track.isApart(last, i, metres)) &&
        !track.isThrown(i))
    ) {
      last = i;
      knots.push(i);
    }
  }
  return new Int32Array(knots);
}
