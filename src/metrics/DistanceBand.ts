import { Sum } from '../geodesy';
import { bulge } from './bulge';
import type { Curve } from './Curve';
import { LeastBound } from './LeastBound';
import { LowerEnvelope } from './LowerEnvelope';
import type { NearestEdge } from './NearestEdge';
import type { PlaneCells } from './PlaneCells';
import { PlaneView } from './PlaneView';
import { SeenEdges } from './SeenEdges';
import { squaredToEdge } from './squaredToEdge';

/** Up to 100 km a distance may be off by this part of itself, farther apart by {@link FARTHER_SHARE}. */
const FAR_SHARE = 1e-7;
const FARTHER_SHARE = 1e-5;
const FARTHER = 100_000;

/** Metres from which on a step along the other line is as dear as measuring an edge of it. */
const FAR = 1000;

/** Of so few edges the least distance is soon drawn; where more come near a piece, halves of it may have fewer. */
const FEW = 4;

/** Distances up to this much over a width count as within, metres: ten times the last bits of earth-centred coordinates. */
const TOLERANCE = 1e-8;

/** So many edges of the line, and no more than so many metres of it, are a run: they are seen in one plane. */
const RUN = 8;
const RUN_REACH2 = 150 ** 2;

/** So far from its middle, metres, a plane is exact enough: squared. */
const SAME_PLANE2 = 500 ** 2;

/** Numbers of a leaf that is seen: two a vertex. */
const LEAF = 18;

/** Pieces no longer than this, metres, are nothing. */
const NOTHING = 1e-9;

/** Edges no longer than this, metres, are as far off everywhere. */
const POINT = 2e-6;

/** What is seen in a plane may be off by this, metres. */
const ROOM = 1e-6;

/** By so much more than a chord, at the most, the distance changes along it. */
const STRETCH = 1 + 1e-6;

/** The same where distances are those of a sphere, and metres by which they jump to those: over 100 km. */
const FARTHER_STRETCH = 1.01;
const FARTHER_STEP = 2;
const NEARLY_FARTHER = 90_000;

/** Where a piece of an edge begins, 0 to 1, how many metres off that is and from which edge; and the same of its end. */
type Straight = readonly [number, number, number, number, number, number];

/**
 * The places of a line by their distance from another: how much is within a lower width, and the pieces that lie between it
 * and an upper width, each with the distance along it as a function.
 *
 * No distance changes faster than the way goes: from a vertex well within the lower width, or well over the upper, all edges
 * are passed over that so much way settles. Any other is seen with those that follow in a plane, in which the other line
 * lies at its true distance and direction. What of it is within the lower width from either end on is passed over; of what is
 * left, halves take over the edges that can be the nearest somewhere, until so few are left that the least of their distances is drawn.
 */
export class DistanceBand {
  readonly #curve: Curve;
  readonly #near: NearestEdge;
  readonly #low: number;
  readonly #high: number;
  readonly #isNarrow: boolean;
  readonly #inside = new Sum();
  readonly #envelope = new LowerEnvelope();
  // pieces between the widths: where on the edge, the distance, and weight a metre
  readonly #froms: number[] = [];
  readonly #tos: number[] = [];
  readonly #bends: number[] = [];
  readonly #feet: number[] = [];
  readonly #rests: number[] = [];
  readonly #scales: number[] = [];
  #farthest2 = 0;
  readonly #place = new Float64Array(3);
  // the run of edges at hand: their vertices in a plane, the leaves of the other line near to them, and the vertices of those
  readonly #view = new PlaneView();
  #begin = 0;
  #end = 0;
  readonly #xs = new Float64Array(RUN + 1);
  readonly #ys = new Float64Array(RUN + 1);
  readonly #nodes = new Int32Array(128);
  readonly #leaves: number[] = [];
  #leafCount = 0;
  readonly #leafBoxes: number[] = [];
  readonly #isShown: boolean[] = [];
  readonly #columns: number[] = [];
  // the edge at hand: where it begins, its direction, and weight a metre
  #px = 0;
  #py = 0;
  #ux = 1;
  #uy = 0;
  #scale = 0;
  // the edges that come near it, in lists, one behind the other; their squared distances from the ends of the piece at hand
  readonly #seen = new SeenEdges();
  readonly #list: number[] = [];
  readonly #squaredFroms: number[] = [];
  readonly #squaredTos: number[] = [];
  readonly #heldFroms: number[] = [];
  readonly #heldTos: number[] = [];
  // the piece at hand, and the squared distances from its ends of the edge nearest to its start and of that nearest to its end
  #from = 0;
  #to = 0;
  readonly #ofFirst = new LeastBound();
  readonly #ofLast = new LeastBound();
  readonly #ofHigh = new LeastBound();
  readonly #most: number;
  #between = 0;
  #last = 0;
  readonly #cells?: PlaneCells;

  /**
   * @param enough - Metres: between widths no further apart, it isn't told how far a place is.
   * @param cells - Those of the other line.
   */
  constructor(curve: Curve, near: NearestEdge, low: number, high: number, enough: number, cells: PlaneCells) {
    this.#isNarrow = high - low <= enough;
    this.#curve = curve;
    this.#near = near;
    this.#low = low;
    this.#high = high;
    this.#most = high * (1 + 2 * FAR_SHARE) + ROOM;
    if (cells.columns > 0 && cells.low <= low && cells.high >= this.#most) this.#cells = cells;
  }

  /** What lies between the widths and isn't told how far, as these are so near to each other. */
  get between(): number {
    return this.#between;
  }

  /** What is within the lower width. */
  get inside(): number {
    return this.#inside.value;
  }

  /** Takes in the edges of the line, those with a weight. */
  add(weights: Float64Array): void {
    const { vertices, gap, edges, longest } = this.#curve;
    const near = this.#near;
    const low = this.#low;
    const high = this.#high;
    const others = near.curve.vertices;
    const isFar = low > FAR;
    const low2 = low * low;
    const room = low - bulge(longest, low);
    const limit = room > 0 ? room * room : -1;
    let edge = 0;
    let squared = Infinity;
    let isLeast = false;
    let drawn = -1;
    const settle = (vertex: number, isSought: boolean) => {
      isLeast = false;
      squared = isFar ? Infinity : vertices.squaredDistance(vertex, others, edge);
      if (squared > limit && !isFar) {
        edge = vertices.hop(vertex, others, edge);
        squared = vertices.squaredDistance(vertex, others, edge);
      }
      // after an edge that is drawn the next one most often is
      if (squared <= limit || (!isSought && drawn === vertex - 1)) return;
      this.#moveTo(vertex);
      near.offer(edge);
      if (isSought) {
        near.walk();
        if (near.squared > low2) near.search(low2);
      }
      edge = near.edge;
      squared = near.squared;
      isLeast = isSought && squared > low2;
    };
    let settled = -1;
    // so far on from here all is within the lower width, between the two, or over the upper
    let inside = -1;
    let between = -1;
    let outside = -1;
    for (let i = 0; i < edges; i++) {
      if (gap?.[i] === 1) {
        inside = -1;
        between = -1;
        outside = -1;
        continue;
      }
      const length = Math.sqrt(vertices.chord2(i));
      const weight = weights[i];
      if (!(weight > 0) || length <= inside || length <= between || length <= outside) {
        if (weight > 0 && length <= inside) this.#inside.add(weight);
        else if (weight > 0 && length <= between) this.#between += weight;
        inside -= length;
        between -= length;
        outside -= length;
        continue;
      }
      // what is so short against the distance is measured at its ends, anything else is drawn
      const isStraight = length <= POINT || 8 * shareOf(low) * low * low > length * length;
      if (settled !== i) settle(i, isStraight || isFar);
      const edgeBefore = edge;
      const squaredBefore = squared;
      const wasLeast = isLeast;
      settle(i + 1, isStraight || isFar);
      settled = i + 1;
      const from = Math.sqrt(squaredBefore);
      const to = Math.sqrt(squared);
      const way = this.#wayOf(length);
      inside = this.#sureWay(low - to);
      between = isLeast && this.#isNarrow ? this.#sureWay(Math.min(to - low, high - to)) : -1;
      outside = isLeast ? this.#sureWay(to - high) : -1;
      if ((from + to + way) / 2 <= low) this.#inside.add(weight);
      else if (wasLeast && isLeast && (from + to - way) / 2 > high) continue;
      // the distance from one edge is convex: both ends near enough to it
      else if (this.#isHeld(i, edgeBefore, squaredBefore, edge, squared, limit)) this.#inside.add(weight);
      else if (length <= POINT) {
        // points are counted, and so short an edge has no direction that rounding leaves it
        this.#note(0, 1, 0, 0, this.#distanceAt(i, 0.5, edge) ** 2, weight);
      } else if (isStraight) {
        const nearFrom = this.#distanceAt(i, 0, edgeBefore);
        const first = near.edge;
        const nearTo = this.#distanceAt(i, 1, edge);
        this.#addStraight(i, length, weight / length, [0, nearFrom, first, 1, nearTo, near.edge]);
      } else {
        const isDrawn = this.#addEdge(i, weight, drawn === i ? this.#last : edgeBefore);
        drawn = isDrawn ? i + 1 : -1;
      }
    }
  }

  /** Whether both ends of an edge are so near to the one or to the other edge near to them. */
  #isHeld(i: number, before: number, squaredBefore: number, edge: number, squared: number, limit: number): boolean {
    if (!(squared <= limit && squaredBefore <= limit)) return false;
    if (edge === before) return true;
    this.#moveTo(i);
    if (this.#near.measure(edge) <= limit) return true;
    this.#moveTo(i + 1);
    return this.#near.measure(before) <= limit;
  }

  /** By how much the distance can change along so many metres. */
  #wayOf(length: number): number {
    return this.#low > NEARLY_FARTHER ? length * FARTHER_STRETCH + FARTHER_STEP : length * STRETCH + TOLERANCE;
  }

  /** Metres along which the distance changes by no more than so much. */
  #sureWay(change: number): number {
    return this.#low > NEARLY_FARTHER ? (change - FARTHER_STEP) / FARTHER_STRETCH : (change - TOLERANCE) / STRETCH;
  }

  /** How many pieces lie between the widths. */
  get pieces(): number {
    return this.#froms.length;
  }

  /** The greatest distance of any of them. */
  get farthest(): number {
    return this.#between > 0 ? this.#high : Math.sqrt(this.#farthest2);
  }

  /** The weight of a piece. */
  pieceWeight(piece: number): number {
    return this.#scales[piece] * (this.#tos[piece] - this.#froms[piece]);
  }

  /** How much of some pieces, the first so many listed, is within a width, together and each by itself. */
  piecesWithin(open: Int32Array, count: number, width: number, parts: Float64Array): number {
    const wide2 = (width + TOLERANCE) ** 2;
    let within = 0;
    for (let k = 0; k < count; k++) {
      const piece = open[k];
      const room = wide2 - this.#rests[piece];
      let part = 0;
      if (room >= 0) {
        const bend = this.#bends[piece];
        const half = bend > 0 ? Math.sqrt(room / bend) : Infinity;
        const foot = this.#feet[piece];
        const length = Math.min(this.#tos[piece], foot + half) - Math.max(this.#froms[piece], foot - half);
        if (length > 0) part = this.#scales[piece] * length;
      }
      parts[k] = part;
      within += part;
    }
    return within;
  }

  #moveTo(vertex: number): void {
    const { x, y, z } = this.#curve.vertices;
    this.#near.moveTo(x[vertex], y[vertex], z[vertex]);
  }

  /** Metres of a place of an edge from the other line. */
  #distanceAt(edge: number, fraction: number, guess: number): number {
    const near = this.#near;
    const place = this.#place;
    this.#curve.vertices.between(edge, fraction, place);
    near.moveTo(place[0], place[1], place[2]);
    near.offer(guess);
    near.walk();
    near.search(0);
    return Math.sqrt(near.squared);
  }

  /** Adds a piece so far off that the distance runs straight along it while one edge is the nearest; else halves of it. */
  #addStraight(edge: number, length: number, scale: number, piece: Straight): void {
    const [begin, from, nearFrom, end, to, nearTo] = piece;
    const size = (end - begin) * length;
    const sag = bulge(size, Math.max(from, to));
    const excess =
      nearFrom === nearTo
        ? 0
        : Math.max(0, Math.min(this.#excess(edge, end, nearFrom, to), this.#excess(edge, begin, nearTo, from)));
    const way = this.#wayOf(size);
    const least = (from + to - way) / 2 - sag;
    if (Math.min((from + to + way) / 2, Math.max(from, to) + excess) + sag <= this.#low) {
      this.#inside.add(scale * size);
      return;
    }
    if (least > this.#high) return;
    if (this.#isNarrow && least > this.#low && Math.max(from, to) + Math.min(excess, size) + sag <= this.#high) {
      this.#between += scale * size;
      return;
    }
    const apart = Math.min(Math.abs(to - from), size);
    const middle = (begin + end) / 2;
    const isStraight = Math.min(excess, size - apart) + sag + size ** 2 / (8 * least) <= shareOf(least) * least;
    if (isStraight || !(middle > begin && middle < end)) {
      const slope = (to - from) / size;
      const at = begin * length;
      if (slope === 0) this.#note(at, end * length, 0, 0, from * from, scale);
      else this.#note(at, end * length, slope * slope, at - from / slope, 0, scale);
      return;
    }
    const there = this.#distanceAt(edge, middle, nearFrom);
    const near = this.#near.edge;
    this.#addStraight(edge, length, scale, [begin, from, nearFrom, middle, there, near]);
    this.#addStraight(edge, length, scale, [middle, there, near, end, to, nearTo]);
  }

  /** By how many metres more than the least a place of an edge is away from another. */
  #excess(edge: number, fraction: number, other: number, least: number): number {
    const near = this.#near;
    const place = this.#place;
    this.#curve.vertices.between(edge, fraction, place);
    near.moveTo(place[0], place[1], place[2]);
    return Math.sqrt(near.measure(other)) - least;
  }

  /** A piece and the square of the distance along it. */
  #note(from: number, to: number, bend: number, foot: number, rest: number, scale: number): void {
    const farther = Math.max(Math.abs(from - foot), Math.abs(to - foot));
    const farthest2 = bend * farther * farther + rest;
    if (farthest2 <= this.#low * this.#low) {
      this.#inside.add(scale * (to - from));
      return;
    }
    const nearer = foot < from ? from - foot : foot > to ? foot - to : 0;
    if (bend * nearer * nearer + rest > (this.#high + TOLERANCE) ** 2) return;
    this.#farthest2 = Math.max(this.#farthest2, farthest2);
    this.#froms.push(from);
    this.#tos.push(to);
    this.#bends.push(bend);
    this.#feet.push(foot);
    this.#rests.push(rest);
    this.#scales.push(scale);
  }

  /** Sees a run of edges in a plane, from one on: which leaves of the other line come within the upper width of them. */
  #lookFrom(edge: number): void {
    if (edge >= this.#begin && edge < this.#end) return;
    const { vertices, edges, gap } = this.#curve;
    const { x, y, z } = vertices;
    let longest2 = vertices.chord2(edge);
    let end = edge + 1;
    while (end < edges && end < edge + RUN && gap?.[end] !== 1 && longest2 <= RUN_REACH2) {
      if (vertices.squaredDistance(edge, vertices, end + 1) > RUN_REACH2) break;
      longest2 = Math.max(longest2, vertices.chord2(end));
      end++;
    }
    this.#begin = edge;
    this.#end = end;
    const view = this.#view;
    vertices.between((edge + end) >> 1, end === edge + 1 ? 0.5 : 0, this.#place);
    view.lookFrom(this.#place[0], this.#place[1], this.#place[2]);
    let [west, south, low, east, north, high] = [Infinity, Infinity, Infinity, -Infinity, -Infinity, -Infinity];
    for (let i = edge; i <= end; i++) {
      view.see(vertices, i);
      this.#xs[i - edge] = view.x;
      this.#ys[i - edge] = view.y;
      west = Math.min(west, x[i]);
      south = Math.min(south, y[i]);
      low = Math.min(low, z[i]);
      east = Math.max(east, x[i]);
      north = Math.max(north, y[i]);
      high = Math.max(high, z[i]);
    }
    const { boxes, edges: others } = this.#near.curve;
    const nodes = this.#nodes;
    // and as much as an edge rises over its chord
    const limit = (this.#most + longest2 / (8 * 6.3e6)) ** 2;
    this.#leafCount = 0;
    let top = 0;
    nodes[top++] = 1;
    while (top > 0) {
      const node = nodes[--top];
      if (!(boxes.squaredGap(node, west, south, low, east, north, high) <= limit)) continue;
      if (node < boxes.leaves) {
        nodes[top++] = 2 * node + 1;
        nodes[top++] = 2 * node;
      } else if (boxes.firstEdge(node) < others) {
        this.#isShown[this.#leafCount] = false;
        boxes.copyBox(node, this.#leafBoxes, 6 * this.#leafCount);
        this.#leaves[this.#leafCount++] = node;
      }
    }
  }

  /** Sees the vertices of a leaf. */
  #show(k: number): void {
    const { boxes, edges, vertices } = this.#near.curve;
    const node = this.#leaves[k];
    const last = Math.min(boxes.endEdge(node), edges);
    let at = LEAF * k;
    for (let i = boxes.firstEdge(node); i <= last; i++) {
      this.#view.see(vertices, i);
      this.#columns[at++] = this.#view.x;
      this.#columns[at++] = this.#view.y;
    }
    this.#isShown[k] = true;
  }

  /** Adds an edge in its plane, the other being near to its start; whether it took more than that one. */
  #addEdge(edge: number, weight: number, guess: number): boolean {
    this.#last = guess;
    if (this.#cells !== undefined && this.#addByCells(this.#cells, edge, weight)) return false;
    this.#lookFrom(edge);
    if (this.#leafCount === 0) return false;
    const at = edge - this.#begin;
    const length = this.#goAlong(this.#xs[at], this.#ys[at], this.#xs[at + 1], this.#ys[at + 1], weight);
    this.#from = 0;
    this.#to = length;
    this.#seen.count = 0;
    this.#take(guess);
    if (!this.#trim(0, this.#listAll()) || !this.#find(edge, length, guess)) return false;
    const count = this.#keep(0, this.#listAll());
    this.#settle(0, count, Infinity);
    return true;
  }

  /** Makes an edge of a plane the axis: its length. */
  #goAlong(px: number, py: number, qx: number, qy: number, weight: number): number {
    const dx = qx - px;
    const dy = qy - py;
    const length = Math.sqrt(dx * dx + dy * dy);
    this.#px = px;
    this.#py = py;
    this.#ux = dx / length;
    this.#uy = dy / length;
    this.#scale = weight / length;
    return length;
  }

  /** Adds an edge by the cells through which it goes; false where these can't tell. */
  #addByCells(cells: PlaneCells, edge: number, weight: number): boolean {
    const { view, size, west, south, columns, rows, held } = cells;
    const { vertices } = this.#curve;
    view.see(vertices, edge);
    const px = view.x;
    const py = view.y;
    view.see(vertices, edge + 1);
    const qx = view.x;
    const qy = view.y;
    if (!(Math.max(px * px + py * py, qx * qx + qy * qy) <= SAME_PLANE2)) return false;
    const length = this.#goAlong(px, py, qx, qy, weight);
    const ux = this.#ux;
    const uy = this.#uy;
    const left = px - west;
    const below = py - south;
    let column = Math.floor(left / size);
    let row = Math.floor(below / size);
    // a piece whose small cells no edge goes through, and its cell
    let begin = 0;
    let first = -1;
    for (let at = 0; at < length; ) {
      const nextColumn = ux === 0 ? Infinity : ((ux > 0 ? column + 1 : column) * size - left) / ux;
      const nextRow = uy === 0 ? Infinity : ((uy > 0 ? row + 1 : row) * size - below) / uy;
      const next = Math.min(Math.max(at, Math.min(nextColumn, nextRow)), length);
      // no edge is near to a place outside of all cells
      const isOut = column < 0 || column >= columns || row < 0 || row >= rows;
      const isHeld = !isOut && held[row * columns + column] === 1;
      if (isHeld) this.#inside.add(this.#scale * (next - at));
      const entry = isOut || isHeld ? -1 : cells.firstAt(column, row);
      if (entry !== first) {
        if (first >= 0) this.#addInCell(cells, first, begin, at);
        first = entry;
        begin = at;
      }
      if (nextColumn <= nextRow) column += ux > 0 ? 1 : -1;
      else row += uy > 0 ? 1 : -1;
      at = next;
    }
    if (first >= 0) this.#addInCell(cells, first, begin, length);
    return true;
  }

  /** Adds a piece of the edge at hand, to which only the edges of one cell can be near. */
  #addInCell({ xs, ys, others, nexts }: PlaneCells, first: number, start: number, stop: number): void {
    const px = this.#px;
    const py = this.#py;
    const ux = this.#ux;
    const uy = this.#uy;
    const low = this.#low;
    const most = this.#most;
    const seen = this.#seen;
    let from = start;
    let to = stop;
    seen.count = 0;
    for (let entry = first; entry >= 0; entry = nexts[entry]) {
      const other = others[entry];
      const ax = xs[other] - px;
      const ay = ys[other] - py;
      const bx = xs[other + 1] - px;
      const by = ys[other + 1] - py;
      const y0 = ay * ux - ax * uy;
      const y = by * ux - bx * uy;
      if ((y0 > most && y > most) || (y0 < -most && y < -most)) continue;
      const x0 = ax * ux + ay * uy;
      const x = bx * ux + by * uy;
      if ((x0 < from - most && x < from - most) || (x0 > to + most && x > to + most)) continue;
      const at = seen.count;
      seen.add(other, x0, y0, x, y);
      seen.reach(at, low);
      if (seen.from <= from && seen.to > from) from = seen.to;
      if (seen.to >= to && seen.from < to) to = seen.from;
      if (!(from < to)) {
        this.#inside.add(this.#scale * (stop - start));
        return;
      }
    }
    this.#inside.add(this.#scale * (stop - to + (from - start)));
    this.#divide(from, to, 0, this.#listAll(), Infinity);
  }

  #listAll(): number {
    for (let k = 0; k < this.#seen.count; k++) this.#list[k] = k;
    return this.#seen.count;
  }

  /** Sees one edge of the other line. */
  #take(other: number): void {
    const view = this.#view;
    const { vertices, gap } = this.#near.curve;
    if (gap?.[other] === 1) return;
    const ux = this.#ux;
    const uy = this.#uy;
    view.see(vertices, other);
    const ax = view.x - this.#px;
    const ay = view.y - this.#py;
    view.see(vertices, other + 1);
    const bx = view.x - this.#px;
    const by = view.y - this.#py;
    this.#seen.add(other, ax * ux + ay * uy, ay * ux - ax * uy, bx * ux + by * uy, by * ux - bx * uy);
  }

  /**
   * Passes over what of the piece at hand is within the lower width from either end on; false where nothing is left. Else the edges
   * listed that are nearest to its ends bound how far any place of it is.
   */
  #trim(begin: number, end: number): boolean {
    const seen = this.#seen;
    const list = this.#list;
    const low = this.#low;
    const low2 = low * low;
    for (;;) {
      const from = this.#from;
      const to = this.#to;
      let first = -1;
      let last = -1;
      let leastFrom = Infinity;
      let leastTo = Infinity;
      for (let k = begin; k < end; k++) {
        const at = list[k];
        const a = seen.squaredFrom(at, from);
        const b = seen.squaredFrom(at, to);
        this.#squaredFroms[at] = a;
        this.#squaredTos[at] = b;
        if (a < leastFrom) {
          leastFrom = a;
          first = at;
        }
        if (b < leastTo) {
          leastTo = b;
          last = at;
        }
      }
      if (leastFrom <= low2) {
        seen.reach(first, low);
        this.#from = Math.min(Math.max(from, seen.to), to);
      }
      if (leastTo <= low2) {
        seen.reach(last, low);
        this.#to = Math.max(Math.min(to, seen.from), from);
      }
      if (!(this.#from < this.#to)) {
        this.#inside.add(this.#scale * (to - from));
        this.#last = seen.edges[last];
        return false;
      }
      const passed = this.#from - from + (to - this.#to);
      this.#inside.add(this.#scale * passed);
      if (passed > NOTHING) continue;
      const length = this.#to - this.#from;
      this.#ofHigh.take(this.#high * this.#high, this.#high * this.#high, length);
      if (first >= 0) {
        this.#ofFirst.take(leastFrom, this.#squaredTos[first], length);
        this.#ofLast.take(this.#squaredFroms[last], leastTo, length);
        this.#last = seen.edges[last];
      } else {
        this.#ofFirst.take(Infinity, Infinity, length);
        this.#ofLast.take(Infinity, Infinity, length);
      }
      return true;
    }
  }

  #canBeNearer(squaredFrom: number, squaredTo: number): boolean {
    return !(
      this.#ofFirst.excludes(squaredFrom, squaredTo) ||
      this.#ofLast.excludes(squaredFrom, squaredTo) ||
      this.#ofHigh.excludes(squaredFrom, squaredTo)
    );
  }

  /** Of the edges listed, keeps those that can be the nearest somewhere on the piece at hand: where they end. */
  #keep(begin: number, end: number): number {
    const list = this.#list;
    let kept = begin;
    for (let k = begin; k < end; k++) {
      if (this.#canBeNearer(this.#squaredFroms[list[k]], this.#squaredTos[list[k]])) list[kept++] = list[k];
    }
    return kept;
  }

  /** Sees all edges but one that can be the nearest somewhere on the piece at hand; false where one holds it within the lower width. */
  #find(edge: number, length: number, guess: number): boolean {
    const { boxes, edges, gap } = this.#near.curve;
    const { vertices } = this.#curve;
    const place = this.#place;
    const from = this.#from;
    const to = this.#to;
    vertices.between(edge, from / length, place);
    const sx = place[0];
    const sy = place[1];
    const sz = place[2];
    vertices.between(edge, to / length, place);
    const ex = place[0];
    const ey = place[1];
    const ez = place[2];
    const px = this.#px;
    const py = this.#py;
    const ux = this.#ux;
    const uy = this.#uy;
    const low2 = this.#low * this.#low;
    const seen = this.#seen;
    const columns = this.#columns;
    const leafBoxes = this.#leafBoxes;
    let most = this.#mostAway();
    for (let k = 0; k < this.#leafCount; k++) {
      const box = 6 * k;
      const west = leafBoxes[box];
      const south = leafBoxes[box + 1];
      const low = leafBoxes[box + 2];
      const east = leafBoxes[box + 3];
      const north = leafBoxes[box + 4];
      const high = leafBoxes[box + 5];
      // chords, which are no longer than the distances
      const sdx = sx < west ? west - sx : sx > east ? sx - east : 0;
      const sdy = sy < south ? south - sy : sy > north ? sy - north : 0;
      const sdz = sz < low ? low - sz : sz > high ? sz - high : 0;
      const edx = ex < west ? west - ex : ex > east ? ex - east : 0;
      const edy = ey < south ? south - ey : ey > north ? ey - north : 0;
      const edz = ez < low ? low - ez : ez > high ? ez - high : 0;
      if (!this.#canBeNearer(sdx * sdx + sdy * sdy + sdz * sdz, edx * edx + edy * edy + edz * edz)) continue;
      const node = this.#leaves[k];
      if (!this.#isShown[k]) this.#show(k);
      const end = Math.min(boxes.endEdge(node), edges);
      let at = LEAF * k;
      let x = (columns[at] - px) * ux + (columns[at + 1] - py) * uy;
      let y = (columns[at + 1] - py) * ux - (columns[at] - px) * uy;
      for (let other = boxes.firstEdge(node); other < end; other++) {
        const x0 = x;
        const y0 = y;
        at += 2;
        const vx = columns[at] - px;
        const vy = columns[at + 1] - py;
        x = vx * ux + vy * uy;
        y = vy * ux - vx * uy;
        if ((y0 > most && y > most) || (y0 < -most && y < -most)) continue;
        if ((x0 < from - most && x < from - most) || (x0 > to + most && x > to + most)) continue;
        if (gap?.[other] === 1 || other === guess) continue;
        const a = squaredToEdge(x0 - from, y0, x - from, y);
        const b = squaredToEdge(x0 - to, y0, x - to, y);
        if (!this.#canBeNearer(a, b)) continue;
        this.#squaredFroms[seen.count] = a;
        this.#squaredTos[seen.count] = b;
        seen.add(other, x0, y0, x, y);
        if (a <= low2 && b <= low2) {
          this.#inside.add(this.#scale * (to - from));
          this.#last = other;
          return false;
        }
        const isFirst = a < this.#ofFirst.squaredFrom;
        const isLast = b < this.#ofLast.squaredTo;
        if (isFirst) this.#ofFirst.take(a, b, to - from);
        if (isLast) {
          this.#ofLast.take(a, b, to - from);
          this.#last = other;
        }
        if (isFirst || isLast) most = this.#mostAway();
      }
    }
    return true;
  }

  /** No place of the piece at hand is so far off and yet between the widths. */
  #mostAway(): number {
    const { squaredFrom, squaredTo } = this.#ofFirst;
    const ofLast = Math.max(this.#ofLast.squaredFrom, this.#ofLast.squaredTo);
    return Math.min(this.#most, Math.sqrt(Math.min(Math.max(squaredFrom, squaredTo), ofLast)));
  }

  /** Adds a piece to which only the edges listed can be near, of which there were so many when it was twice as long. */
  #divide(start: number, stop: number, begin: number, end: number, before: number): void {
    this.#from = start;
    this.#to = stop;
    if (this.#trim(begin, end)) this.#settle(begin, this.#keep(begin, end), before);
  }

  /** Adds the piece at hand, when its ends are trimmed and the edges listed are those to keep. */
  #settle(begin: number, end: number, before: number): void {
    const list = this.#list;
    const from = this.#from;
    const to = this.#to;
    const count = end - begin;
    // of edges that lie on each other there will be no fewer
    if (count <= FEW || count >= before || to - from <= NOTHING) {
      if (count > 0) this.#draw(from, to, begin, end);
      return;
    }
    const middle = (from + to) / 2;
    for (let k = 0; k < count; k++) list[end + k] = list[begin + k];
    this.#divide(from, middle, end, end + count, count);
    this.#divide(middle, to, begin, end, count);
  }

  /** Draws the least distance to the edges listed along a piece, and notes it down. */
  #draw(from: number, to: number, begin: number, end: number): void {
    if (this.#isNarrow) {
      const within = this.#within(this.#low, from, to, begin, end);
      this.#inside.add(this.#scale * within);
      this.#between += this.#scale * (this.#within(this.#high, from, to, begin, end) - within);
      return;
    }
    const seen = this.#seen;
    const { px, py, qx, qy } = seen;
    const list = this.#list;
    // most often all of it is nearest to one vertex, or to the inside of one edge
    let k = begin;
    while (k < end && seen.follows(list[begin], list[k], from, to)) k++;
    if (k === end) {
      this.#note(from, to, seen.bend, seen.foot, seen.rest, this.#scale);
      return;
    }
    const envelope = this.#envelope;
    // what lies beyond the upper width counts for nothing
    if (k > begin) envelope.begin(from, to, seen.rest, seen.bend, seen.foot);
    else envelope.begin(from, to, this.#most ** 2);
    for (; k < end; k++) {
      const at = list[k];
      envelope.lowerTo(px[at], py[at], qx[at], qy[at]);
    }
    const { count, froms, bends, feet, rests } = envelope;
    for (k = 0; k < count; k++) {
      if (froms[k + 1] > froms[k]) this.#note(froms[k], froms[k + 1], bends[k], feet[k], rests[k], this.#scale);
    }
  }

  /** How much of a piece is within a width of the edges listed. */
  #within(width: number, from: number, to: number, begin: number, end: number): number {
    const seen = this.#seen;
    const froms = this.#heldFroms;
    const tos = this.#heldTos;
    let count = 0;
    for (let k = begin; k < end; k++) {
      seen.reach(this.#list[k], width);
      if (!(seen.from < to && seen.to > from)) continue;
      let at = count++;
      for (; at > 0 && froms[at - 1] > seen.from; at--) {
        froms[at] = froms[at - 1];
        tos[at] = tos[at - 1];
      }
      froms[at] = seen.from;
      tos[at] = seen.to;
    }
    let within = 0;
    let reached = from;
    for (let k = 0; k < count; k++) {
      const next = Math.min(tos[k], to);
      if (next <= reached) continue;
      within += next - Math.max(reached, froms[k]);
      reached = next;
    }
    return within;
  }
}

/** What part of itself so great a distance may be off by. */
function shareOf(distance: number): number {
  return distance > FARTHER ? FARTHER_SHARE : FAR_SHARE;
}
