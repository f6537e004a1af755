import type { PlacedRecording } from './PlacedRecording';
import type { RouteGrid } from './RouteGrid';
import type { JudgedColumns } from './RunChances';

/** Figures a part. */
export const SUMS = 20;

/** What the rows of one recording are measured from. */
export interface RowColumns {
  /**
   * By part of the grid what a row adds up, over what is not left out. Of all: metres, recorded, turn and wiggle term, skipped,
   * those that could lie elsewhere. Of what it covered: metres and their squares; metres times offset, its size and its square;
   * seconds, and the same times them; metres with a corridor and within it; metres with a side, on the correct one, undecided.
   */
  readonly sums: Float64Array;
  /** Of the bins that it covered, one after the other: offset, width, middle. */
  readonly offsets: Float64Array;
  readonly widths: Float64Array;
  readonly middles: Float64Array;
  /** How many of these lie before each part; one more at the end. */
  readonly before: Uint32Array;
  /** As long as all of them: what is in it is written over. */
  readonly scratch: Float64Array;
}

/** Once for all rows of a recording. */
export function rowColumns(
  grid: RouteGrid,
  placed: PlacedRecording,
  { inside, correct, open }: JudgedColumns,
): RowColumns {
  const { parts, count, width, middle, excluded } = grid;
  const { offset, recorded, turnTerm, wiggleTerm, skipped, ambiguous } = placed;
  const { dwell, dwellOffset, dwellAbsolute, dwellSquare } = placed;
  const sums = new Float64Array(parts.length * SUMS);
  const [offsets, widths, middles] = [new Float64Array(count), new Float64Array(count), new Float64Array(count)];
  const before = new Uint32Array(parts.length + 1);
  let some = 0;
  for (const [p, { first, end }] of parts.entries()) {
    let length = 0;
    let line = 0;
    let turn = 0;
    let wiggle = 0;
    let away = 0;
    let doubtful = 0;
    let covered = 0;
    let squares = 0;
    let signed = 0;
    let sizes = 0;
    let ofSquares = 0;
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
      const value = offset[k];
      if (Number.isNaN(value)) continue;
      offsets[some] = value;
      widths[some] = w;
      middles[some++] = middle[k];
      covered += w;
      squares += w * w;
      signed += w * value;
      sizes += w * Math.abs(value);
      ofSquares += w * value * value;
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
    const ofCovered = [covered, squares, signed, sizes, ofSquares, seconds, byTime, absolute, square];
    sums.set([...all, ...ofCovered, corridor, within, sided, right, undecided], p * SUMS);
    before[p + 1] = some;
  }
  return { sums, offsets, widths, middles, before, scratch: new Float64Array(some) };
}
