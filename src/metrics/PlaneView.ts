import { ECCENTRICITY2, MEAN_RADIUS } from '../geodesy';
import { surfaceDistance, type Vertices } from '../index';

// Up to 1 km the curvature of a mean sphere does; over 100 km places are seen as on a sphere, as NearestEdge can.
const NEAR2 = 1000 ** 2;
const SPHERE2 = 100_000 ** 2;

/** Not even the edge before the first. */
const NONE = -2;

/** Straight across the axis, or along it, to rounding. */
const NO_SLOPE = 1e-12;

/**
 * Another line as seen from an edge: in the plane that touches the ellipsoid at its middle, at true distance and in true
 * direction from there. The edge lies on the x axis from 0.
 *
 * From places of an edge of 1 km a distance in that plane is off by 1e-9 of itself. The edge seen last is left in the fields.
 */
export class PlaneView {
  /** The ends of the edge seen. */
  px = Number.NaN;
  py = Number.NaN;
  qx = Number.NaN;
  qy = Number.NaN;
  /** The part of the axis within a width of it, {@link PlaneView.reach}; none where it is not over its beginning. */
  from = Number.NaN;
  to = Number.NaN;
  /** Metres of the edge that is looked from. */
  length = Number.NaN;

  // the middle, and the axes along the edge and across
  #ox = Number.NaN;
  #oy = Number.NaN;
  #oz = Number.NaN;
  #ex = Number.NaN;
  #ey = Number.NaN;
  #ez = Number.NaN;
  #fx = Number.NaN;
  #fy = Number.NaN;
  #fz = Number.NaN;
  #along = Number.NaN;
  #across = Number.NaN;
  #seen = NONE;
  readonly #place = new Float64Array(3);

  /** Takes an edge to look from. */
  lookFrom(vertices: Vertices, edge: number): void {
    const { x, y, z } = vertices;
    const place = this.#place;
    const length = Math.sqrt(vertices.chord2(edge));
    vertices.between(edge, 0.5, place);
    const steep = place[2] / (1 - ECCENTRICITY2);
    const scale = 1 / Math.sqrt(place[0] * place[0] + place[1] * place[1] + steep * steep);
    const [nx, ny, nz] = [place[0] * scale, place[1] * scale, steep * scale];
    const [ex, ey, ez] = [
      (x[edge + 1] - x[edge]) / length,
      (y[edge + 1] - y[edge]) / length,
      (z[edge + 1] - z[edge]) / length,
    ];
    this.length = length;
    this.#seen = NONE;
    [this.#ox, this.#oy, this.#oz] = [place[0], place[1], place[2]];
    [this.#ex, this.#ey, this.#ez] = [ex, ey, ez];
    [this.#fx, this.#fy, this.#fz] = [ny * ez - nz * ey, nz * ex - nx * ez, nx * ey - ny * ex];
  }

  /** Sees an edge of another line, the same one until it is looked from elsewhere. */
  see(vertices: Vertices, edge: number): void {
    if (edge === this.#seen) return;
    if (edge !== this.#seen + 1) this.#seeVertex(vertices, edge);
    this.#seen = edge;
    this.px = this.#along;
    this.py = this.#across;
    this.#seeVertex(vertices, edge + 1);
    this.qx = this.#along;
    this.qy = this.#across;
  }

  #seeVertex({ x, y, z }: Vertices, i: number): void {
    const dx = x[i] - this.#ox;
    const dy = y[i] - this.#oy;
    const dz = z[i] - this.#oz;
    const along = dx * this.#ex + dy * this.#ey + dz * this.#ez;
    const across = dx * this.#fx + dy * this.#fy + dz * this.#fz;
    const plane2 = along * along + across * across;
    const chord2 = dx * dx + dy * dy + dz * dz;
    let scale = 1 + plane2 / (6 * MEAN_RADIUS * MEAN_RADIUS);
    if (chord2 > NEAR2) {
      const distance =
        chord2 > SPHERE2
          ? 2 * MEAN_RADIUS * Math.asin(Math.min(1, Math.sqrt(chord2) / (2 * MEAN_RADIUS)))
          : surfaceDistance(this.#ox, this.#oy, this.#oz, x[i], y[i], z[i]);
      scale = plane2 > 0 ? distance / Math.sqrt(plane2) : 1;
    }
    this.#along = along * scale + this.length / 2;
    this.#across = across * scale;
  }

  /** Whether the edge seen lies wholly to one side of a stretch of the axis, by over so many metres. */
  isBeside(from: number, to: number, metres: number): boolean {
    const { px, py, qx, qy } = this;
    if ((py > metres && qy > metres) || (py < -metres && qy < -metres)) return true;
    return (px < from - metres && qx < from - metres) || (px > to + metres && qx > to + metres);
  }

  /** Squared distance from a place of the axis to the edge seen. */
  squaredFrom(at: number): number {
    const { px, py } = this;
    const [dx, dy] = [this.qx - px, this.qy - py];
    const length2 = dx * dx + dy * dy;
    const along = (at - px) * dx - py * dy;
    const fraction = !(along > 0) ? 0 : along >= length2 ? 1 : along / length2;
    const [x, y] = [px + fraction * dx - at, py + fraction * dy];
    return x * x + y * y;
  }

  /** Looks for the part of the axis within a width of the edge seen. */
  reach(width: number): void {
    const { px, py, qx, qy } = this;
    let low = Infinity;
    let high = -Infinity;
    const roomP = width * width - py * py;
    if (roomP >= 0) {
      const half = Math.sqrt(roomP);
      low = px - half;
      high = px + half;
    }
    const roomQ = width * width - qy * qy;
    if (roomQ >= 0) {
      const half = Math.sqrt(roomQ);
      low = Math.min(low, qx - half);
      high = Math.max(high, qx + half);
    }
    // the strip beside the edge: along it between its ends, across it within the width
    const size = Math.sqrt((qx - px) * (qx - px) + (qy - py) * (qy - py));
    if (size > 0) {
      const ux = (qx - px) / size;
      const uy = (qy - py) / size;
      let from = -Infinity;
      let to = Infinity;
      // (x − px) ux − py uy lies between 0 and its length
      if (Math.abs(ux) < NO_SLOPE) {
        if (-py * uy < 0 || -py * uy > size) to = -Infinity;
      } else {
        const a = px + (py * uy) / ux;
        const b = a + size / ux;
        from = Math.min(a, b);
        to = Math.max(a, b);
      }
      // (px − x) uy − py ux lies between −width and width
      if (Math.abs(uy) < NO_SLOPE) {
        if (Math.abs(py * ux) > width) to = -Infinity;
      } else {
        const a = px - (py * ux + width) / uy;
        const b = px - (py * ux - width) / uy;
        from = Math.max(from, Math.min(a, b));
        to = Math.min(to, Math.max(a, b));
      }
      if (from <= to) {
        low = Math.min(low, from);
        high = Math.max(high, to);
      }
    }
    this.from = low;
    this.to = high;
  }
}
