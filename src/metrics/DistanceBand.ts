import { Sum } from '../geodesy';
import { bulge } from './bulge';
import type { Curve } from './Curve';
import { LowerEnvelope } from './LowerEnvelope';
import type { NearestEdge } from './NearestEdge';
import { PlaneView } from './PlaneView';

/** Up to 100 km a distance may be off by this part of itself, farther apart by {@link FARTHER_SHARE}. */
const FAR_SHARE = 1e-7;
const FARTHER_SHARE = 1e-5;
const FARTHER = 100_000;

/** Metres from which on a step along the other line is as dear as measuring an edge of it. */
const FAR = 1000;

/** Of so few edges the least distance is soon drawn; where more come near a piece, halves of it may have fewer. */
const FEW_EDGES = 12;

/** A piece longer than so many times what it can be away is halved without a look at what is nearest to its middle. */
const LONG = 4;

/** Distances up to this much over a width count as within, metres: ten times the last bits of earth-centred coordinates. */
const TOLERANCE = 1e-8;

/** So many edges of the line, by their logarithm, are a run: what may be near to one of them is looked for together. */
const RUN_BITS = 3;

/** So many edges, one after the other, are tried for holding one within the lower width. */
const STEPS = 16;

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
 * are passed over that so much way settles. Any other is seen in the plane that touches the ellipsoid at its middle, in which
 * the other line lies at its true distance and direction. The edges that can come near it are looked for once; halves of it
 * take over those that reach there, until one holds all of a half within the lower width, none comes within the upper, or so
 * few are left that the least of their distances is drawn.
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
  readonly #place = new Float64Array(3);
  readonly #view = new PlaneView();
  // the edges near to either end of a stretch, and metres from there to each
  #first = 0;
  #last = 0;
  #firstFrom = Number.NaN;
  #firstTo = Number.NaN;
  #lastFrom = Number.NaN;
  #lastTo = Number.NaN;
  // edges found; what of the axis is within the lower width of each, and what within the most that any place is away; lists of
  // them, one behind the other
  readonly #found: number[] = [];
  readonly #innerFroms: number[] = [];
  readonly #innerTos: number[] = [];
  readonly #outerFroms: number[] = [];
  readonly #outerTos: number[] = [];
  readonly #list: number[] = [];
  readonly #nodes = new Int32Array(128);
  // the leaves near the run of edges at hand
  readonly #leaves: number[] = [];
  #leafCount = 0;
  #run = -1;

  /** @param enough - Metres: between widths no further apart, it isn't told how far a place is. */
  constructor(curve: Curve, near: NearestEdge, low: number, high: number, enough: number) {
    this.#isNarrow = high - low <= enough;
    this.#curve = curve;
    this.#near = near;
    this.#low = low;
    this.#high = high;
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
    const settle = (vertex: number, isSought: boolean) => {
      isLeast = false;
      squared = isFar ? Infinity : vertices.squaredDistance(vertex, others, edge);
      if (squared > limit && !isFar) {
        edge = vertices.hop(vertex, others, edge);
        squared = vertices.squaredDistance(vertex, others, edge);
      }
      if (squared <= limit) return;
      this.#moveTo(vertex);
      near.offer(edge);
      near.walk();
      if (isSought && near.squared > low2) near.search(low2);
      edge = near.edge;
      squared = near.squared;
      isLeast = isSought && squared > low2;
    };
    const high2 = isFar ? -1 : (high - bulge(longest, high)) ** 2;
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
        else if (weight > 0 && length <= between) this.#noteBetween(length, weight);
        inside -= length;
        between -= length;
        outside -= length;
        continue;
      }
      // where edges are much longer than the width it says little whether their ends are within
      const isSought = length <= LONG * low;
      if (settled !== i) settle(i, isSought);
      const edgeBefore = edge;
      const squaredBefore = squared;
      const wasLeast = isLeast;
      settle(i + 1, isSought);
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
      } else if (8 * shareOf(low) * low * low > length * length) {
        const nearFrom = this.#distanceAt(i, 0, edgeBefore);
        const first = near.edge;
        const nearTo = this.#distanceAt(i, 1, edge);
        this.#addStraight(i, length, weight / length, [0, nearFrom, first, 1, nearTo, near.edge]);
      } else {
        this.#view.lookFrom(vertices, i);
        if (
          this.#isNarrow &&
          this.#isHeld(i, edgeBefore, squaredBefore, edge, squared, high2) &&
          this.#isOver(i, length)
        ) {
          this.#noteBetween(length, weight);
        } else this.#addEdge(i, length, weight, edgeBefore, edge, isSought);
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
    let most = 0;
    for (let k = 0; k < this.#froms.length; k++) {
      const farther = Math.max(Math.abs(this.#froms[k] - this.#feet[k]), Math.abs(this.#tos[k] - this.#feet[k]));
      most = Math.max(most, this.#bends[k] * farther * farther + this.#rests[k]);
    }
    return Math.sqrt(most);
  }

  /** The weight of a piece. */
  pieceWeight(piece: number): number {
    return this.#scales[piece] * (this.#tos[piece] - this.#froms[piece]);
  }

  /** How much of it is within a width. */
  pieceWithin(piece: number, width: number): number {
    const room = (width + TOLERANCE) ** 2 - this.#rests[piece];
    if (room < 0) return 0;
    const bend = this.#bends[piece];
    const half = bend > 0 ? Math.sqrt(room / bend) : Infinity;
    const foot = this.#feet[piece];
    const from = Math.max(this.#froms[piece], foot - half);
    const to = Math.min(this.#tos[piece], foot + half);
    return to > from ? this.#scales[piece] * (to - from) : 0;
  }

  #moveTo(vertex: number): void {
    const { x, y, z } = this.#curve.vertices;
    this.#near.moveTo(x[vertex], y[vertex], z[vertex]);
  }

  /** Whether no edge comes within the lower width of the one that is looked from. */
  #isOver(edge: number, length: number): boolean {
    this.#firstFrom = this.#firstTo = this.#lastFrom = this.#lastTo = this.#low;
    return this.#find(edge, 0, length, this.#low) === 0;
  }

  #addEdge(edge: number, length: number, weight: number, first: number, last: number, isSought: boolean): void {
    const view = this.#view;
    const others = this.#near.curve.vertices;
    const scale = weight / length;
    this.#first = first;
    this.#last = last;
    const from = isSought ? this.#heldFrom(edge, length) : 0;
    const to = isSought && from < length ? this.#heldTo(edge, length, from) : length;
    this.#inside.add(scale * (length - to + from));
    if (!(from < to)) return;
    view.see(others, this.#first);
    this.#firstFrom = Math.sqrt(view.squaredFrom(from));
    this.#firstTo = Math.sqrt(view.squaredFrom(to));
    view.see(others, this.#last);
    this.#lastFrom = Math.sqrt(view.squaredFrom(from));
    this.#lastTo = Math.sqrt(view.squaredFrom(to));
    const ofFirst = Math.max(this.#firstFrom, this.#firstTo);
    const most = Math.min(this.#high, ofFirst, Math.max(this.#lastFrom, this.#lastTo)) + TOLERANCE;
    const count = this.#find(edge, from, to, most);
    if (count < 0) this.#inside.add(scale * (to - from));
    else this.#divide(from, to, scale, most, 0, count);
  }

  /** As far as an edge is within the lower width from its start on, by one edge after the other; the next one is noted. */
  #heldFrom(edge: number, length: number): number {
    let at = 0;
    for (let step = 0; step < STEPS; step++) {
      this.#view.see(this.#near.curve.vertices, this.#first);
      this.#view.reach(this.#low);
      if (!(this.#view.from <= at && this.#view.to > at + NOTHING)) return at;
      at = this.#view.to;
      if (at >= length) return length;
      this.#first = this.#nextAt(edge, at / length, this.#first);
    }
    return at;
  }

  /** The same from its end back. */
  #heldTo(edge: number, length: number, from: number): number {
    let at = length;
    for (let step = 0; step < STEPS; step++) {
      this.#view.see(this.#near.curve.vertices, this.#last);
      this.#view.reach(this.#low);
      if (!(this.#view.to >= at && this.#view.from < at - NOTHING)) return at;
      at = this.#view.from;
      if (at <= from) return from;
      this.#last = this.#nextAt(edge, at / length, this.#last);
    }
    return at;
  }

  /** An edge well within the lower width of a place, or the nearest. */
  #nextAt(edge: number, fraction: number, guess: number): number {
    const near = this.#near;
    const place = this.#place;
    const enough = 0.8 * this.#low * this.#low;
    this.#curve.vertices.between(edge, fraction, place);
    near.moveTo(place[0], place[1], place[2]);
    near.offer(guess);
    near.walk();
    if (near.squared > enough) near.search(enough);
    return near.edge;
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
      this.#noteBetween(size, scale * size);
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

  /** Notes a stretch that is somewhere between the widths. */
  #noteBetween(length: number, weight: number): void {
    this.#note(0, length, 0, 0, this.#high * this.#high, weight / length);
  }

  /** A piece and the square of the distance along it. */
  #note(from: number, to: number, bend: number, foot: number, rest: number, scale: number): void {
    const farther = Math.max(Math.abs(from - foot), Math.abs(to - foot));
    if (bend * farther * farther + rest <= this.#low * this.#low) {
      this.#inside.add(scale * (to - from));
      return;
    }
    const nearer = foot < from ? from - foot : foot > to ? foot - to : 0;
    if (bend * nearer * nearer + rest > (this.#high + TOLERANCE) ** 2) return;
    this.#froms.push(from);
    this.#tos.push(to);
    this.#bends.push(bend);
    this.#feet.push(foot);
    this.#rests.push(rest);
    this.#scales.push(scale);
  }

  /**
   * Whether something so far from the one end of an edge and from the other can be nearer to a place of it than the two edges
   * are: it nears no faster than the way goes, and the distance from an edge lies under the straight line between its ends.
   */
  #canBeNearer(from: number, to: number, length: number): boolean {
    const least = (from + to - length) / 2;
    const share = Math.min(1, Math.max(0, (from - to + length) / (2 * length)));
    const first = this.#firstFrom + share * (this.#firstTo - this.#firstFrom);
    const last = this.#lastFrom + share * (this.#lastTo - this.#lastFrom);
    return least <= Math.min(first, last, this.#high) * (1 + FAR_SHARE) + ROOM;
  }

  /** Lists the edges that can come nearer to one than the two do, or are those; -1 where one holds it within the lower width. */
  #find(edge: number, from: number, to: number, most: number): number {
    const { boxes, edges, gap, vertices: others } = this.#near.curve;
    const view = this.#view;
    const low = this.#low;
    const reach = most * (1 + 2 * FAR_SHARE) + ROOM;
    const length = to - from;
    const place = this.#place;
    this.#curve.vertices.between(edge, from / view.length, place);
    const ax = place[0];
    const ay = place[1];
    const az = place[2];
    this.#curve.vertices.between(edge, to / view.length, place);
    const bx = place[0];
    const by = place[1];
    const bz = place[2];
    let count = 0;
    const leaves = this.#leavesNear(edge);
    for (let k = 0; k < leaves; k++) {
      const node = this.#leaves[k];
      const start = boxes.squaredDistance(node, ax, ay, az);
      const end = boxes.squaredDistance(node, bx, by, bz);
      if (!this.#canBeNearer(Math.sqrt(start), Math.sqrt(end), length)) continue;
      const last = Math.min(boxes.endEdge(node), edges);
      for (let other = boxes.firstEdge(node); other < last; other++) {
        if (gap?.[other] === 1) continue;
        view.see(others, other);
        if (view.isBeside(from, to, reach)) continue;
        if (!this.#canBeNearer(Math.sqrt(view.squaredFrom(from)), Math.sqrt(view.squaredFrom(to)), length)) continue;
        view.reach(reach);
        if (!(view.from <= to && view.to >= from)) continue;
        this.#outerFroms[count] = view.from;
        this.#outerTos[count] = view.to;
        view.reach(low);
        if (view.from <= from && view.to >= to) return -1;
        this.#innerFroms[count] = view.from;
        this.#innerTos[count] = view.to;
        this.#found[count] = other;
        this.#list[count] = count;
        count++;
      }
    }
    return count;
  }

  /** Finds the leaves of the other line that come within the upper width of any of the edges of a run: how many. */
  #leavesNear(edge: number): number {
    const run = edge >> RUN_BITS;
    if (run === this.#run) return this.#leafCount;
    this.#run = run;
    const { vertices, edges } = this.#curve;
    const { boxes } = this.#near.curve;
    const nodes = this.#nodes;
    const first = run << RUN_BITS;
    const last = Math.min(first + (1 << RUN_BITS), edges);
    // a ball about its middle vertex
    const middle = (first + last) >> 1;
    let radius2 = 0;
    for (let i = first; i <= last; i++) radius2 = Math.max(radius2, vertices.squaredDistance(i, vertices, middle));
    const px = vertices.x[middle];
    const py = vertices.y[middle];
    const pz = vertices.z[middle];
    const limit = ((Math.sqrt(radius2) + this.#high) * STRETCH + ROOM) ** 2;
    this.#leafCount = 0;
    let top = 0;
    nodes[top++] = 1;
    while (top > 0) {
      const node = nodes[--top];
      if (!(boxes.squaredDistance(node, px, py, pz) <= limit)) continue;
      if (node >= boxes.leaves) {
        if (boxes.firstEdge(node) < this.#near.curve.edges) this.#leaves[this.#leafCount++] = node;
      } else {
        nodes[top++] = 2 * node + 1;
        nodes[top++] = 2 * node;
      }
    }
    return this.#leafCount;
  }

  /** Adds a piece no place of which is farther than `most`, near to which come the edges listed from `begin` to `end`. */
  #divide(start: number, stop: number, scale: number, most: number, begin: number, end: number): void {
    const list = this.#list;
    const froms = this.#innerFroms;
    const tos = this.#innerTos;
    // what is within the lower width from either end on
    let from = start;
    let to = stop;
    for (let k = begin; k < end; k++) {
      const at = list[k];
      if (froms[at] <= from && tos[at] > from) from = tos[at];
      if (tos[at] >= to && froms[at] < to) to = froms[at];
    }
    if (!(from < to)) {
      this.#inside.add(scale * (stop - start));
      return;
    }
    this.#inside.add(scale * (stop - to + (from - start)));
    const length = to - from;
    // of edges that lie on each other there will be no fewer
    if (end - begin <= FEW_EDGES || length <= most / LONG ** 2 || length <= NOTHING) {
      this.#addPieces(from, to, scale, begin, end);
      return;
    }
    const middle = (from + to) / 2;
    const nearest = length > LONG * most ? -1 : this.#nearestTo(middle, begin, end);
    this.#divideHalf(from, middle, scale, most, begin, end, nearest);
    this.#divideHalf(middle, to, scale, most, begin, end, nearest);
  }

  #divideHalf(from: number, to: number, scale: number, most: number, begin: number, end: number, near: number): void {
    const list = this.#list;
    const froms = this.#outerFroms;
    const tos = this.#outerTos;
    let at = end;
    for (let k = begin; k < end; k++) if (froms[list[k]] <= to && tos[list[k]] >= from) list[at++] = list[k];
    if (near < 0) {
      if (at > end) this.#divide(from, to, scale, most, end, at);
      return;
    }
    const view = this.#view;
    const others = this.#near.curve.vertices;
    view.see(others, near);
    const nearFrom = Math.sqrt(view.squaredFrom(from));
    const nearTo = Math.sqrt(view.squaredFrom(to));
    const least = Math.min(most, Math.max(nearFrom, nearTo));
    let kept = end;
    this.#firstFrom = this.#lastFrom = nearFrom;
    this.#firstTo = this.#lastTo = nearTo;
    for (let k = end; k < at; k++) {
      view.see(others, this.#found[list[k]]);
      if (this.#canBeNearer(Math.sqrt(view.squaredFrom(from)), Math.sqrt(view.squaredFrom(to)), to - from))
        list[kept++] = list[k];
    }
    if (kept > end) this.#divide(from, to, scale, least, end, kept);
  }

  /** Of the edges listed, the one nearest to a place. */
  #nearestTo(place: number, begin: number, end: number): number {
    let least = Infinity;
    let nearest = -1;
    for (let k = begin; k < end; k++) {
      const edge = this.#found[this.#list[k]];
      this.#view.see(this.#near.curve.vertices, edge);
      const squared = this.#view.squaredFrom(place);
      if (squared < least) {
        least = squared;
        nearest = edge;
      }
    }
    return nearest;
  }

  /** Adds what the lower widths of the edges listed cover of a piece together, and draws what is left between. */
  #addPieces(from: number, to: number, scale: number, begin: number, end: number): void {
    const list = this.#list;
    const froms = this.#innerFroms;
    const tos = this.#innerTos;
    let next = to;
    for (let at = from; at < to; at = next) {
      let reached = at;
      next = to;
      for (let k = begin; k < end; k++) {
        const edge = list[k];
        if (froms[edge] > reached + NOTHING) next = Math.min(next, froms[edge]);
        else if (tos[edge] > reached) {
          // what was not reached before may be now
          reached = tos[edge];
          next = to;
          k = begin - 1;
        }
      }
      this.#inside.add((Math.min(reached, to) - at) * scale);
      if (reached < to) this.#draw(reached, next, scale, begin, end);
    }
  }

  /** Draws the least distance to the edges listed along a piece, and notes it down. */
  #draw(from: number, to: number, scale: number, begin: number, end: number): void {
    const envelope = this.#envelope;
    const view = this.#view;
    // beyond the upper width
    envelope.begin(from, to, (this.#high * (1 + 2 * FAR_SHARE) + ROOM) ** 2);
    for (let k = begin; k < end; k++) {
      const at = this.#list[k];
      if (!(this.#outerFroms[at] < to && this.#outerTos[at] > from)) continue;
      view.see(this.#near.curve.vertices, this.#found[at]);
      envelope.lowerTo(view);
    }
    const { count, froms, bends, feet, rests } = envelope;
    for (let k = 0; k < count; k++) {
      if (froms[k + 1] > froms[k]) this.#note(froms[k], froms[k + 1], bends[k], feet[k], rests[k], scale);
    }
  }
}

/** What part of itself so great a distance may be off by. */
function shareOf(distance: number): number {
  return distance > FARTHER ? FARTHER_SHARE : FAR_SHARE;
}
