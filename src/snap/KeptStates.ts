import type { KnotStates } from './KnotStates';

/** States a page: a power of two. */
const PAGE = 1024;
const PAGE_BITS = 10;

/** In place of the state before where there is none; no knot has more states. */
const NOWHERE = 0xffff;
export const MOST_KEPT = NOWHERE;

/** What the sweep over the knots leaves behind of each: the states that are worth going on from. */
export class KeptStates {
  /** Number of the first state of each knot, and of all. */
  readonly first: Int32Array;
  readonly #lost: Uint8Array;
  readonly #bin: Int32Array[] = [];
  readonly #came: Uint16Array[] = [];
  readonly #sum: Float32Array[] = [];
  #size = 0;

  constructor(knots: number) {
    this.first = new Int32Array(knots + 1);
    this.#lost = new Uint8Array(knots);
  }

  /** Keeps the states of the next knot. */
  push(knot: number, { size, bin, came, sum, lost }: KnotStates): void {
    this.#lost[knot] = lost ? 1 : 0;
    for (let k = 0; k < size; k++) {
      const at = this.#size++;
      const page = at >> PAGE_BITS;
      if (page === this.#bin.length) {
        this.#bin.push(new Int32Array(PAGE));
        this.#came.push(new Uint16Array(PAGE));
        this.#sum.push(new Float32Array(PAGE));
      }
      this.#bin[page][at & (PAGE - 1)] = bin[k];
      this.#came[page][at & (PAGE - 1)] = came[k] < 0 ? NOWHERE : came[k];
      this.#sum[page][at & (PAGE - 1)] = sum[k];
    }
    this.first[knot + 1] = this.#size;
  }

  /** Writes the states of a knot out again: their bins, and the weight of all paths into them. */
  read(knot: number, into: KnotStates): void {
    into.size = 0;
    into.lost = this.#lost[knot] === 1;
    for (let at = this.first[knot]; at < this.first[knot + 1]; at++) {
      into.add(this.binOf(at));
      into.sum[into.size - 1] = this.#sum[at >> PAGE_BITS][at & (PAGE - 1)];
    }
  }

  binOf(state: number): number {
    return this.#bin[state >> PAGE_BITS][state & (PAGE - 1)];
  }

  /** The state of the knot before on the heaviest path; -1 where it begins here. */
  cameTo(state: number): number {
    const came = this.#came[state >> PAGE_BITS][state & (PAGE - 1)];
    return came === NOWHERE ? -1 : came;
  }
}
