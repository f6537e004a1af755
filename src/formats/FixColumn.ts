/** Numbers from an index on. */
interface Piece {
  readonly from: number;
  readonly values: Float64Array;
}

/** Entries of the longest piece: half a megabyte. */
const LONGEST = 65_536;

const NONE: Piece = { from: 0, values: new Float64Array(0) };

/**
 * A column of numbers that grows at its end; entries that were not set, or to NaN, are NaN. It holds nothing until it knows a
 * number, and grows piece by piece, each twice as long as the one before, so that nothing is copied before it is taken.
 */
export class FixColumn {
  /** How many entries hold a number. */
  known = 0;
  #pieces: Piece[] = [];
  #last = NONE;

  /** @param index - above all that were set before */
  set(index: number, value: number): void {
    if (Number.isNaN(value)) return;
    const { from, values } = index - this.#last.from < this.#last.values.length ? this.#last : this.#grow(index);
    values[index - from] = value;
    this.known++;
  }

  /** The first `count` entries, as a column of exactly that length; nothing is left of it here. */
  take(count: number): Float64Array {
    const column = new Float64Array(count).fill(Number.NaN);
    for (const { from, values } of this.#pieces) column.set(values.subarray(0, Math.max(count - from, 0)), from);
    this.#pieces = [];
    this.#last = NONE;
    return column;
  }

  #grow(from: number): Piece {
    const length = Math.min(Math.max(2 * this.#last.values.length, 8), LONGEST);
    this.#last = { from, values: new Float64Array(length).fill(Number.NaN) };
    this.#pieces.push(this.#last);
    return this.#last;
  }
}
