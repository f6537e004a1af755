const SIDE_BITS = 5;
const SIDE = 1 << SIDE_BITS;
const MASK = SIDE - 1;

/**
 * A set of cells (row, column) of a huge table, as bits in tiles of 32 × 32 that come into being when touched: neighbours
 * cost a bit each, empty country nothing.
 */
export class CellSet {
  #tileOf: Float64Array = new Float64Array(64).fill(-1); // open addressing: key of a tile, or -1
  #slotOf = new Int32Array(64);
  #tiles = 0;
  #bits = new Int32Array(16 * SIDE);
  #lastTile = -1;
  #lastSlot = 0;
  /** Cells in the set. */
  size = 0;

  readonly #tilesInRow: number;

  constructor(columns: number) {
    this.#tilesInRow = (columns + MASK) >> SIDE_BITS;
  }

  /** Puts a cell in; says whether it was new. */
  add(row: number, column: number): boolean {
    const tile = (row >> SIDE_BITS) * this.#tilesInRow + (column >> SIDE_BITS);
    if (tile !== this.#lastTile) {
      this.#lastTile = tile;
      this.#lastSlot = this.#slot(tile);
    }
    const word = this.#lastSlot * SIDE + (row & MASK);
    const bit = 1 << (column & MASK);
    if ((this.#bits[word] & bit) !== 0) return false;
    this.#bits[word] |= bit;
    this.size++;
    return true;
  }

  #slot(tile: number): number {
    const mask = this.#tileOf.length - 1;
    let at = hash(tile) & mask;
    while (this.#tileOf[at] !== -1) {
      if (this.#tileOf[at] === tile) return this.#slotOf[at];
      at = (at + 1) & mask;
    }
    const slot = this.#tiles++;
    this.#tileOf[at] = tile;
    this.#slotOf[at] = slot;
    if (this.#tiles * SIDE > this.#bits.length) {
      const wider = new Int32Array(this.#bits.length * 2);
      wider.set(this.#bits);
      this.#bits = wider;
    }
    if (this.#tiles * 2 > this.#tileOf.length) this.#rehash();
    return slot;
  }

  #rehash(): void {
    const [tiles, slots] = [this.#tileOf, this.#slotOf];
    this.#tileOf = new Float64Array(tiles.length * 2).fill(-1);
    this.#slotOf = new Int32Array(tiles.length * 2);
    const mask = this.#tileOf.length - 1;
    for (let i = 0; i < tiles.length; i++) {
      if (tiles[i] === -1) continue;
      let at = hash(tiles[i]) & mask;
      while (this.#tileOf[at] !== -1) at = (at + 1) & mask;
      this.#tileOf[at] = tiles[i];
      this.#slotOf[at] = slots[i];
    }
  }
}

function hash(tile: number): number {
  const mixed = Math.imul(tile | 0, 0x9e3779b1) ^ Math.imul((tile / 0x1_0000_0000) | 0, 0x85ebca6b);
  return mixed ^ (mixed >>> 15);
}
