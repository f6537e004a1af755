import type { Curve } from './Curve';
import { PlaneView } from './PlaneView';

/** So many edges of the line, and no more than so many metres of it, are a run: they are seen in one plane. */
const RUN = 8;
const RUN_REACH2 = 150 ** 2;

/** Numbers of a leaf that is seen: two a vertex. */
export const LEAF = 18;

/** A run of edges of a line in a plane, and the leaves of another line's tree that come near to it. */
export class NearLeaves {
  readonly view = new PlaneView();
  /** The first edge of the run, and where its vertices lie in the plane. */
  begin = 0;
  readonly xs = new Float64Array(RUN + 1);
  readonly ys = new Float64Array(RUN + 1);
  /** How many leaves, their nodes, six bounds of each, and whether its vertices are in `columns`, two numbers each. */
  count = 0;
  readonly leaves: number[] = [];
  readonly boxes: number[] = [];
  readonly isShown: boolean[] = [];
  readonly columns: number[] = [];
  readonly #curve: Curve;
  readonly #other: Curve;
  readonly #most: number;
  #end = 0;
  readonly #nodes = new Int32Array(128);
  readonly #place = new Float64Array(3);

  /** @param most - Metres: leaves farther off are passed over. */
  constructor(curve: Curve, other: Curve, most: number) {
    this.#curve = curve;
    this.#other = other;
    this.#most = most;
  }

  /** Sees a run of edges in a plane, from one on: which leaves of the other line come within the upper width of them. */
  lookFrom(edge: number): void {
    if (edge >= this.begin && edge < this.#end) return;
    const { vertices, edges, gap } = this.#curve;
    const { x, y, z } = vertices;
    let longest2 = vertices.chord2(edge);
    let end = edge + 1;
    while (end < edges && end < edge + RUN && gap?.[end] !== 1 && longest2 <= RUN_REACH2) {
      if (vertices.squaredDistance(edge, vertices, end + 1) > RUN_REACH2) break;
      longest2 = Math.max(longest2, vertices.chord2(end));
      end++;
    }
    this.begin = edge;
    this.#end = end;
    const view = this.view;
    vertices.between((edge + end) >> 1, end === edge + 1 ? 0.5 : 0, this.#place);
    view.lookFrom(this.#place[0], this.#place[1], this.#place[2]);
    let [west, south, low, east, north, high] = [Infinity, Infinity, Infinity, -Infinity, -Infinity, -Infinity];
    for (let i = edge; i <= end; i++) {
      view.see(vertices, i);
      this.xs[i - edge] = view.x;
      this.ys[i - edge] = view.y;
      west = Math.min(west, x[i]);
      south = Math.min(south, y[i]);
      low = Math.min(low, z[i]);
      east = Math.max(east, x[i]);
      north = Math.max(north, y[i]);
      high = Math.max(high, z[i]);
    }
    const { boxes, edges: others } = this.#other;
    const nodes = this.#nodes;
    // and as much as an edge rises over its chord
    const limit = (this.#most + longest2 / (8 * 6.3e6)) ** 2;
    this.count = 0;
    let top = 0;
    nodes[top++] = 1;
    while (top > 0) {
      const node = nodes[--top];
      if (!(boxes.squaredGap(node, west, south, low, east, north, high) <= limit)) continue;
      if (node < boxes.leaves) {
        nodes[top++] = 2 * node + 1;
        nodes[top++] = 2 * node;
      } else if (boxes.firstEdge(node) < others) {
        this.isShown[this.count] = false;
        boxes.copyBox(node, this.boxes, 6 * this.count);
        this.leaves[this.count++] = node;
      }
    }
  }

  /** Sees the vertices of a leaf. */
  show(k: number): void {
    const { boxes, edges, vertices } = this.#other;
    const node = this.leaves[k];
    const last = Math.min(boxes.endEdge(node), edges);
    let at = LEAF * k;
    for (let i = boxes.firstEdge(node); i <= last; i++) {
      this.view.see(vertices, i);
      this.columns[at++] = this.view.x;
      this.columns[at++] = this.view.y;
    }
    this.isShown[k] = true;
  }
}
