import type { Curve } from './Curve';
import type { FreeInterval } from './FreeInterval';
import { type Column, SweepFront } from './SweepFront';
import { shareAPlace } from './shareAPlace';

// Columns are noted down so often, and so many of the latest kept.
const NOTE_EVERY = 64;
const NOTES = 4;

/** Where a sweep is to lead: from a column to a vertex of `a`, and there, if so given, into one of some runs of `b`. */
export interface Way {
  readonly from: Column;
  readonly to: number;
  readonly runs?: Float64Array;
}

/** A sweep through the whole of the reachable free space of two curves, from their starts on, noted down on the way. */
export class NotedSweep {
  readonly #a: Curve;
  readonly #b: Curve;
  readonly #front: SweepFront;
  #notes: Column[] = [];

  constructor(a: Curve, b: Curve) {
    this.#a = a;
    this.#b = b;
    this.#front = new SweepFront(a, b);
  }

  /** The vertex of `a` where the sweep is: one past the last it came to where it is stuck. */
  get vertex(): number {
    return this.#front.vertex;
  }

  /** Cells looked at so far, by whatever sweep. */
  get work(): number {
    return this.#front.work;
  }

  /** Whether the end of `b` is reached. */
  get atEnd(): boolean {
    return this.#front.atEnd();
  }

  /** What is reached where the sweep is. */
  get runs(): Float64Array {
    return this.#front.column().runs;
  }

  /** Columns on the way to where it is, to go on from: one some 256 vertices back, then each about twice as far, and the first. */
  get starts(): readonly Column[] {
    const { length } = this.#notes;
    return this.#notes.slice(0, Math.max(1, length - NOTES + 1)).reverse();
  }

  /** Goes to the start: as far along `b` as its vertices are surely within; where it goes on the sweep finds by itself. */
  begin(free: FreeInterval): void {
    const { x, y, z } = this.#a.vertices;
    const beyond = this.#b.boxes.firstBeyond(0, x[0], y[0], z[0], free.sure2);
    const start = { vertex: 0, runs: Float64Array.of(0, Math.max(0, beyond - 1)) };
    this.#notes = [start];
    this.#front.startFrom(start);
  }

  /** Goes on by one vertex of `a`; says whether anything can be reached there. */
  advance(free: FreeInterval): boolean {
    const front = this.#front;
    if (front.vertex > 0 && front.vertex % NOTE_EVERY === 0) {
      const here = front.vertex / NOTE_EVERY;
      this.#notes = this.#notes.filter(({ vertex }) => {
        const at = vertex / NOTE_EVERY;
        return at % spacing(here - at) === 0;
      });
      this.#notes.push(front.column());
    }
    return front.advance(free);
  }

  /** Whether a way can be gone; undefined where more than so many cells would have to be looked at. */
  leads({ from, to, runs }: Way, free: FreeInterval, cells: number): boolean | undefined {
    const front = this.#front;
    const last = front.work + cells;
    front.startFrom(from);
    while (front.vertex < to) {
      if (!front.advance(free)) return false;
      if (front.work > last) return undefined;
    }
    if (runs !== undefined) return shareAPlace(this.runs, runs, this.#b.edges);
    return to < this.#a.edges || this.atEnd;
  }
}

/** Of the notes so many back one in how many is kept: one or two in every doubling of the way. */
function spacing(back: number): number {
  return back < NOTES ? 1 : 2 ** Math.floor(Math.log2(back));
}
