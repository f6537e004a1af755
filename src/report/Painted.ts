import type { Trace } from './Trace';

/** Points that are drawn, however often lines come back over themselves, before it is looked at: hardly anything would be saved. */
const FEW = 2000;

/** The pixels of a picture that lines have been drawn through: one that goes round and round is drawn only where it can be seen. */
export class Painted {
  readonly #columns: number;
  readonly #rows: number;
  #squares: Uint8Array | undefined;
  #points = 0;

  constructor(width: number, height: number) {
    this.#columns = Math.ceil(width);
    this.#rows = Math.ceil(height);
  }

  /** Draws a line, in pixels: its stretches, from a point to before another, that show something new. */
  add({ x, y }: Trace): (readonly [begin: number, end: number])[] {
    this.#points += x.length;
    if (this.#points < FEW) return [[0, x.length]];
    const stretches: [number, number][] = [];
    let begin = 0;
    for (let i = 1; i <= x.length; i++) {
      if (i < x.length && this.#isNew(x[i - 1], y[i - 1], x[i], y[i])) continue;
      if (i - begin > 1) stretches.push([begin, i]);
      begin = i;
    }
    return stretches;
  }

  #isNew(x: number, y: number, toX: number, toY: number): boolean {
    this.#squares ??= new Uint8Array(this.#columns * this.#rows);
    const [squares, columns, rows] = [this.#squares, this.#columns, this.#rows];
    const [dx, dy] = [toX - x, toY - y];
    const steps = Math.max(1, Math.ceil(Math.max(Math.abs(dx), Math.abs(dy))));
    let isNew = false;
    for (let k = 0; k <= steps; k++) {
      const column = Math.floor(x + (k / steps) * dx);
      const row = Math.floor(y + (k / steps) * dy);
      if (column < 0 || row < 0 || column >= columns || row >= rows) continue;
      const at = row * columns + column;
      if (squares[at] === 1) continue;
      squares[at] = 1;
      isNew = true;
    }
    return isNew;
  }
}
