import { PriorityQueue, type Vertices } from '../index';
import { CellSet } from './CellSet';
import { greedyWalk } from './greedyWalk';

// So many vertices to either side of the worst pair of a greedy walk bound the level from below.
const AROUND = 32;

/**
 * The least level from which the last pair of vertices can be reached from the first over pairs no farther apart,
 * stepping to the next vertex on either line or on both: metres.
 *
 * A greedy walk bounds it from above. From below it is bounded by the rows around the worst pair of that walk: all walks
 * cross these, from some pair to some other. Most often that is the level, so that the search is not led astray by less.
 * Where most of the table is being filled, plain rows are cheaper.
 */
export function bottleneck(a: Vertices, b: Vertices): number {
  const [rows, columns] = [a.count, b.count];
  const { squared: enough, i } = greedyWalk(a, b);
  const ends = Math.max(a.squaredDistance(0, b, 0), a.squaredDistance(rows - 1, b, columns - 1));
  const bounds = { a, b, level: ends, enough };
  const first = Math.max(0, i - AROUND);
  const last = Math.min(rows - 1, i + AROUND);
  const level = leastLevel({ ...bounds, first, last, columns: 'any', patience: 4 * (rows + columns) }) ?? ends;
  if (level >= enough) return Math.sqrt(enough);
  // a cell costs here some 15 times what it costs in plain rows
  const patience = 4096 + Math.min((rows * columns) / 16, 400 * (rows + columns));
  const least = leastLevel({ ...bounds, level, first: 0, last: rows - 1, columns: 'ends', patience });
  return Math.sqrt(least ?? byRows(a, b));
}

interface Search {
  readonly a: Vertices;
  readonly b: Vertices;
  /** A level that is known to be needed, and one that is known to be enough, squared. */
  readonly level: number;
  readonly enough: number;
  /** The rows in which it starts and ends. */
  readonly first: number;
  readonly last: number;
  /** Whether it may start and end in any column of these, or at the ends of the row only. */
  readonly columns: 'any' | 'ends';
  /** How many cells it may reach before it is given up. */
  readonly patience: number;
}

/**
 * The least level, squared, on which a search leads from the first to the last row; undefined where it was given up.
 *
 * Pairs under the level already paid are walked depth first, both lines at once before either alone, so that a free
 * corridor is crossed and not filled; the others wait in a heap.
 */
function leastLevel({ a, b, level, enough, first, last, columns, patience }: Search): number | undefined {
  const count = b.count;
  const reached = new CellSet(count);
  const waiting = new PriorityQueue();
  // pairs under the level, not yet expanded
  let stack = new Int32Array(512);
  let top = 0;
  let paid = level;

  const reach = (row: number, column: number): void => {
    if (!reached.add(row - first, column)) return;
    const key = a.squaredDistance(row, b, column);
    // a pair over what is enough is never on the way
    if (key > enough) return;
    if (key > paid) {
      waiting.push(key, row * count + column);
      return;
    }
    if (top + 2 > stack.length) {
      const wider = new Int32Array(2 * stack.length);
      wider.set(stack);
      stack = wider;
    }
    stack[top++] = row;
    stack[top++] = column;
  };

  if (columns === 'ends') reach(first, 0);
  else for (let column = 0; column < count; column++) reach(first, column);
  while (reached.size <= patience + count) {
    if (top === 0) {
      paid = waiting.least;
      const cell = waiting.pop();
      stack[top++] = Math.floor(cell / count);
      stack[top++] = cell % count;
    }
    const column = stack[--top];
    const row = stack[--top];
    if (row === last && (columns === 'any' || column === count - 1)) return paid;
    if (row < last) reach(row + 1, column);
    if (column + 1 < count) {
      reach(row, column + 1);
      if (row < last) reach(row + 1, column + 1);
    }
  }
  return undefined;
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
