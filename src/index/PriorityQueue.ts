/** Numbers that wait, the one with the least key first: a binary heap in columns that only grow. */
export class PriorityQueue {
  /** How many wait. */
  size = 0;
  #keys = new Float64Array(64);
  #entries = new Float64Array(64);

  /** The least key; meaningless when nothing waits. */
  get least(): number {
    return this.#keys[0];
  }

  push(key: number, entry: number): void {
    if (this.size === this.#keys.length) this.#grow();
    const keys = this.#keys;
    const entries = this.#entries;
    let at = this.size++;
    while (at > 0) {
      const parent = (at - 1) >> 1;
      if (keys[parent] <= key) break;
      keys[at] = keys[parent];
      entries[at] = entries[parent];
      at = parent;
    }
    keys[at] = key;
    entries[at] = entry;
  }

  /** Takes out the one with the least key. */
  pop(): number {
    const keys = this.#keys;
    const entries = this.#entries;
    const top = entries[0];
    const size = --this.size;
    const key = keys[size];
    const entry = entries[size];
    let at = 0;
    for (;;) {
      let child = 2 * at + 1;
      if (child >= size) break;
      if (child + 1 < size && keys[child + 1] < keys[child]) child++;
      if (keys[child] >= key) break;
      keys[at] = keys[child];
      entries[at] = entries[child];
      at = child;
    }
    keys[at] = key;
    entries[at] = entry;
    return top;
  }

  #grow(): void {
    const keys = new Float64Array(2 * this.size);
    keys.set(this.#keys);
    this.#keys = keys;
    const entries = new Float64Array(2 * this.size);
    entries.set(this.#entries);
    this.#entries = entries;
  }
}
