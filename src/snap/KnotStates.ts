/** Room at first; it grows. */
const ROOM = 128;

/** The states of one knot, written out: bins of the route, ascending, and what is known of each. */
export class KnotStates {
  size = 0;
  bin = new Int32Array(ROOM);
  /** How well each state fits its fix, as much as the fix counts. */
  emission = new Float64Array(ROOM);
  /** How well it fits the fix alone, counted in full: what a skip from or to it is worth. */
  fit = new Float64Array(ROOM);
  /** Weight of the heaviest path into each state, and of all of them. */
  best = new Float64Array(ROOM);
  sum = new Float64Array(ROOM);
  /** The state of the knot before on the heaviest path; -1 where the path begins here. */
  came = new Int32Array(ROOM);
  /** Scratch: what each is worth beside the others. */
  worth = new Float64Array(ROOM);

  /** Adds a state. */
  add(bin: number): void {
    if (this.size === this.bin.length) this.#grow();
    this.bin[this.size++] = bin;
  }

  #grow(): void {
    const larger = <T extends Float64Array | Int32Array>(values: T): T => {
      const column = new (values.constructor as new (length: number) => T)(2 * values.length);
      column.set(values);
      return column;
    };
    this.bin = larger(this.bin);
    this.emission = larger(this.emission);
    this.fit = larger(this.fit);
    this.best = larger(this.best);
    this.sum = larger(this.sum);
    this.came = larger(this.came);
    this.worth = larger(this.worth);
  }
}
