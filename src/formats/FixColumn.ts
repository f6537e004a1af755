/** A column of numbers that grows; unset entries are NaN. */
export class FixColumn {
  #values = new Float64Array(256);
  /** How many entries hold a number. */
  known = 0;

  set(index: number, value: number): void {
    if (index >= this.#values.length) {
      const grown = new Float64Array(Math.max(index + 1, this.#values.length * 2));
      grown.set(this.#values);
      this.#values = grown;
    }
    this.#values[index] = value;
    if (!Number.isNaN(value)) this.known++;
  }

  get(index: number): number {
    return this.#values[index];
  }

  /** The first `count` entries, as a column of exactly that length. */
  take(count: number): Float64Array {
    return this.#values.slice(0, count);
  }
}
