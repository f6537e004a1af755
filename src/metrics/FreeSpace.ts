import type { Curve } from './Curve';
import { FreeInterval } from './FreeInterval';

/**
 * Distances up to this much over the one asked for count as within, in metres: the last bits of earth-centred coordinates
 * are a nanometre, and a leash that fits exactly must fit.
 */
const TOLERANCE = 1e-7;

// Columns are noted down so often, and so many of them kept: the way back from where a sweep gets stuck.
const NOTE_EVERY = 64;
const NOTES = 4;

/** The places reachable in one column of the diagram: those of `b` at one vertex of `a`. */
interface Column {
  readonly vertex: number;
  /** Runs of `b`: from, to, from, to …, an edge and its fraction in one number. */
  readonly runs: Float64Array;
  /** Whether the line along the start of `b` is free as far as this column. */
  readonly floor: boolean;
}

/**
 * The free space of two curves: where their places are within a distance of each other.
 *
 * The diagram is swept by the vertices of `a`; of each column only the parts of `b` reachable in it are kept, as runs that
 * may span many edges. Between two columns only cells that can be reached are looked at; where a run is free in both
 * columns the strip between is free as well (free space is convex in a cell), so that it is jumped, its end found in the
 * tree of `b`. The cost follows the outline of the reachable space, not its area.
 *
 * @see Alt, Godau, Computing the Fréchet distance between two polygonal curves, IJCGA 5 (1995),
 * doi:10.1142/S0218195995000064
 */
export class FreeSpace {
  readonly #a: Curve;
  readonly #b: Curve;
  #notes: Column[] = [];
  /** The vertex of `a` past which the last crossing that failed could not go. */
  stuck = 0;

  constructor(a: Curve, b: Curve) {
    this.#a = a;
    this.#b = b;
  }

  /** Whether a monotone path leads from both starts to both ends, all within `distance` metres: whether it is Fréchet's. */
  crosses(distance: number): boolean {
    const [a, b] = [this.#a, this.#b];
    this.#notes = [];
    this.stuck = 0;
    if (!this.#within(0, 0, distance) || !this.#within(a.edges, b.edges, distance)) return false;
    const through = this.#sweep(distance, this.#firstColumn(distance), a.edges, this.#notes);
    if (through) this.#notes = [];
    return through;
  }

  /**
   * About the least distance, between one that got stuck and one that doesn't, that leads past the place where it did: a
   * guess for the whole, as it looks only around there.
   */
  passes(low: number, high: number, tolerance: number): number {
    const start = this.#notes[0];
    if (start === undefined) return high;
    const until = Math.min(this.#a.edges, this.stuck + NOTE_EVERY * NOTES);
    let [stuck, free] = [low, high];
    while (free - stuck > tolerance) {
      const middle = (stuck + free) / 2;
      if (!(middle > stuck && middle < free)) break;
      if (this.#sweep(middle, start, until)) free = middle;
      else stuck = middle;
    }
    return free;
  }

  #within(i: number, j: number, distance: number): boolean {
    return this.#a.vertices.distance(i, this.#b.vertices, j) <= distance + TOLERANCE;
  }

  /** The first column, climbed as far as it is free. */
  #firstColumn(distance: number): Column {
    const free = this.#intervalFor(distance);
    const { x, y, z } = this.#a.vertices;
    let j = Math.max(0, this.#b.boxes.firstBeyond(0, x[0], y[0], z[0], free.sure2) - 1);
    let top = j;
    for (; j < this.#b.edges && top === j; j++) {
      free.measure(this.#b.vertices, j, this.#a.vertices, 0);
      if (free.low === 0 && free.high > 0) top = j + free.high;
    }
    return { vertex: 0, runs: Float64Array.of(0, top), floor: true };
  }

  #intervalFor(distance: number): FreeInterval {
    return new FreeInterval(distance + TOLERANCE, Math.max(this.#a.longest, this.#b.longest));
  }

  /** Whether anything can be reached in column `until`: in the last one, the end of `b`. */
  #sweep(distance: number, start: Column, until: number, notes?: Column[]): boolean {
    const [va, vb] = [this.#a.vertices, this.#b.vertices];
    const ends = this.#b.edges;
    const free = this.#intervalFor(distance);

    let runs = new Float64Array(Math.max(64, start.runs.length));
    let next = new Float64Array(runs.length);
    runs.set(start.runs);
    let count = start.runs.length;
    let floor = start.floor;

    for (let i = start.vertex; i < until; i++) {
      if (notes !== undefined && i % NOTE_EVERY === 0) {
        notes.push({ vertex: i, runs: runs.slice(0, count), floor });
        if (notes.length > NOTES) notes.shift();
      }
      let written = 0;
      let k = 0;
      // least reachable fraction of this edge of a at vertex j of b; over 1 where there is none
      let below = 2;
      let j = count > 0 ? Math.min(Math.floor(runs[0]), ends - 1) : 0;
      if (floor) {
        free.measure(va, i, vb, 0);
        if (free.low === 0 && free.high >= 0) {
          below = 0;
          j = 0;
        }
        floor = free.low === 0 && free.high === 1;
      }
      while (j < ends) {
        while (k < count && runs[k + 1] < j) k += 2;
        const left = k < count && runs[k] <= j + 1 ? Math.max(0, runs[k] - j) : 2;
        if (left > 1 && below > 1) {
          if (k >= count) break;
          j = Math.min(Math.floor(runs[k]), ends - 1);
          continue;
        }
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
      if (written === 0 && !floor) {
        this.stuck = notes !== undefined ? i : this.stuck;
        return false;
      }
      const spare = runs;
      runs = next;
      next = spare;
      count = written;
    }
    const through = until < this.#a.edges || (count > 0 && runs[count - 1] >= ends);
    if (!through && notes !== undefined) this.stuck = until;
    return through;
  }
}

function grown(column: Float64Array): Float64Array<ArrayBuffer> {
  const wider = new Float64Array(2 * column.length);
  wider.set(column);
  return wider;
}
