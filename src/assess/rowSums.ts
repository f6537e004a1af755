import type { PlacedRecording } from './PlacedRecording';
import type { RouteGrid } from './RouteGrid';
import type { JudgedColumns } from './RunChances';

/** Figures a part. */
const SUMS = 16;

/**
 * By part of the grid what a row of a recording adds up, over what is not left out. Of all: metres, recorded, turn and wiggle
 * term, skipped, those that could lie elsewhere. Of what it covered: metres; seconds, and offset, its size and its square times
 * them; metres with a corridor and within it; metres with a side, on the correct one, undecided.
 */
export function rowSums(
  grid: RouteGrid,
  placed: PlacedRecording,
  { inside, correct, open }: JudgedColumns,
): Float64Array {
  const { parts, width, excluded } = grid;
  const { offset, recorded, turnTerm, wiggleTerm, skipped, ambiguous } = placed;
  const { dwell, dwellOffset, dwellAbsolute, dwellSquare } = placed;
  const sums = new Float64Array(parts.length * SUMS);
  for (const [p, { first, end }] of parts.entries()) {
    let length = 0;
    let line = 0;
    let turn = 0;
    let wiggle = 0;
    let away = 0;
    let doubtful = 0;
    let covered = 0;
    let seconds = 0;
    let byTime = 0;
    let absolute = 0;
    let square = 0;
    let corridor = 0;
    let within = 0;
    let sided = 0;
    let right = 0;
    let undecided = 0;
    for (let k = first; k < end; k++) {
      if (excluded[k] === 1) continue;
      const w = width[k];
      length += w;
      line += recorded[k];
      turn += turnTerm[k];
      wiggle += wiggleTerm[k];
      away += skipped[k];
      if (ambiguous[k] === 1) doubtful += w;
      if (Number.isNaN(offset[k])) continue;
      covered += w;
      seconds += dwell[k];
      byTime += dwellOffset[k];
      absolute += dwellAbsolute[k];
      square += dwellSquare[k];
      if (inside && !Number.isNaN(inside[k])) {
        corridor += w;
        within += w * inside[k];
      }
      if (!correct || !open || Number.isNaN(correct[k])) continue;
      sided += w;
      right += w * correct[k];
      undecided += w * open[k];
    }
    const all = [length, line, turn, wiggle, away, doubtful];
    sums.set([...all, covered, seconds, byTime, absolute, square, corridor, within, sided, right, undecided], p * SUMS);
  }
  return sums;
}
