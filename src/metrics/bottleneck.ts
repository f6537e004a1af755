import { CellHeap } from './CellHeap';
import { CellSet } from './CellSet';
import { greedyWalk } from './greedyWalk';
import type { Vertices } from './Vertices';

// Up to 1 km the curvature of a mean sphere turns a chord into a distance as well as the ellipsoid's: 0.02 µm.
const NEAR2 = 1000 ** 2;
const CURVATURE2_12 = 1 / (12 * 6_371_000 ** 2);

/**
 * The least level from which the last pair of vertices can be reached from the first over pairs no farther apart,
 * stepping to the next vertex on either line or on both: metres.
 *
 * Pairs under the level already paid are walked depth first, both lines at once before either alone, so that a free
 * corridor is crossed and not filled; the others wait in a heap. Where most of the table is being filled, plain rows are
 * cheaper.
 */
export function bottleneck(a: Vertices, b: Vertices): number {
  const [rows, columns] = [a.count, b.count];
  const reached = new CellSet(columns);
  const waiting = new CellHeap();
  // the walk measures on the ellipsoid, near pairs here on a mean sphere
  const enough = (greedyWalk(a, b) * (1 + 1e-9) + 1e-6) ** 2;
  // pairs under the level, not yet expanded
  let stack = new Int32Array(512);
  let top = 0;
  let level = squaredDistance(a, 0, b, 0);
  reached.add(0, 0);
  stack[top++] = 0;
  stack[top++] = 0;
  // a cell costs here some 15 times what it costs in plain rows
  const patience = 4096 + Math.min((rows * columns) / 16, 400 * (rows + columns));
  for (;;) {
    if (top === 0) {
      waiting.pop();
      level = waiting.key;
      stack[top++] = waiting.row;
      stack[top++] = waiting.column;
    }
    const column = stack[--top];
    const row = stack[--top];
    if (row === rows - 1 && column === columns - 1) return Math.sqrt(level);
    if (reached.size > patience) return Math.sqrt(byRows(a, b));
    if (top + 6 > stack.length) {
      const wider = new Int32Array(2 * stack.length);
      wider.set(stack);
      stack = wider;
    }
    for (let step = 1; step <= 3; step++) {
      const toRow = step === 2 ? row : row + 1;
      const toColumn = step === 1 ? column : column + 1;
      if (toRow === rows || toColumn === columns || !reached.add(toRow, toColumn)) continue;
      const key = squaredDistance(a, toRow, b, toColumn);
      if (key > level) {
        // a pair over what the greedy walk needs is never on the way
        if (key <= enough) waiting.push(key, toRow, toColumn);
      } else {
        stack[top++] = toRow;
        stack[top++] = toColumn;
      }
    }
  }
}

/** The same, squared, from the whole table, one row kept. */
function byRows(a: Vertices, b: Vertices): number {
  const row = new Float64Array(b.count).fill(Infinity);
  for (let i = 0; i < a.count; i++) {
    let left = i === 0 ? -Infinity : Infinity;
    let diagonal = left;
    for (let j = 0; j < b.count; j++) {
      const above = row[j];
      const key = squaredDistance(a, i, b, j);
      left = Math.max(key, Math.min(left, above, diagonal));
      diagonal = above;
      row[j] = left;
    }
  }
  return row[b.count - 1];
}

function squaredDistance(a: Vertices, i: number, b: Vertices, j: number): number {
  const dx = b.x[j] - a.x[i];
  const dy = b.y[j] - a.y[i];
  const dz = b.z[j] - a.z[i];
  const chord2 = dx * dx + dy * dy + dz * dz;
  if (chord2 < NEAR2) return chord2 * (1 + chord2 * CURVATURE2_12);
  return a.distance(i, b, j) ** 2;
}
