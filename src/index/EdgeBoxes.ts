import { ECCENTRICITY2, SEMI_MAJOR } from '../geodesy';
import type { Vertices } from './Vertices';

/** Edges in a leaf: fewer cost memory, more cost measuring. */
const LEAF_BITS = 3;

// Largest radius of curvature, a² / b, at the poles. By Schur's comparison theorem no surface distance is shorter than the
// one its chord has on a sphere of this radius.
const LARGEST_RADIUS = SEMI_MAJOR / Math.sqrt(1 - ECCENTRICITY2);
const SMALLEST_RADIUS = SEMI_MAJOR * (1 - ECCENTRICITY2);
const CURVED2 = 10_000 ** 2;
const FARTHER2 = 100_000 ** 2;

/**
 * An R-tree over the edges of a curve, packed in the order of the line: a binary tree of earth-centred boxes over runs of 8
 * edges, 12 to 24 bytes an edge. The order of a line is a good packing, as its edges follow each other in space.
 *
 * Node 1 is the root, nodes `2 n` and `2 n + 1` are the children of `n`; nodes from `leaves` on are leaves.
 */
export class EdgeBoxes {
  readonly leaves: number;
  /** Six numbers a node: least x, y, z, greatest x, y, z. */
  readonly #boxes: Float64Array;
  readonly #vertices: Vertices;

  /** Of vertices whose edges have chords of at most `longest` metres. */
  constructor(vertices: Vertices, longest: number) {
    this.#vertices = vertices;
    const { x, y, z } = vertices;
    const edges = vertices.count - 1;
    const runs = ((edges - 1) >> LEAF_BITS) + 1;
    // how far an edge rises over its chord, at most
    const rise = longest ** 2 / (8 * SMALLEST_RADIUS);
    this.leaves = 2 ** Math.ceil(Math.log2(runs));
    const boxes = new Float64Array(12 * this.leaves);
    this.#boxes = boxes;
    for (let node = 2 * this.leaves - 1; node >= 1; node--) {
      const at = 6 * node;
      if (node < this.leaves) {
        for (let k = 0; k < 3; k++) {
          boxes[at + k] = Math.min(boxes[2 * at + k], boxes[2 * at + 6 + k]);
          boxes[at + 3 + k] = Math.max(boxes[2 * at + 3 + k], boxes[2 * at + 9 + k]);
        }
        continue;
      }
      let [west, south, low, east, north, high] = [Infinity, Infinity, Infinity, -Infinity, -Infinity, -Infinity];
      const first = (node - this.leaves) << LEAF_BITS;
      const last = Math.min(first + (1 << LEAF_BITS), edges);
      for (let i = first; i <= last && first < edges; i++) {
        if (x[i] < west) west = x[i];
        if (x[i] > east) east = x[i];
        if (y[i] < south) south = y[i];
        if (y[i] > north) north = y[i];
        if (z[i] < low) low = z[i];
        if (z[i] > high) high = z[i];
      }
      boxes[at] = west - rise;
      boxes[at + 1] = south - rise;
      boxes[at + 2] = low - rise;
      boxes[at + 3] = east + rise;
      boxes[at + 4] = north + rise;
      boxes[at + 5] = high + rise;
    }
  }

  /** The leaf that holds an edge. */
  leafOf(edge: number): number {
    return this.leaves + (edge >> LEAF_BITS);
  }

  /** The last leaf under a node; itself where it is one. */
  lastLeaf(node: number): number {
    let last = node;
    while (last < this.leaves) last = 2 * last + 1;
    return last;
  }

  /** First edge of a leaf. */
  firstEdge(leaf: number): number {
    return (leaf - this.leaves) << LEAF_BITS;
  }

  /** One past the last edge of a leaf, were the line long enough. */
  endEdge(leaf: number): number {
    return (leaf - this.leaves + 1) << LEAF_BITS;
  }

  /**
   * No squared distance from a point to an edge within the node is less than this; infinite where there is none.
   *
   * @param radius - metres, of a sphere on which distances over 100 km are compared, if they are
   */
  squaredDistance(node: number, px: number, py: number, pz: number, radius?: number): number {
    return this.squaredGap(node, px, py, pz, px, py, pz, radius);
  }

  /** The same from a box, given by its least x, y, z and its greatest. */
  squaredGap(
    node: number,
    west: number,
    south: number,
    low: number,
    east: number,
    north: number,
    high: number,
    radius?: number,
  ): number {
    const boxes = this.#boxes;
    const at = 6 * node;
    const dx = Math.max(boxes[at] - east, west - boxes[at + 3], 0);
    const dy = Math.max(boxes[at + 1] - north, south - boxes[at + 4], 0);
    const dz = Math.max(boxes[at + 2] - high, low - boxes[at + 5], 0);
    const chord2 = dx * dx + dy * dy + dz * dz;
    if (!(chord2 > CURVED2 && chord2 < Infinity)) return chord2;
    const across = 2 * (radius !== undefined && chord2 > FARTHER2 ? radius : LARGEST_RADIUS);
    return (across * Math.asin(Math.min(1, Math.sqrt(chord2) / across))) ** 2 * (1 - 1e-12);
  }

  /** Copies the least x, y, z of a node, and the greatest, into a column. */
  copyBox(node: number, into: number[], at: number): void {
    for (let k = 0; k < 6; k++) into[at + k] = this.#boxes[6 * node + k];
  }

  /** The first vertex from `vertex` on whose chord to the point is over the limit; the count of vertices where none is. */
  firstBeyond(vertex: number, px: number, py: number, pz: number, chord2: number): number {
    const { x, y, z, count } = this.#vertices;
    let at = vertex;
    let node = this.leafOf(at);
    while (node > 0 && at < count) {
      if (node < this.leaves) {
        // a node reached from its left neighbour, beginning at `at`
        if (!(this.#farthest(node, px, py, pz) <= chord2)) {
          node *= 2;
          continue;
        }
        at = this.endEdge(this.lastLeaf(node));
      } else {
        const end = Math.min(this.endEdge(node), count);
        for (; at < end; at++) {
          const dx = x[at] - px;
          const dy = y[at] - py;
          const dz = z[at] - pz;
          if (dx * dx + dy * dy + dz * dz > chord2) return at;
        }
      }
      // to the right neighbour, as large a node as begins there
      while ((node & 1) === 1) node >>= 1;
      if (node > 0) node++;
    }
    return count;
  }

  /** Squared chord from a point to the farthest corner of a node. */
  #farthest(node: number, px: number, py: number, pz: number): number {
    const boxes = this.#boxes;
    const at = 6 * node;
    const dx = Math.max(px - boxes[at], boxes[at + 3] - px);
    const dy = Math.max(py - boxes[at + 1], boxes[at + 4] - py);
    const dz = Math.max(pz - boxes[at + 2], boxes[at + 5] - pz);
    return dx * dx + dy * dy + dz * dz;
  }
}
