import { ECCENTRICITY2 } from '../geodesy/ellipsoid';
import { MAX_EDGE } from './Curve';
import { surfaceDistance } from './surfaceDistance';
import type { Vertices } from './Vertices';

const RADIUS = 6_371_000;

// the normal of the ellipsoid is (x, y, z / (1 − e²)), scaled
const STEEPER = 1 / (1 - ECCENTRICITY2);

// Up to 1 km the curvature of a mean sphere turns a distance into an offset in the tangent plane: 0.04 µm.
const NEAR = 1000;

/**
 * The part of a short edge within a distance of a point: `low` to `high` as fractions of the edge, `low` over `high` where
 * there is none. Answers are left in the fields, so that a hot loop allocates nothing.
 */
export class FreeInterval {
  low = Number.NaN;
  high = Number.NaN;

  readonly #distance: number;
  readonly #near: boolean;
  readonly #offset2: number;
  /** No edge whose start is farther than this in a straight line has a part within the distance. */
  readonly #reach2: number;

  constructor(distance: number) {
    this.#distance = distance;
    this.#near = distance <= NEAR;
    this.#offset2 = (distance * (1 - distance ** 2 / (6 * RADIUS ** 2))) ** 2;
    this.#reach2 = (distance + MAX_EDGE * 1.001) ** 2;
  }

  /** Measures the edge from vertex `edge` of one line against vertex `point` of another. */
  measure(line: Vertices, edge: number, points: Vertices, point: number): void {
    this.low = 1;
    this.high = 0;
    const { x, y, z } = line;
    const px = points.x[point];
    const py = points.y[point];
    const pz = points.z[point];
    let ax = x[edge] - px;
    let ay = y[edge] - py;
    let az = z[edge] - pz;
    if (ax * ax + ay * ay + az * az > this.#reach2) return;
    if (!this.#near) {
      this.#measureFar(line, edge, px, py, pz);
      return;
    }
    let ex = x[edge + 1] - x[edge];
    let ey = y[edge + 1] - y[edge];
    let ez = z[edge + 1] - z[edge];
    // into the plane that touches the ellipsoid at the point
    const steep = pz * STEEPER;
    const scale = 1 / (px * px + py * py + steep * steep);
    const up = (ax * px + ay * py + az * steep) * scale;
    ax -= up * px;
    ay -= up * py;
    az -= up * steep;
    const rise = (ex * px + ey * py + ez * steep) * scale;
    ex -= rise * px;
    ey -= rise * py;
    ez -= rise * steep;
    const length2 = ex * ex + ey * ey + ez * ez;
    const shrink = length2 > 0 ? 1 / length2 : 0;
    const foot = -(ax * ex + ay * ey + az * ez) * shrink;
    ax += foot * ex;
    ay += foot * ey;
    az += foot * ez;
    const room = this.#offset2 - (ax * ax + ay * ay + az * az);
    if (room < 0) return;
    this.#clip(foot, length2 > 0 ? Math.sqrt(room * shrink) : Infinity);
  }

  #measureFar(line: Vertices, edge: number, px: number, py: number, pz: number): void {
    const { x, y, z } = line;
    const distance = this.#distance;
    const start = surfaceDistance(px, py, pz, x[edge], y[edge], z[edge]);
    const end = surfaceDistance(px, py, pz, x[edge + 1], y[edge + 1], z[edge + 1]);
    const length = Math.hypot(x[edge + 1] - x[edge], y[edge + 1] - y[edge], z[edge + 1] - z[edge]);
    // the squared distance is a parabola along so short an edge: through both ends, its curvature x cot x across
    const difference = (start - end) * (start + end);
    const cosine = length > 0 ? Math.min(1, Math.abs(difference) / (2 * distance * length)) : 1;
    const turn = distance / RADIUS;
    const bend = (cosine ** 2 + (turn / Math.tan(turn)) * (1 - cosine ** 2)) * length ** 2;
    if (!(bend > 0)) {
      // nearer to a point than both of its ends no such edge comes
      const [atStart, atEnd] = [start <= distance, end <= distance];
      if (!atStart && !atEnd) return;
      const crossing = (distance - start) / (end - start);
      this.low = atStart ? 0 : crossing;
      this.high = atEnd ? 1 : crossing;
      return;
    }
    const foot = 0.5 + difference / (2 * bend);
    const room = (distance - start) * (distance + start) + foot * foot * bend;
    if (room < 0) return;
    this.#clip(foot, Math.sqrt(room / bend));
  }

  #clip(foot: number, half: number): void {
    this.low = Math.max(0, foot - half);
    this.high = Math.min(1, foot + half);
  }
}
