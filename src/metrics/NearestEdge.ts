import { ECCENTRICITY2 } from '../geodesy/ellipsoid';
import type { Curve } from './Curve';
import type { EdgeBoxes } from './EdgeBoxes';
import { surfaceDistance } from './surfaceDistance';

// Up to 1 km the curvature of a mean sphere turns an offset in the tangent plane into a distance: 0.04 µm.
const NEAR2 = 1000 ** 2;
const CURVATURE2_3 = 1 / (3 * 6_371_000 ** 2);

// Farther than this a straight foot and a geodesic one differ: 0.1 µm of distance.
const STRAIGHT2 = 100_000 ** 2;
const RADIUS2 = 6_371_000 ** 2;

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

  constructor(readonly curve: Curve) {
    this.#boxes = curve.boxes;
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
    const ax = x[edge] - this.#px;
    const ay = y[edge] - this.#py;
    const az = z[edge] - this.#pz;
    const ex = x[edge + 1] - x[edge];
    const ey = y[edge + 1] - y[edge];
    const ez = z[edge + 1] - z[edge];
    const length2 = ex * ex + ey * ey + ez * ez;
    const along = -(ax * ex + ay * ey + az * ez);
    const fraction = !(along > 0) ? 0 : along >= length2 ? 1 : along / length2;
    this.fraction = fraction;
    let fx = ax + fraction * ex;
    let fy = ay + fraction * ey;
    let fz = az + fraction * ez;
    const chord2 = fx * fx + fy * fy + fz * fz;
    if (chord2 >= NEAR2) return this.#measureFar(edge, chord2, length2);
    // into the plane that touches the ellipsoid at the point: the chord's depth under the edge drops out
    const up = fx * this.#nx + fy * this.#ny + fz * this.#nz;
    fx -= up * this.#nx;
    fy -= up * this.#ny;
    fz -= up * this.#nz;
    const offset2 = fx * fx + fy * fy + fz * fz;
    return offset2 * (1 + offset2 * CURVATURE2_3);
  }

  #measureFar(edge: number, chord2: number, length2: number): number {
    const { vertices } = this.curve;
    const { x, y, z } = vertices;
    if (chord2 <= STRAIGHT2) {
      const place = this.#place;
      vertices.between(edge, this.fraction, place);
      return surfaceDistance(this.#px, this.#py, this.#pz, place[0], place[1], place[2]) ** 2;
    }
    // the squared distance is a parabola along so short an edge: from both ends, and the curvature x cot x across
    const start = surfaceDistance(this.#px, this.#py, this.#pz, x[edge], y[edge], z[edge]);
    const end = surfaceDistance(this.#px, this.#py, this.#pz, x[edge + 1], y[edge + 1], z[edge + 1]);
    const turn = Math.sqrt(chord2 / RADIUS2);
    const angle = 2 * Math.asin(Math.min(1, turn / 2));
    const bend = angle / Math.tan(angle);
    const across = bend * length2;
    const fraction = across > 0 ? 0.5 + ((start - end) * (start + end)) / (2 * across) : start <= end ? 0 : 1;
    this.fraction = Math.min(1, Math.max(0, fraction));
    if (!(fraction > 0)) return start * start;
    if (!(fraction < 1)) return end * end;
    return start * start - fraction * fraction * across;
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

  /** Walks along the line from a guess while the edges come nearer. */
  walk(guess: number): void {
    const last = this.curve.edges - 1;
    this.offer(guess);
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
      const left = this.#boxes.squaredDistance(2 * node, this.#px, this.#py, this.#pz);
      const right = this.#boxes.squaredDistance(2 * node + 1, this.#px, this.#py, this.#pz);
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

  /** All edges whose squared distance from the point is at most `limit`, in the order of the line. */
  within(limit: number): number[] {
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
      } else {
        nodes[top++] = 2 * node + 1;
        nodes[top++] = 2 * node;
      }
    }
    return found;
  }
}
