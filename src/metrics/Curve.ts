import { EdgeBoxes, type Vertices } from '../index';

/**
 * No edge of a {@link Curve} is longer, in metres. Its chord runs up to 20 mm under the surface; what a distance to it leaves
 * out of that is below 1e-7 m (test/metrics/NearestEdge.test.ts holds it).
 */
export const MAX_EDGE = 1000;

/**
 * A line ready to be measured as a set of points: earth-centred vertices, edge `i` from vertex `i` to `i + 1`, every edge
 * short, and those that were not travelled marked. A vertex that no edge would touch stands twice, as an edge of length 0.
 */
export class Curve {
  #boxes?: EdgeBoxes;

  constructor(
    readonly vertices: Vertices,
    /** No chord of an edge is longer: metres. */
    readonly longest: number,
    /** 1 where the edge that starts at a vertex is none; absent where all are edges. */
    readonly gap?: Uint8Array,
  ) {}

  /** The tree over its edges, built when first asked for. */
  get boxes(): EdgeBoxes {
    this.#boxes ??= new EdgeBoxes(this.vertices, this.longest);
    return this.#boxes;
  }

  get edges(): number {
    return this.vertices.count - 1;
  }
}
