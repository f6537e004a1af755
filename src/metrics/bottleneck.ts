import { PriorityQueue, type Vertices } from '../index';
import { CellSet } from './CellSet';
import { greedyWalk } from './greedyWalk';

// So many vertices to either side of the worst pair of a greedy walk bound the level from below.
const AROUND = 32;

/**
 * The least level from which the last pair of vertices can be reached from the first over pairs no farther apart,
 * stepping to the next vertex on either line or on both: metres.
 *
 * A greedy walk bounds it from above. From below it is bounded by the rows around the worst pair of that walk, and by its
 * column: all walks cross these, from some pair to some other. Most often that is the level, so that the search is not led
 * astray by less. It goes on from the one end and from the other in turns, each from the level the other has paid: of two
 * lines about one place most pairs are near, and those that are not matter only where few have been passed yet. Where most
 * of the table is being filled all the same, plain rows are cheaper.
 */
export function bottleneck(a: Vertices, b: Vertices): number {
  const [rows, columns] = [a.count, b.count];
  const { squared: enough, i, j } = greedyWalk(a, b);
  let level = Math.max(a.squaredDistance(0, b, 0), a.squaredDistance(rows - 1, b, columns - 1));
  level = Math.max(level, leastOf(a, i, b), leastOf(b, j, a));
  if (level >= enough) return Math.sqrt(enough);
  const [first, last] = [Math.max(0, i - AROUND), Math.min(rows - 1, i + AROUND)];
  level = leastLevel({ a, b, level, enough, first, last, columns: 'any', patience: 4 * (rows + columns) }).level;
  if (level >= enough) return Math.sqrt(enough);
  // a cell costs here some 15 times what it costs in plain rows
  const most = 4096 + Math.min((rows * columns) / 16, 400 * (rows + columns));
  const ends = { enough, first: 0, last: rows - 1, columns: 'ends' } as const;
  const lines = [{ a, b }];
  let patience = 4096 + 16 * (rows + columns);
  for (let turn = 0; patience <= most; turn++) {
    if (turn === 1) lines.push({ a: a.reversed(), b: b.reversed() });
    const { level: paid, reached } = leastLevel({ ...lines[turn % 2], ...ends, level, patience });
    if (reached) return Math.sqrt(paid);
    // where neither pays more than the other both have to look further
    if (paid === level && turn % 2 === 1) patience *= 4;
    level = paid;
  }
  return Math.sqrt(byRows(a, b));
}

/** The least squared distance of a vertex from those of the other line. */
function leastOf(line: Vertices, i: number, others: Vertices): number {
  let least = Infinity;
  for (let j = 0; j < others.count; j++) least = Math.min(least, line.squaredDistance(i, others, j));
  return least;
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
 * The least level, squared, on which a search leads from the first to the last row; where it was given up, the level that it
 * had paid by then, which is no more.
 *
 * Pairs under the level already paid are walked depth first, both lines at once before either alone, so that a free
 * corridor is crossed and not filled; the others wait in a heap.
 */
function leastLevel({ a, b, level, enough, first, last, columns, patience }: Search): {
  level: number;
  reached: boolean;
} {
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
    if (row === last && (columns === 'any' || column === count - 1)) return { level: paid, reached: true };
    if (row < last) reach(row + 1, column);
    if (column + 1 < count) {
      reach(row, column + 1);
      if (row < last) reach(row + 1, column + 1);
    }
  }
  return { level: paid, reached: false };
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
