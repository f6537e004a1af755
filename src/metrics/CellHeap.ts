/** A binary heap of cells by rising key, in columns that grow. */
export class CellHeap {
  #keys = new Float64Array(256);
  #rows = new Int32Array(256);
  #columns = new Int32Array(256);
  size = 0;
  /** The cell last popped. */
  key = Number.NaN;
  row = -1;
  column = -1;

  push(key: number, row: number, column: number): void {
    if (this.size === this.#keys.length) this.#grow();
    const keys = this.#keys;
    const rows = this.#rows;
    const columns = this.#columns;
    let at = this.size++;
    while (at > 0) {
      const parent = (at - 1) >> 1;
      if (keys[parent] <= key) break;
      keys[at] = keys[parent];
      rows[at] = rows[parent];
      columns[at] = columns[parent];
      at = parent;
    }
    keys[at] = key;
    rows[at] = row;
    columns[at] = column;
  }

  /** Takes the cell of least key out, into the fields. The heap must not be empty. */
  pop(): void {
    const keys = this.#keys;
    const rows = this.#rows;
    const columns = this.#columns;
    this.key = keys[0];
    this.row = rows[0];
    this.column = columns[0];
    const size = --this.size;
    const key = keys[size];
    let at = 0;
    for (let child = 1; child < size; child = 2 * at + 1) {
      if (child + 1 < size && keys[child + 1] < keys[child]) child++;
      if (keys[child] >= key) break;
      keys[at] = keys[child];
      rows[at] = rows[child];
      columns[at] = columns[child];
      at = child;
    }
    keys[at] = key;
    rows[at] = rows[size];
    columns[at] = columns[size];
  }

  #grow(): void {
    const [keys, rows, columns] = [this.#keys, this.#rows, this.#columns];
    this.#keys = new Float64Array(2 * keys.length);
    this.#rows = new Int32Array(2 * keys.length);
    this.#columns = new Int32Array(2 * keys.length);
    this.#keys.set(keys);
    this.#rows.set(rows);
    this.#columns.set(columns);
  }
}
