import type { BinRange, RouteGrid } from './RouteGrid';
import type { ReferenceShift } from './referenceShifts';

/**
 * By part of the grid, sums over the metres that a recording covered: of its distance from the reference as it is, then moved each
 * way. So many figures a part as there are ways, and one.
 */
export function distanceSums(grid: RouteGrid, offset: Float64Array, shifts: readonly ReferenceShift[]): Float64Array {
  const { parts, width } = grid;
  const stride = shifts.length + 1;
  const sums = new Float64Array(parts.length * stride);
  for (const [p, { first, end }] of parts.entries()) {
    let sum = 0;
    for (let k = first; k < end; k++) if (!Number.isNaN(offset[k])) sum += width[k] * Math.abs(offset[k]);
    sums[p * stride] = sum;
    for (const [t, { right }] of shifts.entries()) {
      sum = 0;
      for (let k = first; k < end; k++) {
        if (!Number.isNaN(offset[k])) sum += width[k] * Math.abs(offset[k] - right[k]);
      }
      sums[p * stride + t + 1] = sum;
    }
  }
  return sums;
}

/** Such sums over the parts that make up a stretch. */
export function sumsWithin(grid: RouteGrid, sums: Float64Array, range: BinRange): Float64Array {
  const stride = sums.length / grid.parts.length;
  const total = new Float64Array(stride);
  const { first, end } = grid.partsWithin(range);
  for (let p = first; p < end; p++) for (let i = 0; i < stride; i++) total[i] += sums[p * stride + i];
  return total;
}
