import { addByCells } from './addByCells';
import { BandPieces } from './BandPieces';
import { bulge } from './bulge';
import type { Curve } from './Curve';
import { EdgeInPlane } from './EdgeInPlane';
import { FarEdges } from './FarEdges';
import type { NearestEdge } from './NearestEdge';
import type { PlaneCells } from './PlaneCells';
import { shareOf } from './shareOf';

/** Metres from which on a step along the other line is as dear as measuring an edge of it. */
const FAR = 1000;

/** Edges no longer than this, metres, are as far off everywhere. */
const POINT = 2e-6;

/**
 * The places of a line by their distance from another: how much is within a lower width, and the pieces that lie between it
 * and an upper width.
 *
 * No distance changes faster than the way goes: from a vertex well within the lower width, or well over the upper, all edges
 * are passed over that so much way settles. Any other is seen in a plane, or where it is short against its distance, measured.
 */
export class DistanceBand {
  readonly pieces: BandPieces;
  readonly #curve: Curve;
  readonly #near: NearestEdge;
  readonly #far: FarEdges;
  readonly #inPlane: EdgeInPlane;
  readonly #cells?: PlaneCells;

  /**
   * @param enough - Metres: between widths no further apart, it isn't told how far a place is.
   * @param cells - Those of the other line.
   */
  constructor(curve: Curve, near: NearestEdge, low: number, high: number, enough: number, cells: PlaneCells) {
    const pieces = new BandPieces(low, high, enough);
    this.pieces = pieces;
    this.#curve = curve;
    this.#near = near;
    this.#far = new FarEdges(curve, near, pieces);
    this.#inPlane = new EdgeInPlane(curve, near, pieces);
    if (cells.columns > 0 && cells.low <= low && cells.high >= pieces.most) this.#cells = cells;
  }

  /** Takes in the edges of the line, those with a weight. */
  add(weights: Float64Array): void {
    const { vertices, gap, edges, longest } = this.#curve;
    const near = this.#near;
    const pieces = this.pieces;
    const { low, high } = pieces;
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
        if (weight > 0 && length <= inside) pieces.hold(weight);
        else if (weight > 0 && length <= between) pieces.leave(weight);
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
      const way = this.#far.change.over(length);
      inside = this.#far.change.wayOf(low - to);
      between = isLeast && pieces.isNarrow ? this.#far.change.wayOf(Math.min(to - low, high - to)) : -1;
      outside = isLeast ? this.#far.change.wayOf(to - high) : -1;
      if ((from + to + way) / 2 <= low) pieces.hold(weight);
      else if (wasLeast && isLeast && (from + to - way) / 2 > high) continue;
      // the distance from one edge is convex: both ends near enough to it
      else if (this.#isHeld(i, edgeBefore, squaredBefore, edge, squared, limit)) pieces.hold(weight);
      else if (length <= POINT) {
        // points are counted, and so short an edge has no direction that rounding leaves it
        pieces.note(0, 1, 0, 0, this.#far.distanceAt(i, 0.5, edge) ** 2, weight);
      } else if (isStraight) this.#far.add(i, length, weight, edgeBefore, edge);
      else {
        const isDrawn = this.#addEdge(i, weight, drawn === i ? this.#inPlane.last : edgeBefore);
        drawn = isDrawn ? i + 1 : -1;
      }
    }
  }

  /** Adds an edge in its plane, the other being near to its start; whether it took more than that one. */
  #addEdge(edge: number, weight: number, guess: number): boolean {
    const inPlane = this.#inPlane;
    inPlane.last = guess;
    const cells = this.#cells;
    if (cells && addByCells(inPlane, this.pieces, this.#curve.vertices, cells, edge, weight)) return false;
    return inPlane.add(edge, weight, guess);
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

  #moveTo(vertex: number): void {
    const { x, y, z } = this.#curve.vertices;
    this.#near.moveTo(x[vertex], y[vertex], z[vertex]);
  }
}
