import { CellHeap } from './CellHeap';
import { CellSet } from './CellSet';
import { greedyWalk } from './greedyWalk';
import type { Vertices } from './Vertices';

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
  const { squared: enough, i, j } = greedyWalk(a, b);
  // wherever the walk leads, both of these vertices and both ends have to be passed
  let level = Math.max(
    nearestVertex(a, i, b),
    nearestVertex(b, j, a),
    a.squaredDistance(0, b, 0),
    a.squaredDistance(rows - 1, b, columns - 1),
  );
  if (level >= enough) return Math.sqrt(enough);
  const reached = new CellSet(columns);
  const waiting = new CellHeap();
  // pairs under the level, not yet expanded
  let stack = new Int32Array(512);
  let top = 0;
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
      const key = a.squaredDistance(toRow, b, toColumn);
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
      const key = a.squaredDistance(i, b, j);
      left = Math.max(key, Math.min(left, above, diagonal));
      diagonal = above;
      row[j] = left;
    }
  }
  return row[b.count - 1];
}

/** Squared distance from one vertex to the nearest of other ones. */
function nearestVertex(a: Vertices, i: number, b: Vertices): number {
  let least = Infinity;
  for (let j = 0; j < b.count; j++) least = Math.min(least, a.squaredDistance(i, b, j));
  return least;
}
