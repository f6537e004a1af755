/** A column of numbers that grows; entries that were not set, or to NaN, are NaN. It holds nothing until it knows a number. */
export class FixColumn {
  #values = NONE;
  /** How many entries hold a number. */
  known = 0;

  set(index: number, value: number): void {
    if (Number.isNaN(value) && index >= this.#values.length) return;
    if (index >= this.#values.length) this.#grow(index + 1);
    this.#values[index] = value;
    if (!Number.isNaN(value)) this.known++;
  }

  get(index: number): number {
    return index < this.#values.length ? this.#values[index] : Number.NaN;
  }

  /** The first `count` entries, as a column of exactly that length; nothing is left of it here. */
  take(count: number): Float64Array {
    const values = this.#values;
    this.#values = NONE;
    if (values.length >= count) return values.length === count ? values : values.slice(0, count);
    const column = new Float64Array(count).fill(Number.NaN, values.length);
    column.set(values);
    return column;
  }

  #grow(least: number): void {
    const before = this.#values;
    // by a half: what is let go of and what is taken are in memory together
    const grown = new Float64Array(Math.max(least, 8, Math.ceil(before.length * 1.5)));
    grown.set(before);
    this.#values = grown.fill(Number.NaN, before.length);
  }
}

const NONE = new Float64Array(0);
