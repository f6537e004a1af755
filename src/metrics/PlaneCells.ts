import type { Curve } from './Curve';
import { PlaneView } from './PlaneView';
import { squaredToEdge } from './squaredToEdge';

/** No place of the line is farther from the middle of the plane, metres, so that one plane does for all. */
const FARTHEST = 250;

/** No more cells, and edges in cells, than so many for each edge; and no more small cells. */
const MOST = 64;
const MOST_SMALL = 1024;

/** From side to side there are over so many cells, or they are no use. */
const FEWEST = 2;

/** Over so many runs of so many edges reach over a place, on the average, or boxes about them do as well. */
const CROWD = 16;
const RUN = 8;

/** The side of a square whose diagonal is a little less than 1. */
const SIDE = 0.7;

/**
 * The edges of a line that stays about one place, by the square cells of a plane. A cell lists all that come within an upper width of
 * any place of it; and of small cells it is known whether an edge goes through, which then is within a lower width of all of it.
 * Where edges are tangled, boxes about some that follow each other would tell nothing.
 */
export class PlaneCells {
  readonly view = new PlaneView();
  /** The vertices in the plane. */
  readonly xs: Float64Array;
  readonly ys: Float64Array;
  /** Whether the line stays about one place, and its edges are tangled there. */
  readonly isTangled: boolean;
  /** The widths, metres. */
  low = 0;
  high = 0;
  /** The small cell at column c and row r is `r * columns + c`, its corner at `west + c * size`, `south + r * size`. */
  west = 0;
  south = 0;
  size = 1;
  columns = 0;
  rows = 0;
  /** 1 where an edge goes through the small cell. */
  held = new Uint8Array();
  /** So many small cells make up the side of a cell. */
  share = 1;
  /** The first entry of a cell, the edge of an entry, and the next one of the same cell; below 0 there is none. */
  firsts = new Int32Array();
  others: number[] = [];
  nexts: number[] = [];
  readonly #curve: Curve;
  readonly #box: readonly [west: number, south: number, east: number, north: number];
  readonly #length: number;

  constructor(curve: Curve) {
    const { vertices, edges } = curve;
    const { view } = this;
    view.lookFrom(vertices.x[0], vertices.y[0], vertices.z[0]);
    const xs = new Float64Array(edges + 1);
    const ys = new Float64Array(edges + 1);
    let [west, south, east, north, length] = [0, 0, 0, 0, 0];
    let [runWest, runSouth, runEast, runNorth, reached] = [0, 0, 0, 0, 0];
    let isNear = true;
    for (let i = 0; i <= edges && isNear; i++) {
      view.see(vertices, i);
      const { x, y } = view;
      xs[i] = x;
      ys[i] = y;
      if (i > 0) length += Math.sqrt((x - xs[i - 1]) ** 2 + (y - ys[i - 1]) ** 2);
      if (i % RUN === 0) {
        reached += (runEast - runWest) * (runNorth - runSouth);
        runWest = runEast = x;
        runSouth = runNorth = y;
      }
      west = Math.min(west, x);
      south = Math.min(south, y);
      east = Math.max(east, x);
      north = Math.max(north, y);
      runWest = Math.min(runWest, x);
      runSouth = Math.min(runSouth, y);
      runEast = Math.max(runEast, x);
      runNorth = Math.max(runNorth, y);
      isNear = x * x + y * y <= FARTHEST * FARTHEST;
    }
    this.#curve = curve;
    this.xs = xs;
    this.ys = ys;
    this.#box = [west, south, east, north];
    this.#length = length;
    this.isTangled = isNear && reached > CROWD * (east - west) * (north - south);
  }

  /** Divides the plane for an upper and a lower width; whether there are cells, for which these may be too wide. */
  divide(low: number, high: number): boolean {
    const { edges, gap } = this.#curve;
    const [west, south, east, north] = this.#box;
    const room = 1.01 * high;
    const across = east - west + 2 * room;
    const up = north - south + 2 * room;
    const size = Math.max(2 * high, (3 * this.#length) / (MOST * edges), Math.sqrt((across * up) / (MOST * edges)));
    if (Math.max(across, up) < FEWEST * size) return false;
    const share = Math.ceil(size / (SIDE * low));
    const isSmall = (across * up * share * share) / (size * size) <= MOST_SMALL * edges;
    this.low = low;
    this.high = high;
    this.west = west - room;
    this.south = south - room;
    this.share = isSmall ? share : 1;
    this.size = size / this.share;
    const columns = Math.ceil(across / size) + 1;
    const rows = Math.ceil(up / size) + 1;
    this.columns = columns * this.share;
    this.rows = rows * this.share;
    this.firsts = new Int32Array(columns * rows).fill(-1);
    this.others = [];
    this.nexts = [];
    this.held = new Uint8Array(this.columns * this.rows);
    for (let i = 0; i < edges; i++) {
      if (gap?.[i] === 1) continue;
      this.#enter(i, size, high);
      if (isSmall) this.#enter(i, this.size, 0);
    }
    return true;
  }

  /** Metres of a place from the line: 0 within the lower width of it, infinite beyond the upper. */
  distance(px: number, py: number, pz: number): number {
    const { view, xs, ys, others, nexts } = this;
    view.seePlace(px, py, pz);
    const { x, y } = view;
    const column = Math.floor((x - this.west) / this.size);
    const row = Math.floor((y - this.south) / this.size);
    if (column < 0 || column >= this.columns || row < 0 || row >= this.rows) return Infinity;
    if (this.held[row * this.columns + column] === 1) return 0;
    let squared = Infinity;
    for (let entry = this.firstAt(column, row); entry >= 0; entry = nexts[entry]) {
      const at = others[entry];
      squared = Math.min(squared, squaredToEdge(xs[at] - x, ys[at] - y, xs[at + 1] - x, ys[at + 1] - y));
    }
    return Math.sqrt(squared);
  }

  /** The first entry of the cell in which a small one lies. */
  firstAt(column: number, row: number): number {
    const { share } = this;
    return this.firsts[(((row / share) | 0) * this.columns) / share + ((column / share) | 0)];
  }

  /** Enters an edge, row by row: what of it comes within a width of a row, and as much to either side. */
  #enter(edge: number, size: number, width: number): void {
    const { firsts, others, nexts, held } = this;
    const columns = width > 0 ? this.columns / this.share : this.columns;
    const px = this.xs[edge] - this.west;
    const py = this.ys[edge] - this.south;
    const dx = this.xs[edge + 1] - this.xs[edge];
    const dy = this.ys[edge + 1] - this.ys[edge];
    const last = Math.floor((Math.max(py, py + dy) + width) / size);
    for (let row = Math.floor((Math.min(py, py + dy) - width) / size); row <= last; row++) {
      let from = 0;
      let to = 1;
      if (dy !== 0) {
        const a = (row * size - width - py) / dy;
        const b = ((row + 1) * size + width - py) / dy;
        from = Math.min(1, Math.max(0, Math.min(a, b)));
        to = Math.min(1, Math.max(0, Math.max(a, b)));
      }
      const a = px + from * dx;
      const b = px + to * dx;
      const first = row * columns + Math.floor((Math.min(a, b) - width) / size);
      const end = row * columns + Math.floor((Math.max(a, b) + width) / size);
      for (let cell = first; cell <= end; cell++) {
        if (width === 0) held[cell] = 1;
        else {
          nexts.push(firsts[cell]);
          firsts[cell] = others.length;
          others.push(edge);
        }
      }
    }
  }
}
