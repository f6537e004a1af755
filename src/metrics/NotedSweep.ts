import type { Curve } from './Curve';
import type { FreeInterval } from './FreeInterval';
import { type Column, SweepFront } from './SweepFront';

// Columns are noted down so often, and so many of them kept: the way back from where a sweep gets stuck.
const NOTE_EVERY = 64;
const NOTES = 4;

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

  /** Forgets the notes. */
  forget(): void {
    this.#notes = [];
  }

  /** Goes to the start: as far along `b` as its vertices are surely within; where it goes on the sweep finds by itself. */
  begin(free: FreeInterval): void {
    const { x, y, z } = this.#a.vertices;
    const beyond = this.#b.boxes.firstBeyond(0, x[0], y[0], z[0], free.sure2);
    this.#notes = [];
    this.#front.startFrom({ vertex: 0, runs: Float64Array.of(0, Math.max(0, beyond - 1)) });
  }

  /** Goes on by one vertex of `a`; says whether anything can be reached there. */
  advance(free: FreeInterval): boolean {
    const front = this.#front;
    if (front.vertex % NOTE_EVERY === 0) {
      this.#notes.push(front.column());
      if (this.#notes.length > NOTES) this.#notes.shift();
    }
    return front.advance(free);
  }

  /**
   * About the least distance between two that leads on past vertex `stuck`: a guess for the whole, as it looks only around
   * there, and no further than so many cells.
   */
  passes(
    stuck: number,
    between: readonly [low: number, high: number],
    tolerance: number,
    cells: number,
    freeFor: (distance: number) => FreeInterval,
  ): number {
    const start = this.#notes[0];
    let [fails, leads] = between;
    if (start === undefined) return leads;
    const front = this.#front;
    const until = Math.min(this.#a.edges, stuck + NOTE_EVERY * NOTES);
    const leadsOn = (distance: number) => {
      const free = freeFor(distance);
      const last = front.work + cells;
      front.startFrom(start);
      while (front.vertex < until) {
        if (!front.advance(free)) return false;
        if (front.work > last) return true;
      }
      return until < this.#a.edges || front.atEnd();
    };
    while (leads - fails > tolerance) {
      const middle = (fails + leads) / 2;
      if (!(middle > fails && middle < leads)) break;
      if (leadsOn(middle)) leads = middle;
      else fails = middle;
    }
    return leads;
  }
}
