import type { Curve } from './Curve';
import { FreeInterval } from './FreeInterval';
import { type Column, SweepFront } from './SweepFront';

/**
 * Distances up to this much over the one asked for count as within, in metres: the last bits of earth-centred coordinates
 * are a nanometre, and a leash that fits exactly must fit.
 */
const TOLERANCE = 1e-7;

// Columns are noted down so often, and so many of them kept: the way back from where a sweep gets stuck.
const NOTE_EVERY = 64;
const NOTES = 4;

// A path that hops into a dead end is tried again from so many vertices of a before it.
const BACK = [0, 8, 64];

// Dead ends in so many vertices are worth it: a sweep from a single pair fills its first column cell by cell.
const DEAD_ENDS = 4;
const DEAD_END_EVERY = 4096;

/**
 * The free space of two curves: where their places are within a distance of each other.
 *
 * Whether it can be crossed is first tried by hopping from vertex to vertex, which is enough for most distances that are;
 * else the diagram is swept.
 *
 * @see Alt, Godau, Computing the Fréchet distance between two polygonal curves, IJCGA 5 (1995),
 * doi:10.1142/S0218195995000064
 */
export class FreeSpace {
  readonly #a: Curve;
  readonly #b: Curve;
  readonly #front: SweepFront;
  #notes: Column[] = [];
  /** The vertex of `a` past which the last crossing that failed could not go. */
  stuck = 0;

  constructor(a: Curve, b: Curve) {
    this.#a = a;
    this.#b = b;
    this.#front = new SweepFront(a, b);
  }

  /** Whether a monotone path leads from both starts to both ends, all within `distance` metres: whether it is Fréchet's. */
  crosses(distance: number): boolean {
    const [a, b] = [this.#a, this.#b];
    this.#notes = [];
    this.stuck = 0;
    const limit2 = (distance + TOLERANCE) ** 2;
    if (a.vertices.squaredDistance(0, b.vertices, 0) > limit2) return false;
    if (a.vertices.squaredDistance(a.edges, b.vertices, b.edges) > limit2) return false;
    const free = this.#intervalFor(distance);
    return this.#hops(limit2, free) || this.#sweeps(free);
  }

  /**
   * About the least distance, between one that got stuck and one that doesn't, that leads past the place where it did: a
   * guess for the whole, as it looks only around there.
   */
  passes(low: number, high: number, tolerance: number): number {
    const start = this.#notes[0];
    if (start === undefined) return high;
    const until = Math.min(this.#a.edges, this.stuck + NOTE_EVERY * NOTES);
    const front = this.#front;
    const passes = (distance: number) => {
      const free = this.#intervalFor(distance);
      front.startFrom(start);
      while (front.vertex < until) if (!front.advance(free)) return false;
      return until < this.#a.edges || front.atEnd();
    };
    let [stuck, free] = [low, high];
    while (free - stuck > tolerance) {
      const middle = (stuck + free) / 2;
      if (!(middle > stuck && middle < free)) break;
      if (passes(middle)) free = middle;
      else stuck = middle;
    }
    return free;
  }

  #intervalFor(distance: number): FreeInterval {
    return new FreeInterval(distance + TOLERANCE, Math.max(this.#a.longest, this.#b.longest));
  }

  /**
   * Whether one path crosses: hops to the nearest next pair of vertices, and sweeps past the places where none is within the
   * limit. Proves that there is a path, never that there is none.
   */
  #hops(limit2: number, free: FreeInterval): boolean {
    const [a, b] = [this.#a.vertices, this.#b.vertices];
    // the vertex of b with each vertex of a on the path, -1 where it was swept past
    const path = new Int32Array(a.count).fill(-1);
    let [i, j] = [0, 0];
    let left = DEAD_ENDS + a.count / DEAD_END_EVERY;
    path[0] = 0;
    while (i < a.count - 1 || j < b.count - 1) {
      const [moreA, moreB] = [i < a.count - 1, j < b.count - 1];
      const both = moreA && moreB ? a.squaredDistance(i + 1, b, j + 1) : Infinity;
      const first = moreA ? a.squaredDistance(i + 1, b, j) : Infinity;
      const second = moreB ? a.squaredDistance(i, b, j + 1) : Infinity;
      const least = Math.min(both, first, second);
      if (least <= limit2) {
        if (least === both || least === first) i++;
        if (least === both || least !== first) j++;
      } else {
        if (left-- < 0 || !BACK.some((back) => this.#sweepsPast(i, path, back, free))) return false;
        i = this.#front.vertex;
        j = this.#front.firstVertex();
      }
      if (path[i] < 0) path[i] = j;
    }
    return true;
  }

  /** Whether a sweep from so many vertices back on a path leads past vertex `i` of `a`, to some pair of vertices. */
  #sweepsPast(i: number, path: Int32Array, back: number, free: FreeInterval): boolean {
    const front = this.#front;
    let from = Math.max(0, i - back);
    while (path[from] < 0) from--;
    front.startAt(from, path[from]);
    while (front.vertex <= i || front.firstVertex() < 0) {
      if (front.vertex === this.#a.edges || !front.advance(free)) return false;
    }
    return true;
  }

  /** Whether any path crosses: the whole of the reachable space, noted down on the way. */
  #sweeps(free: FreeInterval): boolean {
    const front = this.#front;
    front.startFrom(this.#firstColumn(free));
    while (front.vertex < this.#a.edges) {
      if (front.vertex % NOTE_EVERY === 0) {
        this.#notes.push(front.column());
        if (this.#notes.length > NOTES) this.#notes.shift();
      }
      if (!front.advance(free)) {
        this.stuck = front.vertex - 1;
        return false;
      }
    }
    if (!front.atEnd()) {
      this.stuck = this.#a.edges;
      return false;
    }
    this.#notes = [];
    return true;
  }

  /** The first column, as far as vertices of `b` are surely within; where it goes on the sweep finds by itself. */
  #firstColumn(free: FreeInterval): Column {
    const { x, y, z } = this.#a.vertices;
    const beyond = this.#b.boxes.firstBeyond(0, x[0], y[0], z[0], free.sure2);
    return { vertex: 0, runs: Float64Array.of(0, Math.max(0, beyond - 1)) };
  }
}
