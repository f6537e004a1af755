import type { PlacedRecording } from './PlacedRecording';
import type { RouteGrid } from './RouteGrid';
import { movedDifference, type ReferenceShift } from './referenceShifts';

/** A recording, and its {@link distanceSums}. */
export interface Summed {
  readonly placed: PlacedRecording;
  readonly distances: Float64Array;
}

/** Figures a part, before those of the reference moved. */
export const PAIR_SUMS = 11;

/**
 * By part of the grid, sums over its metres: of what is judged, of what either recorded; of what both covered: metres, between the
 * two, how much further off the first was, offsets, their squares and their product; then how much further off the first was, the
 * reference moved each way.
 */
export function pairSums(
  grid: RouteGrid,
  first: Summed,
  second: Summed,
  shifts: readonly ReferenceShift[],
): Float64Array {
  const { parts, width, excluded } = grid;
  const stride = PAIR_SUMS + shifts.length;
  const sums = new Float64Array(parts.length * stride);
  const { offset: a, recorded: recordedA } = first.placed;
  const { offset: b, recorded: recordedB } = second.placed;
  for (const [p, part] of parts.entries()) {
    let length = 0;
    let lengthA = 0;
    let lengthB = 0;
    let common = 0;
    let between = 0;
    let further = 0;
    let sumA = 0;
    let sumB = 0;
    let squaresA = 0;
    let squaresB = 0;
    let products = 0;
    let coveredAlike = true;
    for (let k = part.first; k < part.end; k++) {
      if (excluded[k] === 1) continue;
      const w = width[k];
      length += w;
      lengthA += recordedA[k];
      lengthB += recordedB[k];
      const x = a[k];
      const y = b[k];
      if (Number.isNaN(x) || Number.isNaN(y)) {
        coveredAlike &&= Number.isNaN(x) && Number.isNaN(y);
        continue;
      }
      common += w;
      between += w * Math.abs(x - y);
      further += w * (Math.abs(x) - Math.abs(y));
      sumA += w * x;
      sumB += w * y;
      squaresA += w * x * x;
      squaresB += w * y * y;
      products += w * x * y;
    }
    sums.set(
      [length, lengthA, lengthB, common, between, further, sumA, sumB, squaresA, squaresB, products],
      p * stride,
    );
    for (const [t, { right }] of shifts.entries()) {
      const own = p * (shifts.length + 1) + t + 1;
      sums[p * stride + PAIR_SUMS + t] = coveredAlike
        ? first.distances[own] - second.distances[own]
        : movedDifference(grid, a, b, right, part);
    }
  }
  return sums;
}
