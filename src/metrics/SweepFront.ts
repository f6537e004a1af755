import type { Curve } from './Curve';
import type { FreeInterval } from './FreeInterval';

/** The places reachable in one column of the free-space diagram: those of `b` at one vertex of `a`. */
export interface Column {
  readonly vertex: number;
  /** Runs of `b`: from, to, from, to …, an edge and its fraction in one number. */
  readonly runs: Float64Array;
}

/**
 * The front of a sweep through the free space of two curves, column by column.
 *
 * Between two columns only cells that can be reached are looked at; where a run is free in both columns the strip between
 * is free as well (free space is convex in a cell), so that it is jumped, its end found in the tree of `b`. The cost follows
 * the outline of the reachable space, not its area.
 */
export class SweepFront {
  readonly #a: Curve;
  readonly #b: Curve;
  #vertex = 0;
  #runs = new Float64Array(64);
  #count = 0;
  #next = new Float64Array(64);
  /** Cells looked at so far. */
  work = 0;

  constructor(a: Curve, b: Curve) {
    this.#a = a;
    this.#b = b;
  }

  /** The vertex of `a` where the front is. */
  get vertex(): number {
    return this.#vertex;
  }

  /** Goes to a column. */
  startFrom({ vertex, runs }: Column): void {
    if (this.#runs.length < runs.length) this.#runs = new Float64Array(2 * runs.length);
    this.#runs.set(runs);
    this.#count = runs.length;
    this.#vertex = vertex;
  }

  /** Goes to a single place: vertex `i` of `a`, vertex `j` of `b`. */
  startAt(i: number, j: number): void {
    this.#runs[0] = j;
    this.#runs[1] = j;
    this.#count = 2;
    this.#vertex = i;
  }

  /** The present column, to come back to. */
  column(): Column {
    return { vertex: this.#vertex, runs: this.#runs.slice(0, this.#count) };
  }

  /** The first vertex of `b` that is reached; -1 where none is. */
  firstVertex(): number {
    for (let k = 0; k < this.#count; k += 2) {
      const vertex = Math.ceil(this.#runs[k]);
      if (vertex <= this.#runs[k + 1]) return vertex;
    }
    return -1;
  }

  /** Whether the end of `b` is reached. */
  atEnd(): boolean {
    return this.#count > 0 && this.#runs[this.#count - 1] >= this.#b.edges;
  }

  /** Goes on by one vertex of `a`; says whether anything can be reached there. */
  advance(free: FreeInterval): boolean {
    const i = this.#vertex;
    const [va, vb] = [this.#a.vertices, this.#b.vertices];
    const ends = this.#b.edges;
    const runs = this.#runs;
    const count = this.#count;
    let next = this.#next;
    let written = 0;
    let k = 0;
    // least reachable fraction of this edge of a at vertex j of b; over 1 where there is none
    let below = 2;
    let j = count > 0 ? Math.min(Math.floor(runs[0]), ends - 1) : 0;
    while (j < ends) {
      while (k < count && runs[k + 1] < j) k += 2;
      const left = k < count && runs[k] <= j + 1 ? Math.max(0, runs[k] - j) : 2;
      if (left > 1 && below > 1) {
        if (k >= count) break;
        j = Math.min(Math.floor(runs[k]), ends - 1);
        continue;
      }
      this.work++;
      free.measure(vb, j, va, i + 1);
      const low = below <= 1 ? free.low : Math.max(free.low, left);
      if (low <= free.high) {
        // rounding may part two halves of a run by the last bits of an edge number
        if (written > 0 && j + low - next[written - 1] < 1e-12 * ends) next[written - 1] = j + free.high;
        else {
          if (written + 2 > next.length) next = grown(next);
          next[written++] = j + low;
          next[written++] = j + free.high;
        }
      }
      j++;
      free.measure(va, i, vb, j);
      const lowest = left <= 1 ? free.low : Math.max(free.low, below);
      below = lowest <= free.high ? lowest : 2;
      if (left <= 1 && below === 0 && free.high === 1 && runs[k + 1] > j + 1 && next[written - 1] === j) {
        const beyond = this.#b.boxes.firstBeyond(j, va.x[i + 1], va.y[i + 1], va.z[i + 1], free.sure2);
        const last = Math.min(Math.floor(runs[k + 1]), beyond - 1);
        if (last > j) {
          next[written - 1] = last;
          j = last;
        }
      }
    }
    this.#runs = next;
    this.#next = runs;
    this.#count = written;
    this.#vertex = i + 1;
    return written > 0;
  }
}

function grown(column: Float64Array): Float64Array<ArrayBuffer> {
  const wider = new Float64Array(2 * column.length);
  wider.set(column);
  return wider;
}
