import type { BandPieces } from './BandPieces';
import { bulge } from './bulge';
import { ChangeAlong } from './ChangeAlong';
import type { Curve } from './Curve';
import type { NearestEdge } from './NearestEdge';
import { shareOf } from './shareOf';

/** Where a piece of an edge begins, 0 to 1, how many metres off that is and from which edge; and the same of its end. */
type Straight = readonly [number, number, number, number, number, number];

/** Edges of a line so far from the other, against their length, that the distance is measured at places of them and straight between. */
export class FarEdges {
  readonly change: ChangeAlong;
  readonly #curve: Curve;
  readonly #near: NearestEdge;
  readonly #pieces: BandPieces;
  readonly #place = new Float64Array(3);

  constructor(curve: Curve, near: NearestEdge, pieces: BandPieces) {
    this.#curve = curve;
    this.#near = near;
    this.#pieces = pieces;
    this.change = new ChangeAlong(pieces.low);
  }

  /** Adds an edge of so many metres; `before` and `edge` are near to its ends. */
  add(i: number, length: number, weight: number, before: number, edge: number): void {
    const nearFrom = this.distanceAt(i, 0, before);
    const first = this.#near.edge;
    const nearTo = this.distanceAt(i, 1, edge);
    this.#addStraight(i, length, weight / length, [0, nearFrom, first, 1, nearTo, this.#near.edge]);
  }

  /** Metres of a place of an edge from the other line. */
  distanceAt(edge: number, fraction: number, guess: number): number {
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
    const way = this.change.over(size);
    const least = (from + to - way) / 2 - sag;
    if (Math.min((from + to + way) / 2, Math.max(from, to) + excess) + sag <= this.#pieces.low) {
      this.#pieces.hold(scale * size);
      return;
    }
    if (least > this.#pieces.high) return;
    if (
      this.#pieces.isNarrow &&
      least > this.#pieces.low &&
      Math.max(from, to) + Math.min(excess, size) + sag <= this.#pieces.high
    ) {
      this.#pieces.leave(scale * size);
      return;
    }
    const apart = Math.min(Math.abs(to - from), size);
    const middle = (begin + end) / 2;
    const isStraight = Math.min(excess, size - apart) + sag + size ** 2 / (8 * least) <= shareOf(least) * least;
    if (isStraight || !(middle > begin && middle < end)) {
      const slope = (to - from) / size;
      const at = begin * length;
      if (slope === 0) this.#pieces.note(at, end * length, 0, 0, from * from, scale);
      else this.#pieces.note(at, end * length, slope * slope, at - from / slope, 0, scale);
      return;
    }
    const there = this.distanceAt(edge, middle, nearFrom);
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
}
