import { ECCENTRICITY2, MEAN_RADIUS } from '../geodesy';
import { type EdgeBoxes, surfaceDistance } from '../index';
import type { Curve } from './Curve';

// Up to 1 km, and for edges up to 1 km long, the curvature of a mean sphere does: 0.05 µm.
const NEAR = 1000;
const NEAR2 = NEAR ** 2;
const CURVATURE2 = 1 / MEAN_RADIUS ** 2;

// Farther than this a straight foot and a geodesic one differ: 0.1 µm of distance.
const STRAIGHT2 = 100_000 ** 2;

// A guess is worth so many edges of walking; farther off, the tree is quicker.
const MAX_WALK = 24;

/**
 * The edge of a curve nearest to a point: a walk along the line from a first guess, then the tree, best box first.
 *
 * Answers are left in the fields, so that a hot loop allocates nothing.
 */
export class NearestEdge {
  /** Least squared distance found for the present point, square metres. */
  squared = Infinity;
  /** The edge it was found on. */
  edge = 0;
  /** Where on the edge last measured the foot lies, 0 at its start, 1 at its end. */
  fraction = Number.NaN;

  readonly #boxes: EdgeBoxes;
  readonly #onSphere: boolean;
  readonly #radius?: number;
  readonly #nodes = new Int32Array(128);
  readonly #bounds = new Float64Array(128);
  readonly #place = new Float64Array(3);
  // the point, and the normal of the ellipsoid there
  #px = 0;
  #py = 0;
  #pz = 0;
  #nx = 0;
  #ny = 0;
  #nz = 0;

  /** @param far - How places over 100 km away are compared: exactly, or as on a sphere, 1e-5 of the distance and twenty times as fast. */
  constructor(
    readonly curve: Curve,
    far: 'exact' | 'sphere' = 'exact',
  ) {
    this.#boxes = curve.boxes;
    this.#onSphere = far === 'sphere';
    if (this.#onSphere) this.#radius = MEAN_RADIUS;
  }

  /** Takes a new point of the surface. */
  moveTo(px: number, py: number, pz: number): void {
    this.#px = px;
    this.#py = py;
    this.#pz = pz;
    const steep = pz / (1 - ECCENTRICITY2);
    const scale = 1 / Math.sqrt(px * px + py * py + steep * steep);
    this.#nx = px * scale;
    this.#ny = py * scale;
    this.#nz = steep * scale;
    this.squared = Infinity;
  }

  /** Squared distance from the point to one edge; infinite where the edge is a gap. */
  measure(edge: number): number {
    const { gap } = this.curve;
    if (gap !== undefined && gap[edge] === 1) return Infinity;
    const { x, y, z } = this.curve.vertices;
    const nx = this.#nx;
    const ny = this.#ny;
    const nz = this.#nz;
    let ax = x[edge] - this.#px;
    let ay = y[edge] - this.#py;
    let az = z[edge] - this.#pz;
    let ex = x[edge + 1] - x[edge];
    let ey = y[edge + 1] - y[edge];
    let ez = z[edge + 1] - z[edge];
    // into the plane that touches the ellipsoid at the point
    const up = ax * nx + ay * ny + az * nz;
    ax -= up * nx;
    ay -= up * ny;
    az -= up * nz;
    const rise = ex * nx + ey * ny + ez * nz;
    ex -= rise * nx;
    ey -= rise * ny;
    ez -= rise * nz;
    const length2 = ex * ex + ey * ey + ez * ez;
    const along = -(ax * ex + ay * ey + az * ez);
    const fraction = !(along > 0) ? 0 : along >= length2 ? 1 : along / length2;
    this.fraction = fraction;
    const fx = ax + fraction * ex;
    const fy = ay + fraction * ey;
    const fz = az + fraction * ez;
    const offset2 = fx * fx + fy * fy + fz * fz;
    // behind the globe the plane is wrong, but up is far down
    if (offset2 >= NEAR2 || up + fraction * rise < -NEAR) return this.#measureFar(edge);
    // the edge rises over its chord along its own normal, which leans out from the point's by offset / R; and the way on
    // the surface is longer than the offset
    return offset2 * (1 + (fraction * (1 - fraction) * length2 + offset2 / 3) * CURVATURE2);
  }

  #measureFar(edge: number): number {
    const { vertices } = this.curve;
    const { x, y, z } = vertices;
    const length2 = vertices.chord2(edge);
    const dx = x[edge] - this.#px;
    const dy = y[edge] - this.#py;
    const dz = z[edge] - this.#pz;
    const chord2 = dx * dx + dy * dy + dz * dz;
    let fraction = 0;
    if (chord2 <= STRAIGHT2 || this.#onSphere) {
      const ex = x[edge + 1] - x[edge];
      const ey = y[edge + 1] - y[edge];
      const ez = z[edge + 1] - z[edge];
      fraction = length2 > 0 ? -(dx * ex + dy * ey + dz * ez) / length2 : 0;
    } else {
      // the squared distance is about a parabola along so short an edge: from both ends, and the curvature x cot x across
      const start = surfaceDistance(this.#px, this.#py, this.#pz, x[edge], y[edge], z[edge]);
      const end = surfaceDistance(this.#px, this.#py, this.#pz, x[edge + 1], y[edge + 1], z[edge + 1]);
      const angle = start / MEAN_RADIUS;
      const across = (angle / Math.tan(angle)) * length2;
      fraction = across > 0 ? 0.5 + ((start - end) * (start + end)) / (2 * across) : start <= end ? 0 : 1;
    }
    this.fraction = Math.min(1, Math.max(0, fraction));
    // near the foot the distance hardly changes: it is that of the place itself
    const place = this.#place;
    vertices.between(edge, this.fraction, place);
    if (this.#onSphere && chord2 > STRAIGHT2) {
      const chord = Math.hypot(place[0] - this.#px, place[1] - this.#py, place[2] - this.#pz);
      return (2 * MEAN_RADIUS * Math.asin(Math.min(1, chord / (2 * MEAN_RADIUS)))) ** 2;
    }
    return surfaceDistance(this.#px, this.#py, this.#pz, place[0], place[1], place[2]) ** 2;
  }

  /** Measures one edge and keeps it if it is nearer than what was found. */
  offer(edge: number): number {
    const squared = this.measure(edge);
    if (squared < this.squared) {
      this.squared = squared;
      this.edge = edge;
    }
    return squared;
  }

  /** Walks along the line from the edge found so far while the edges come nearer. */
  walk(): void {
    const last = this.curve.edges - 1;
    for (const step of [1, -1]) {
      let edge = this.edge + step;
      for (let count = 0; count < MAX_WALK && edge >= 0 && edge <= last; count++, edge += step) {
        if (!(this.offer(edge) === this.squared)) break;
      }
    }
  }

  /** Looks through the whole line for anything nearer than what was found; may stop once it is within `enough`. */
  search(enough: number): void {
    const nodes = this.#nodes;
    const bounds = this.#bounds;
    const { edges } = this.curve;
    let top = 0;
    nodes[0] = 1;
    bounds[0] = 0;
    top = 1;
    while (top > 0) {
      const node = nodes[--top];
      if (bounds[top] >= this.squared) continue;
      if (node >= this.#boxes.leaves) {
        const end = Math.min(this.#boxes.endEdge(node), edges);
        for (let edge = this.#boxes.firstEdge(node); edge < end; edge++) this.offer(edge);
        if (this.squared <= enough) return;
        continue;
      }
      const left = this.#boxes.squaredDistance(2 * node, this.#px, this.#py, this.#pz, this.#radius);
      const right = this.#boxes.squaredDistance(2 * node + 1, this.#px, this.#py, this.#pz, this.#radius);
      const leftFirst = left <= right ? 1 : 0;
      // the nearer one on top
      if (Math.max(left, right) < this.squared) {
        nodes[top] = 2 * node + leftFirst;
        bounds[top++] = Math.max(left, right);
      }
      if (Math.min(left, right) < this.squared) {
        nodes[top] = 2 * node + 1 - leftFirst;
        bounds[top++] = Math.min(left, right);
      }
    }
  }

  /** All edges whose squared distance from the point is at most `limit`, in the order of the line; none if over `most`. */
  within(limit: number): number[];
  within(limit: number, most: number): number[] | undefined;
  within(limit: number, most = Infinity): number[] | undefined {
    const nodes = this.#nodes;
    const found: number[] = [];
    let top = 0;
    nodes[top++] = 1;
    while (top > 0) {
      const node = nodes[--top];
      if (!(this.#boxes.squaredDistance(node, this.#px, this.#py, this.#pz) <= limit)) continue;
      if (node >= this.#boxes.leaves) {
        const end = Math.min(this.#boxes.endEdge(node), this.curve.edges);
        for (let edge = this.#boxes.firstEdge(node); edge < end; edge++) {
          if (this.measure(edge) <= limit) found.push(edge);
        }
        if (found.length > most) return undefined;
      } else {
        nodes[top++] = 2 * node + 1;
        nodes[top++] = 2 * node;
      }
    }
    return found;
  }
}
