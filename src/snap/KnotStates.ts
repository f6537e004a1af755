/** Room at first; it grows. */
const ROOM = 64;

/** The states of one knot, written out: bins of the route, ascending, and what is known of each. */
export class KnotStates {
  size = 0;
  /** How many of those written no step leads to. */
  apart = 0;
  /** Whether the heaviest state fits its fix badly, so that the body may be anywhere. */
  lost = false;
  /** The bin of that state. */
  heaviest = -1;
  bin = new Int32Array(ROOM);
  /** Metres from the fix to each state, earth-centred. */
  x = new Float64Array(ROOM);
  y = new Float64Array(ROOM);
  z = new Float64Array(ROOM);
  /** How well each state fits its fix, as much as the fix counts; before it is weighed the root that `fit` is −3 of. */
  emission = new Float64Array(ROOM);
  /** How well it fits the fix, counted in full. */
  fit = new Float64Array(ROOM);
  /**
   * What a skip from or to it is worth: as much as it fits, since a body that leaves the route for another part of it is seen
   * on both.
   */
  skip = new Float64Array(ROOM);
  /** Weight of the heaviest path into each state, and of all of them. */
  best = new Float64Array(ROOM);
  sum = new Float64Array(ROOM);
  /** The state of the knot before on the heaviest path; -1 where the path begins here. */
  came = new Int32Array(ROOM);
  /** Scratch: what each is worth beside the others, those that may outweigh it, and which are to go. */
  worth = new Float64Array(ROOM);
  queue = new Int32Array(ROOM);
  marked = new Uint8Array(ROOM);

  /** Adds a state; `skip` is 1 where no step leads to it. */
  add(bin: number, skip = 0): void {
    if (this.size === this.bin.length) this.#grow();
    this.marked[this.size] = skip;
    this.apart += skip;
    this.bin[this.size++] = bin;
  }

  /** Drops the states that are marked. */
  drop(): void {
    const { bin, x, y, z, emission, fit, skip, best, sum, came, marked } = this;
    let kept = 0;
    while (kept < this.size && marked[kept] === 0) kept++;
    for (let k = kept + 1; k < this.size; k++) {
      if (marked[k] === 1) continue;
      bin[kept] = bin[k];
      x[kept] = x[k];
      y[kept] = y[k];
      z[kept] = z[k];
      emission[kept] = emission[k];
      fit[kept] = fit[k];
      skip[kept] = skip[k];
      best[kept] = best[k];
      sum[kept] = sum[k];
      came[kept++] = came[k];
    }
    this.size = kept;
  }

  #grow(): void {
    const larger = <T extends Float64Array | Int32Array | Uint8Array>(values: T): T => {
      const column = new (values.constructor as new (length: number) => T)(2 * values.length);
      column.set(values);
      return column;
    };
    this.bin = larger(this.bin);
    this.x = larger(this.x);
    this.y = larger(this.y);
    this.z = larger(this.z);
    this.emission = larger(this.emission);
    this.fit = larger(this.fit);
    this.skip = larger(this.skip);
    this.best = larger(this.best);
    this.sum = larger(this.sum);
    this.came = larger(this.came);
    this.worth = larger(this.worth);
    this.queue = larger(this.queue);
    this.marked = larger(this.marked);
  }
}
