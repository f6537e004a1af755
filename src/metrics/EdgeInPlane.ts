import type { BandPieces } from './BandPieces';
import type { Curve } from './Curve';
import { LeastBound } from './LeastBound';
import { LowerEnvelope } from './LowerEnvelope';
import type { NearestEdge } from './NearestEdge';
import { LEAF, NearLeaves } from './NearLeaves';
import type { PlaneCells } from './PlaneCells';
import { SeenEdges } from './SeenEdges';
import { squaredToEdge } from './squaredToEdge';

/** Of so few edges the least distance is soon drawn; where more come near a piece, halves of it may have fewer. */
const FEW = 4;

/** Pieces no longer than this, metres, are nothing. */
const NOTHING = 1e-9;

/**
 * One edge of a line in a plane, in which the other line lies at its true distance and direction. What of it is within the lower
 * width from either end on is passed over; of what is left, halves take over the edges that can be the nearest somewhere,
 * until so few are left that the least of their distances is drawn.
 */
export class EdgeInPlane {
  /** An edge of the other line near to the end of the edge added last. */
  last = 0;
  readonly #curve: Curve;
  readonly #near: NearestEdge;
  readonly #pieces: BandPieces;
  readonly #leaves: NearLeaves;
  readonly #envelope = new LowerEnvelope();
  readonly #place = new Float64Array(3);
  // where it begins, its direction, and weight a metre
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

  constructor(curve: Curve, near: NearestEdge, pieces: BandPieces) {
    this.#curve = curve;
    this.#near = near;
    this.#pieces = pieces;
    this.#leaves = new NearLeaves(curve, near.curve, pieces.most);
  }

  /** Adds an edge, the other being near to its start; whether it took more than that one. */
  add(edge: number, weight: number, guess: number): boolean {
    this.last = guess;
    const leaves = this.#leaves;
    leaves.lookFrom(edge);
    if (leaves.count === 0) return false;
    const at = edge - leaves.begin;
    const { xs, ys } = leaves;
    const length = this.goAlong(xs[at], ys[at], xs[at + 1], ys[at + 1], weight);
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
  goAlong(px: number, py: number, qx: number, qy: number, weight: number): number {
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

  /** Adds a piece of the edge at hand, to which only the edges of one cell can be near. */
  addInCell({ xs, ys, others, nexts }: PlaneCells, first: number, start: number, stop: number): void {
    const px = this.#px;
    const py = this.#py;
    const ux = this.#ux;
    const uy = this.#uy;
    const low = this.#pieces.low;
    const most = this.#pieces.most;
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
        this.#pieces.hold(this.#scale * (stop - start));
        return;
      }
    }
    this.#pieces.hold(this.#scale * (stop - to + (from - start)));
    this.#divide(from, to, 0, this.#listAll(), Infinity);
  }

  #listAll(): number {
    for (let k = 0; k < this.#seen.count; k++) this.#list[k] = k;
    return this.#seen.count;
  }

  /** Sees one edge of the other line. */
  #take(other: number): void {
    const view = this.#leaves.view;
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
    const low = this.#pieces.low;
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
        this.#pieces.hold(this.#scale * (to - from));
        this.last = seen.edges[last];
        return false;
      }
      const passed = this.#from - from + (to - this.#to);
      this.#pieces.hold(this.#scale * passed);
      if (passed > NOTHING) continue;
      const length = this.#to - this.#from;
      this.#ofHigh.take(this.#pieces.high * this.#pieces.high, this.#pieces.high * this.#pieces.high, length);
      if (first >= 0) {
        this.#ofFirst.take(leastFrom, this.#squaredTos[first], length);
        this.#ofLast.take(this.#squaredFroms[last], leastTo, length);
        this.last = seen.edges[last];
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
    const leaves = this.#leaves;
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
    const low2 = this.#pieces.low * this.#pieces.low;
    const seen = this.#seen;
    const { columns } = leaves;
    const leafBoxes = leaves.boxes;
    let most = this.#mostAway();
    for (let k = 0; k < leaves.count; k++) {
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
      const node = leaves.leaves[k];
      if (!leaves.isShown[k]) leaves.show(k);
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
          this.#pieces.hold(this.#scale * (to - from));
          this.last = other;
          return false;
        }
        const isFirst = a < this.#ofFirst.squaredFrom;
        const isLast = b < this.#ofLast.squaredTo;
        if (isFirst) this.#ofFirst.take(a, b, to - from);
        if (isLast) {
          this.#ofLast.take(a, b, to - from);
          this.last = other;
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
    return Math.min(this.#pieces.most, Math.sqrt(Math.min(Math.max(squaredFrom, squaredTo), ofLast)));
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
    if (this.#pieces.isNarrow) {
      const within = this.#within(this.#pieces.low, from, to, begin, end);
      this.#pieces.hold(this.#scale * within);
      this.#pieces.leave(this.#scale * (this.#within(this.#pieces.high, from, to, begin, end) - within));
      return;
    }
    const seen = this.#seen;
    const { px, py, qx, qy } = seen;
    const list = this.#list;
    // most often all of it is nearest to one vertex, or to the inside of one edge
    let k = begin;
    while (k < end && seen.follows(list[begin], list[k], from, to)) k++;
    if (k === end) {
      this.#pieces.note(from, to, seen.bend, seen.foot, seen.rest, this.#scale);
      return;
    }
    const envelope = this.#envelope;
    // what lies beyond the upper width counts for nothing
    if (k > begin) envelope.begin(from, to, seen.rest, seen.bend, seen.foot);
    else envelope.begin(from, to, this.#pieces.most ** 2);
    for (; k < end; k++) {
      const at = list[k];
      envelope.lowerTo(px[at], py[at], qx[at], qy[at]);
    }
    const { count, froms, bends, feet, rests } = envelope;
    for (k = 0; k < count; k++) {
      if (froms[k + 1] > froms[k]) this.#pieces.note(froms[k], froms[k + 1], bends[k], feet[k], rests[k], this.#scale);
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
