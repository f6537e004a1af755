import { ECCENTRICITY2, MEAN_RADIUS, SEMI_MAJOR } from '../geodesy';
import { surfaceDistance, type Vertices } from '../index';

// Smallest radius of curvature, b² / a. No distance is longer than the one its chord has on a sphere of this radius.
const SMALLEST_RADIUS = SEMI_MAJOR * (1 - ECCENTRICITY2);

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
  /** A vertex no farther than this in a straight line, squared, is surely within the distance. */
  readonly sure2: number;

  /** Of edges with chords of at most `longest` metres. */
  constructor(distance: number, longest: number) {
    this.#distance = distance;
    this.#near = distance <= NEAR;
    this.#offset2 = (distance * (1 - distance ** 2 / (6 * MEAN_RADIUS ** 2))) ** 2;
    this.#reach2 = ((distance + longest) * (1 + 1e-6)) ** 2;
    this.sure2 = (2 * SMALLEST_RADIUS * Math.sin(Math.min(distance / (2 * SMALLEST_RADIUS), Math.PI / 2))) ** 2;
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
    const start2 = ax * ax + ay * ay + az * az;
    if (start2 > this.#reach2) return;
    const bx = x[edge + 1] - px;
    const by = y[edge + 1] - py;
    const bz = z[edge + 1] - pz;
    if (start2 <= this.sure2 && bx * bx + by * by + bz * bz <= this.sure2) {
      this.low = 0;
      this.high = 1;
      return;
    }
    if (!this.#near) {
      this.#measureFar(line, edge, px, py, pz);
      return;
    }
    let ex = bx - ax;
    let ey = by - ay;
    let ez = bz - az;
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
    const straight = length2 > 0 ? -(ax * ex + ay * ey + az * ez) / length2 : 0;
    ax += straight * ex;
    ay += straight * ey;
    az += straight * ez;
    // the edge rises over its chord along its own normal, which leans out from the point's by offset / R: its offset is
    // 1 + t (1 − t) length² / 2 R² times the chord's, where that is the distance again a parabola in t
    const lean = (this.#offset2 * length2) / MEAN_RADIUS ** 2;
    const bend = length2 - lean;
    const foot = bend > 0 ? (straight * length2 - lean / 2) / bend : 0;
    const least2 = ax * ax + ay * ay + az * az + (foot - straight) ** 2 * length2 + lean * foot * (1 - foot);
    const room = this.#offset2 - least2;
    if (room < 0) return;
    this.#clip(foot, bend > 0 ? Math.sqrt(room / bend) : Infinity);
  }

  #measureFar(line: Vertices, edge: number, px: number, py: number, pz: number): void {
    const { x, y, z } = line;
    const distance = this.#distance;
    const start = surfaceDistance(px, py, pz, x[edge], y[edge], z[edge]);
    const end = surfaceDistance(px, py, pz, x[edge + 1], y[edge + 1], z[edge + 1]);
    const length = Math.sqrt(line.chord2(edge));
    // the squared distance is a parabola along so short an edge: through both ends, its curvature x cot x across
    const difference = (start - end) * (start + end);
    const cosine = length > 0 ? Math.min(1, Math.abs(difference) / (2 * distance * length)) : 1;
    const turn = distance / MEAN_RADIUS;
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
