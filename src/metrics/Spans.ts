/** Spans of a line from 0 to a length, and how much of it they cover together. */
export class Spans {
  /** The span to be added next; none where its end is not over its beginning. */
  from = Number.NaN;
  to = Number.NaN;

  #froms: Float64Array;
  #tos: Float64Array;
  #count = 0;
  #length = 0;

  constructor(room: number) {
    this.#froms = new Float64Array(room);
    this.#tos = new Float64Array(room);
  }

  /** Begins anew. */
  clear(length: number): void {
    this.#length = length;
    this.#count = 0;
  }

  add(): void {
    if (!(this.to > 0 && this.from < this.#length && this.from < this.to)) return;
    if (this.#count === this.#froms.length) {
      this.#froms = grown(this.#froms);
      this.#tos = grown(this.#tos);
    }
    this.#froms[this.#count] = Math.max(0, this.from);
    this.#tos[this.#count++] = Math.min(this.#length, this.to);
  }

  /** Metres in any of the spans: beginnings and ends can be put in order each by itself, as only how many are open counts. */
  union(): number {
    const count = this.#count;
    const [froms, tos] = [inOrder(this.#froms, count), inOrder(this.#tos, count)];
    let within = 0;
    let begun = 0;
    let opened = 0;
    for (let ended = 0; ended < count; ended++) {
      while (opened < count && froms[opened] <= tos[ended]) {
        if (opened === ended) begun = froms[opened];
        opened++;
      }
      if (opened === ended + 1) within += tos[ended] - begun;
    }
    return within;
  }
}

// So few are quicker put in order one by one: most are in order already.
const FEW = 32;

function inOrder(values: Float64Array, count: number): Float64Array {
  if (count > FEW) {
    values.subarray(0, count).sort();
    return values;
  }
  for (let k = 1; k < count; k++) {
    const value = values[k];
    let at = k;
    for (; at > 0 && values[at - 1] > value; at--) values[at] = values[at - 1];
    values[at] = value;
  }
  return values;
}

function grown(values: Float64Array): Float64Array {
  const more = new Float64Array(2 * values.length);
  more.set(values);
  return more;
}
