import { ECCENTRICITY2, MEAN_RADIUS } from '../geodesy';
import { bulge } from './bulge';
import type { NearestEdge } from './NearestEdge';
import { Spans } from './Spans';

/** Metres up to which distances are those of the plane that touches the ellipsoid at the piece. */
const NEAR = 1000;

/** Farther apart, a distance may be off by this part of itself. */
const FAR_SHARE = 1e-7;

/** So many edges of the other line are soon measured; where more come near a piece, halves of it may have fewer. */
export const FEW_EDGES = 24;

/** Distances up to this much over a width count as within, metres: ten times the last bits of earth-centred coordinates. */
const TOLERANCE = 1e-8;

/** The end of a piece: a place of the tested line, its distance from the other one and the edge it was measured to. */
export interface PieceEnd {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly fraction: number;
  readonly distance: number;
  readonly near: number;
}

/**
 * A piece of an edge, short enough to be straight, with the least and the greatest distance it can have from another line.
 *
 * No distance changes faster than the way along the piece; and as the distance to one edge is convex along it, it is
 * nowhere farther from the other line than its ends are from an edge that is near to one of them.
 */
export class DistancePiece {
  /** Metres. */
  readonly length: number;
  readonly least: number;
  readonly greatest: number;
  /** By how much the distance can lie over the straight line between those of its ends. */
  readonly #excess: number;
  /** Ends of the other line's edges in the plane of the piece, which lies on the x axis from 0; undefined until looked for. */
  #edges: Float64Array | undefined;
  constructor(
    readonly edge: number,
    readonly from: PieceEnd,
    readonly to: PieceEnd,
    /** Part of the whole tested line. */
    readonly weight: number,
    other: NearestEdge,
  ) {
    this.length = Math.hypot(to.x - from.x, to.y - from.y, to.z - from.z);
    const { distance: d0 } = from;
    const { distance: d1 } = to;
    const apart = Math.abs(d1 - d0);
    const length = Math.max(this.length, apart);
    let excess = 0;
    if (this.length > 0 && from.near !== to.near) {
      other.moveTo(to.x, to.y, to.z);
      const over = Math.sqrt(other.measure(from.near)) - d1;
      other.moveTo(from.x, from.y, from.z);
      excess = Math.max(0, Math.min(over, Math.sqrt(other.measure(to.near)) - d0));
    }
    const sag = bulge(length, Math.max(d0, d1));
    this.#excess = Math.min(excess, length - apart) + sag;
    this.least = Math.max(0, (d0 + d1 - length) / 2 - sag);
    this.greatest = Math.min((d0 + d1 + length) / 2, Math.max(d0, d1) + excess + sag);
  }

  /**
   * Whether {@link shareWithin} can tell for widths up to `most`; else the piece has to be halved. Of pieces not much longer
   * than that it always can, however many edges are near, as halves of it would have no fewer.
   */
  isKnown(other: NearestEdge, most: number): boolean {
    if (this.length === 0) return true;
    const reach = Math.min(this.greatest, most);
    if (reach > NEAR) {
      const allowed = FAR_SHARE * Math.max(this.least, 1);
      return this.#excess + this.length ** 2 / (8 * Math.max(this.least, 1)) <= allowed;
    }
    // so long beside the distance, the piece has too many edges about it
    if (this.length > 8 * most + 1e-3) return false;
    const { from, to } = this;
    other.moveTo((from.x + to.x) / 2, (from.y + to.y) / 2, (from.z + to.z) / 2);
    const limit = (reach + 1e-6 + this.length / 2) ** 2;
    const found = this.length <= most + 1e-3 ? other.within(limit) : other.within(limit, FEW_EDGES);
    if (found === undefined) return false;
    this.#edges = this.#inPlane(other, found, reach + 1e-6);
    return true;
  }

  /** The share, 0 to 1, that lies within so many metres of the other line. */
  shareWithin(width: number, spans: Spans): number {
    const { from, to, length } = this;
    const limit = width + TOLERANCE;
    if (length === 0) return from.distance <= limit ? 1 : 0;
    if (this.#edges === undefined) {
      const [low, high] = [Math.min(from.distance, to.distance), Math.max(from.distance, to.distance)];
      return low >= limit ? 0 : high <= limit ? 1 : (limit - low) / (high - low);
    }
    const radius = limit * (1 - limit ** 2 / (6 * MEAN_RADIUS ** 2));
    return unionWithin(this.#edges, radius, length, spans) / length;
  }

  /** The edges of the other line that come within `reach` metres, seen in the plane that touches the ellipsoid at the piece. */
  #inPlane(other: NearestEdge, edges: readonly number[], reach: number): Float64Array {
    const { from, to } = this;
    const [ox, oy, oz] = [(from.x + to.x) / 2, (from.y + to.y) / 2, (from.z + to.z) / 2];
    const steep = oz / (1 - ECCENTRICITY2);
    const scale = 1 / Math.hypot(ox, oy, steep);
    const [nx, ny, nz] = [ox * scale, oy * scale, steep * scale];
    const [ex, ey, ez] = [(to.x - from.x) / this.length, (to.y - from.y) / this.length, (to.z - from.z) / this.length];
    const [fx, fy, fz] = [ny * ez - nz * ey, nz * ex - nx * ez, nx * ey - ny * ex];
    const { x, y, z } = other.curve.vertices;
    const plane = new Float64Array(4 * edges.length);
    const half = this.length / 2;
    const spans = new Spans(1);
    let count = 0;
    for (const edge of edges) {
      for (let end = 0; end < 2; end++) {
        const i = edge + end;
        const [dx, dy, dz] = [x[i] - ox, y[i] - oy, z[i] - oz];
        plane[count + 2 * end] = dx * ex + dy * ey + dz * ez + half;
        plane[count + 2 * end + 1] = dx * fx + dy * fy + dz * fz;
      }
      // within reach of the piece itself, not only of the ball about it
      capsule(plane, count, reach + 1e-3, spans);
      if (!(spans.to >= 0 && spans.from <= this.length)) continue;
      count += 4;
    }
    return count < plane.length ? plane.slice(0, count) : plane;
  }
}

/** How much of 0 to `length` on the x axis lies within `radius` of some of the segments. */
function unionWithin(segments: Float64Array, radius: number, length: number, spans: Spans): number {
  spans.clear(length);
  for (let k = 0; k < segments.length; k += 4) {
    capsule(segments, k, radius, spans);
    spans.add();
  }
  return spans.union();
}

/** The part of the x axis within `radius` of a segment, from low to high, put into `span`; none where low is over high. */
function capsule(segments: Float64Array, k: number, radius: number, span: Spans): void {
  const px = segments[k];
  const py = segments[k + 1];
  const qx = segments[k + 2];
  const qy = segments[k + 3];
  let low = Infinity;
  let high = -Infinity;
  const roomP = radius * radius - py * py;
  if (roomP >= 0) {
    const half = Math.sqrt(roomP);
    low = px - half;
    high = px + half;
  }
  const roomQ = radius * radius - qy * qy;
  if (roomQ >= 0) {
    const half = Math.sqrt(roomQ);
    low = Math.min(low, qx - half);
    high = Math.max(high, qx + half);
  }
  // the strip beside the segment: along it between its ends, across it within the radius
  const size = Math.sqrt((qx - px) * (qx - px) + (qy - py) * (qy - py));
  if (size > 0) {
    const ux = (qx - px) / size;
    const uy = (qy - py) / size;
    let from = -Infinity;
    let to = Infinity;
    // (x − px) ux − py uy lies between 0 and its length
    if (Math.abs(ux) < 1e-12) {
      if (-py * uy < 0 || -py * uy > size) to = -Infinity;
    } else {
      const a = px + (py * uy) / ux;
      const b = a + size / ux;
      from = Math.min(a, b);
      to = Math.max(a, b);
    }
    // (px − x) uy − py ux lies between −radius and radius
    if (Math.abs(uy) < 1e-12) {
      if (Math.abs(py * ux) > radius) to = -Infinity;
    } else {
      const a = px - (py * ux + radius) / uy;
      const b = px - (py * ux - radius) / uy;
      from = Math.max(from, Math.min(a, b));
      to = Math.min(to, Math.max(a, b));
    }
    if (from <= to) {
      low = Math.min(low, from);
      high = Math.max(high, to);
    }
  }
  span.from = low;
  span.to = high;
}
