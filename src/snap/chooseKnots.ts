import type { FixTrack } from './FixTrack';

/** Knots lie this many seconds or metres apart at least: three bins of a runner, too few to lose a turn. */
const SECONDS = 5;
const METRES = 15;

/**
 * The fixes on which the lattice stands, ascending, the first and the last among them. Those between follow from their
 * neighbours: errors of fixes a second apart are nearly the same error.
 */
export function chooseKnots(track: FixTrack, wanted: ReadonlySet<number>): Int32Array {
  const knots: number[] = [];
  for (let i = 0; i < track.count; i++) {
    const last = knots[knots.length - 1];
    const longNext = i + 1 < track.count && track.clock[i + 1] - track.clock[i] >= SECONDS;
    if (
      knots.length === 0 ||
      i === track.count - 1 ||
      longNext ||
      wanted.has(i) ||
      track.clock[i] - track.clock[last] >= SECONDS ||
      track.moved(last, i) >= METRES
    ) {
      knots.push(i);
    }
  }
  return Int32Array.from(knots);
}
