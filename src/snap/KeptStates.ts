import type { KnotStates } from './KnotStates';

/** States a page: a power of two. */
const PAGE = 1024;
const PAGE_BITS = 10;

/** In place of the state before where there is none; no knot has more states. */
const NOWHERE = 0xffff;
export const MOST_KEPT = NOWHERE;

/** In place of a distance that is as long or longer, which is listed apart. */
const LONG = 0xffff;

/** What the sweep over the knots leaves behind of each: the states that are worth going on from, eight bytes a state. */
export class KeptStates {
  #first = new Int32Array();
  #lost = new Uint8Array();
  /** Bins from the state before of the same knot, or from bin 0: those that are `LONG`, by number of the state. */
  readonly #long = new Map<number, number>();
  readonly #on: Uint16Array[] = [];
  readonly #came: Uint16Array[] = [];
  readonly #sum: Float32Array[] = [];
  #size = 0;

  /** Forgets all, and makes room for so many knots. */
  begin(knots: number): void {
    this.#first = new Int32Array(knots + 1);
    this.#lost = new Uint8Array(knots);
    this.#long.clear();
    this.#size = 0;
  }

  /** Keeps the states of the next knot. */
  push(knot: number, { size, bin, came, sum, lost }: KnotStates): void {
    this.#lost[knot] = lost ? 1 : 0;
    let last = 0;
    for (let k = 0; k < size; k++) {
      const at = this.#size++;
      const page = at >> PAGE_BITS;
      if (page === this.#on.length) {
        this.#on.push(new Uint16Array(PAGE));
        this.#came.push(new Uint16Array(PAGE));
        this.#sum.push(new Float32Array(PAGE));
      }
      const on = bin[k] - last;
      last = bin[k];
      if (on >= LONG) this.#long.set(at, on);
      this.#on[page][at & (PAGE - 1)] = Math.min(on, LONG);
      // of -1 as many bits are NOWHERE
      this.#came[page][at & (PAGE - 1)] = came[k];
      this.#sum[page][at & (PAGE - 1)] = sum[k];
    }
    this.#first[knot + 1] = this.#size;
  }

  /** Writes the states of a knot out again: their bins, and the weight of all paths into them. */
  read(knot: number, into: KnotStates): void {
    into.size = 0;
    into.lost = this.#lost[knot] === 1;
    let bin = 0;
    for (let at = this.#first[knot]; at < this.#first[knot + 1]; at++) {
      bin += this.#onTo(at);
      into.add(bin);
      into.sum[into.size - 1] = this.#sum[at >> PAGE_BITS][at & (PAGE - 1)];
    }
  }

  /** How many states of a knot are kept. */
  sizeOf(knot: number): number {
    return this.#first[knot + 1] - this.#first[knot];
  }

  /** Whether none of a knot lies further than so many bins from one. */
  isWithin(knot: number, of: number, bins: number): boolean {
    let bin = 0;
    for (let at = this.#first[knot]; at < this.#first[knot + 1]; at++) {
      bin += this.#onTo(at);
      if (Math.abs(bin - of) > bins) return false;
    }
    return true;
  }

  /** The bin of a state of a knot. */
  binOf(knot: number, state: number): number {
    let bin = 0;
    for (let at = this.#first[knot]; at <= this.#first[knot] + state; at++) bin += this.#onTo(at);
    return bin;
  }

  /** The state of the knot before on the heaviest path to a state; -1 where it begins here. */
  cameTo(knot: number, state: number): number {
    const at = this.#first[knot] + state;
    const came = this.#came[at >> PAGE_BITS][at & (PAGE - 1)];
    return came === NOWHERE ? -1 : came;
  }

  #onTo(at: number): number {
    const on = this.#on[at >> PAGE_BITS][at & (PAGE - 1)];
    return on === LONG ? this.#long.get(at)! : on;
  }
}
