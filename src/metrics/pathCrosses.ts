import { CellSet } from './CellSet';
import type { Curve } from './Curve';
import type { FreeInterval } from './FreeInterval';

/**
 * Whether a path through the free space of two curves, from both starts to both ends, is found within so many cells: `true`
 * proves that there is one, `false` proves nothing.
 *
 * Depth first, each side of a cell entered once, both lines forward in step where they can: in a space that is mostly free
 * some path is as short as the lines, however much of it there is to sweep.
 */
export function pathCrosses(a: Curve, b: Curve, free: FreeInterval, cells: number): boolean {
  const [va, vb] = [a.vertices, b.vertices];
  const [endA, endB] = [a.edges, b.edges];
  const slope = endB / endA;
  // cells entered at a vertex of a, and at a vertex of b
  const fromA = new CellSet(endB);
  const fromB = new CellSet(endB);
  // cell, and the least fraction reached where it is entered: of the edge of b at a vertex of a, else −1 less that of a
  const stack: number[] = [0, 0, 0];
  for (let left = cells; left > 0 && stack.length > 0; left--) {
    const entered = stack.pop()!;
    const j = stack.pop()!;
    const i = stack.pop()!;
    free.measure(vb, j, va, i + 1);
    const right = entered < 0 ? free.low : Math.max(free.low, entered);
    const goesRight = right <= free.high;
    if (goesRight && free.high === 1 && i + 1 === endA && j + 1 === endB) return true;
    free.measure(va, i, vb, j + 1);
    const up = entered < 0 ? Math.max(free.low, -1 - entered) : free.low;
    const goesUp = up <= free.high;
    const upFirst = i * slope > j;
    for (const way of upFirst ? 'ru' : 'ur') {
      if (way === 'r' && goesRight && i + 1 < endA && fromA.add(i + 1, j)) stack.push(i + 1, j, right);
      if (way === 'u' && goesUp && j + 1 < endB && fromB.add(i, j + 1)) stack.push(i, j + 1, -1 - up);
    }
  }
  return false;
}
