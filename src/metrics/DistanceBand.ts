import { Sum } from '../geodesy';
import { bulge } from './bulge';
import type { Curve } from './Curve';
import { LowerEnvelope } from './LowerEnvelope';
import type { NearestEdge } from './NearestEdge';
import { PlaneView } from './PlaneView';

/** Farther apart, a distance may be off by this part of itself. */
const FAR_SHARE = 1e-7;

/** Times its length: from an edge this far off, the distance runs straight along it to within {@link FAR_SHARE}. */
const STRAIGHT = Math.sqrt(1 / (8 * FAR_SHARE));

/** So many edges of the other line are soon measured; where more come near a piece, halves of it may have fewer. */
const FEW_EDGES = 64;

/** A piece longer than so many times what it can be away is soonest halved. */
const LONG = 4;

/** Distances up to this much over a width count as within, metres: ten times the last bits of earth-centred coordinates. */
const TOLERANCE = 1e-8;

/** Pieces no longer than this, metres, are nothing. */
const NOTHING = 1e-9;

/**
 * The places of a line by their distance from another: how much is within a lower width, and the pieces that lie between it
 * and an upper width, each with the distance along it as a function.
 *
 * An edge is seen in the plane that touches the ellipsoid at its middle, in which the other line lies at its true distance and
 * direction. What is within the lower width of an edge near to one of its ends is cut away; of what is left the edges that
 * come within the upper width are looked for, and the least of their distances is drawn. Where too many do, it is halved.
 */
export class DistanceBand {
  readonly #curve: Curve;
  readonly #near: NearestEdge;
  readonly #low: number;
  readonly #high: number;
  readonly #inside = new Sum();
  readonly #envelope = new LowerEnvelope();
  // pieces between the widths: where on the edge, the distance, and weight a metre
  readonly #froms: number[] = [];
  readonly #tos: number[] = [];
  readonly #bends: number[] = [];
  readonly #feet: number[] = [];
  readonly #rests: number[] = [];
  readonly #scales: number[] = [];
  // the distance of a vertex, where it has been asked for, and the edge it was measured to
  readonly #distances: Float64Array;
  readonly #edges: Int32Array;
  readonly #place = new Float64Array(3);
  readonly #view = new PlaneView();
  // the part of a piece that is within the lower width of an edge
  #from = 0;
  #to = 0;
  // metres from the ends of a piece to the edges near to either, and what no place of it is farther than
  #firstFrom = 0;
  #firstTo = 0;
  #lastFrom = 0;
  #lastTo = 0;
  #reach = 0;
  // edges found, their number held apart
  readonly #found: number[] = [];
  #count = 0;
  readonly #nodes = new Int32Array(128);

  constructor(curve: Curve, near: NearestEdge, low: number, high: number) {
    this.#curve = curve;
    this.#near = near;
    this.#low = low;
    this.#high = high;
    this.#distances = new Float64Array(curve.edges + 1).fill(Number.NaN);
    this.#edges = new Int32Array(curve.edges + 1);
  }

  /** What is within the lower width. */
  get inside(): number {
    return this.#inside.value;
  }

  /** Takes in the edges of the line, those with a weight. */
  add(weights: Float64Array): void {
    const { vertices, edges } = this.#curve;
    const others = this.#near.curve.vertices;
    const low = this.#low;
    const isFar = low > 1000;
    const limitFor = (length: number) => {
      const limit = low - bulge(length, low);
      return limit > 0 ? limit * limit : -1;
    };
    const limit = limitFor(this.#curve.longest);
    let near = 0;
    let nearBefore = 0;
    let squared = Infinity;
    let squaredBefore = Infinity;
    for (let i = 0; i <= edges; i++) {
      nearBefore = near;
      squaredBefore = squared;
      if (isFar) {
        this.#moveTo(i);
        this.#near.offer(near);
        this.#near.walk();
        near = this.#near.edge;
        squared = this.#near.squared;
      } else {
        squared = vertices.squaredDistance(i, others, near);
        if (squared > limit) {
          near = vertices.hop(i, others, near);
          squared = vertices.squaredDistance(i, others, near);
        }
      }
      if (i === 0 || weights[i - 1] === 0) continue;
      // most edges are settled by a vertex, or an edge: both ends near enough to it
      if (squared <= limit) {
        const before =
          near === nearBefore ? squaredBefore : isFar ? Infinity : vertices.squaredDistance(i - 1, others, near);
        if (before <= limit) {
          this.#inside.add(weights[i - 1]);
          continue;
        }
      }
      this.#addEdge(i - 1, weights[i - 1], nearBefore, near);
    }
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

  /** Metres of a vertex from the other line; the edge is noted. */
  #distanceAt(vertex: number, guess: number): number {
    if (Number.isNaN(this.#distances[vertex])) {
      this.#moveTo(vertex);
      this.#near.offer(guess);
      this.#near.walk();
      this.#near.search(0);
      this.#distances[vertex] = Math.sqrt(this.#near.squared);
      this.#edges[vertex] = this.#near.edge;
    }
    return this.#distances[vertex];
  }

  #addEdge(edge: number, weight: number, guessFrom: number, guessTo: number): void {
    const length = Math.sqrt(this.#curve.vertices.chord2(edge));
    if (length === 0) {
      // points are counted
      this.#note(0, 1, 0, 0, this.#distanceAt(edge, guessFrom) ** 2, weight);
      return;
    }
    if (this.#low > STRAIGHT * length && this.#isStraight(edge, length, weight, guessFrom, guessTo)) return;
    this.#view.lookFrom(this.#curve.vertices, edge);
    const near = this.#near;
    const scale = weight / length;
    const stack: number[] = [0, length, this.#edgeAt(edge, guessFrom), this.#edgeAt(edge + 1, guessTo)];
    while (stack.length > 0) {
      const last = stack.pop()!;
      const first = stack.pop()!;
      const end = stack.pop()!;
      const begin = stack.pop()!;
      this.#cover(first, begin, end);
      const [a, b] = [this.#from, this.#to];
      let [c, d] = [end, end];
      if (last !== first) {
        this.#cover(last, begin, end);
        [c, d] = [this.#from, this.#to];
      }
      // up to three gaps are left
      const [one, two] = a <= c ? [a, c] : [c, a];
      const [oneEnd, twoEnd] = a <= c ? [b, d] : [d, b];
      let at = begin;
      let covered = end - begin;
      for (let gap = 0; gap < 3; gap++) {
        const from = at;
        const to = gap === 0 ? one : gap === 1 ? two : end;
        at = Math.max(at, gap === 0 ? oneEnd : gap === 1 ? twoEnd : end);
        if (!(to - from > NOTHING)) continue;
        covered -= to - from;
        const middle = (from + to) / 2;
        if (to - from <= LONG * this.#reachOf(first, last, from, to)) {
          const isShort = to - from <= this.#reach / LONG;
          if (this.#find(edge, from, to, isShort ? Infinity : FEW_EDGES)) {
            this.#draw(from, to, scale);
            continue;
          }
        }
        this.#curve.vertices.between(edge, middle / length, this.#place);
        near.moveTo(this.#place[0], this.#place[1], this.#place[2]);
        near.offer(first);
        near.offer(last);
        near.walk();
        if (near.squared > this.#low * this.#low) near.search(this.#low * this.#low);
        if (Math.sqrt(near.squared) * (1 - FAR_SHARE) - (to - from) / 2 > this.#high) continue;
        stack.push(from, middle, first, near.edge, middle, to, near.edge, last);
      }
      this.#inside.add(covered * scale);
    }
  }

  /** An edge near to a vertex: the nearest of a short walk, or of all if that is over the lower width. */
  #edgeAt(vertex: number, guess: number): number {
    this.#moveTo(vertex);
    this.#near.offer(guess);
    this.#near.walk();
    if (this.#near.squared > this.#low * this.#low) this.#near.search(this.#low * this.#low);
    return this.#near.edge;
  }

  /** Notes an edge far off down, if the distance along it runs straight. */
  #isStraight(edge: number, length: number, weight: number, guessFrom: number, guessTo: number): boolean {
    const [from, to] = [this.#distanceAt(edge, guessFrom), this.#distanceAt(edge + 1, guessTo)];
    let excess = 0;
    if (this.#edges[edge] !== this.#edges[edge + 1]) {
      this.#moveTo(edge + 1);
      const over = Math.sqrt(this.#near.measure(this.#edges[edge])) - to;
      this.#moveTo(edge);
      excess = Math.max(0, Math.min(over, Math.sqrt(this.#near.measure(this.#edges[edge + 1])) - from));
    }
    const apart = Math.min(Math.abs(to - from), length);
    const sag = bulge(length, Math.max(from, to));
    const least = (from + to - length) / 2 - sag;
    if (Math.min((from + to + length) / 2, Math.max(from, to) + excess) + sag <= this.#low) this.#inside.add(weight);
    else if (least <= this.#high) {
      if (Math.min(excess, length - apart) + sag + length ** 2 / (8 * least) > FAR_SHARE * least) return false;
      const slope = (to - from) / length;
      if (slope === 0) this.#note(0, length, 0, 0, from * from, weight / length);
      else this.#note(0, length, slope * slope, -from / slope, 0, weight / length);
    }
    return true;
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

  /** How far the places of a piece can be from two edges, ends and all; at most the upper width. */
  #reachOf(first: number, last: number, from: number, to: number): number {
    const [view, vertices] = [this.#view, this.#near.curve.vertices];
    view.see(vertices, first);
    this.#firstFrom = Math.sqrt(view.squaredFrom(from));
    this.#firstTo = Math.sqrt(view.squaredFrom(to));
    view.see(vertices, last);
    this.#lastFrom = Math.sqrt(view.squaredFrom(from));
    this.#lastTo = Math.sqrt(view.squaredFrom(to));
    this.#reach = Math.min(
      this.#high,
      Math.max(this.#firstFrom, this.#firstTo),
      Math.max(this.#lastFrom, this.#lastTo),
    );
    return this.#reach;
  }

  /**
   * Whether something so far from the one end of a piece and from the other can be nearer to a place of it than the two edges
   * are: it nears no faster than the way goes, and the distance from an edge lies under the straight line between its ends.
   */
  #canBeNearer(from: number, to: number, length: number): boolean {
    const least = (from + to - length) / 2;
    const share = Math.min(1, Math.max(0, (from - to + length) / (2 * length)));
    const first = this.#firstFrom + share * (this.#firstTo - this.#firstFrom);
    const last = this.#lastFrom + share * (this.#lastTo - this.#lastFrom);
    return least <= Math.min(first, last, this.#high) * (1 + FAR_SHARE) + 1e-6;
  }

  /** Finds the edges that can come nearer to a piece than the two do, or are those; none if they are more than so many. */
  #find(edge: number, from: number, to: number, most: number): boolean {
    const { vertices } = this.#curve;
    const { boxes, edges, gap, vertices: others } = this.#near.curve;
    const [view, place, nodes, found, length] = [this.#view, this.#place, this.#nodes, this.#found, to - from];
    vertices.between(edge, from / view.length, place);
    const [ax, ay, az] = place;
    vertices.between(edge, to / view.length, place);
    const [bx, by, bz] = place;
    this.#count = 0;
    let top = 0;
    nodes[top++] = 1;
    while (top > 0) {
      const node = nodes[--top];
      const start = boxes.squaredDistance(node, ax, ay, az);
      if (!(start < Infinity)) continue;
      if (!this.#canBeNearer(Math.sqrt(start), Math.sqrt(boxes.squaredDistance(node, bx, by, bz)), length)) continue;
      if (node < boxes.leaves) {
        nodes[top++] = 2 * node + 1;
        nodes[top++] = 2 * node;
        continue;
      }
      const end = Math.min(boxes.endEdge(node), edges);
      for (let other = boxes.firstEdge(node); other < end; other++) {
        if (gap?.[other] === 1) continue;
        view.see(others, other);
        if (!this.#canBeNearer(Math.sqrt(view.squaredFrom(from)), Math.sqrt(view.squaredFrom(to)), length)) continue;
        if (this.#count === most) return false;
        found[this.#count++] = other;
      }
    }
    return true;
  }

  /** The part of a piece within the lower width of an edge; none, at its end, where there is none. */
  #cover(edge: number, begin: number, end: number): void {
    const view = this.#view;
    view.see(this.#near.curve.vertices, edge);
    view.reach(this.#low);
    const from = Math.max(begin, view.from);
    const to = Math.min(end, view.to);
    this.#from = from < to ? from : end;
    this.#to = from < to ? to : end;
  }

  /** Draws the least distance to the edges found along a piece, and notes it down. */
  #draw(from: number, to: number, scale: number): void {
    if (this.#count === 0) return;
    const [envelope, view] = [this.#envelope, this.#view];
    // none is farther, or it lies beyond the upper width
    envelope.begin(from, to, (this.#reach * (1 + 2 * FAR_SHARE) + 1e-6) ** 2);
    for (let k = 0; k < this.#count; k++) {
      view.see(this.#near.curve.vertices, this.#found[k]);
      envelope.lowerTo(view);
    }
    const { count, froms, bends, feet, rests } = envelope;
    for (let k = 0; k < count; k++) {
      if (froms[k + 1] > froms[k]) this.#note(froms[k], froms[k + 1], bends[k], feet[k], rests[k], scale);
    }
  }
}
