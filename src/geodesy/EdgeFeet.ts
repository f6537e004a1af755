import { ECCENTRICITY2, SEMI_MAJOR } from './ellipsoid';

const RADIAN = Math.PI / 180;

/**
 * Feet on the short edges of one line: the vertices held as earth-centred columns, one query point at a time.
 *
 * Usage: `moveTo` a point, then `measure` edges; each leaves `distance`, `fraction` and `crossTrack` in the fields, so
 * that a hot loop allocates nothing. Edge `i` runs from vertex `i` to vertex `i + 1`.
 */
export class EdgeFeet {
  /** Metres from the point to the edge last measured. */
  distance = Number.NaN;
  /** Where on that edge the foot lies, 0 at its start, 1 at its end. */
  fraction = Number.NaN;
  /** As `distance`, signed: right of the edge positive, left negative. */
  crossTrack = Number.NaN;

  readonly #x: Float64Array;
  readonly #y: Float64Array;
  readonly #z: Float64Array;
  // the point, and its ellipsoidal normal
  #px = 0;
  #py = 0;
  #pz = 0;
  #nx = 0;
  #ny = 0;
  #nz = 0;

  constructor(lon: ArrayLike<number>, lat: ArrayLike<number>) {
    this.#x = new Float64Array(lon.length);
    this.#y = new Float64Array(lon.length);
    this.#z = new Float64Array(lon.length);
    for (let i = 0; i < lon.length; i++) {
      this.moveTo(lon[i], lat[i]);
      this.#x[i] = this.#px;
      this.#y[i] = this.#py;
      this.#z[i] = this.#pz;
    }
  }

  /** Takes a new query point, degrees. */
  moveTo(lon: number, lat: number): void {
    const sinLat = Math.sin(lat * RADIAN);
    const cosLat = Math.cos(lat * RADIAN);
    this.#nx = cosLat * Math.cos(lon * RADIAN);
    this.#ny = cosLat * Math.sin(lon * RADIAN);
    this.#nz = sinLat;
    const normal = SEMI_MAJOR / Math.sqrt(1 - ECCENTRICITY2 * sinLat * sinLat);
    this.#px = normal * this.#nx;
    this.#py = normal * this.#ny;
    this.#pz = normal * (1 - ECCENTRICITY2) * this.#nz;
  }

  /** Drops the point onto one edge; returns the distance in metres. */
  measure(edge: number): number {
    const nx = this.#nx;
    const ny = this.#ny;
    const nz = this.#nz;
    let ax = this.#x[edge] - this.#px;
    let ay = this.#y[edge] - this.#py;
    let az = this.#z[edge] - this.#pz;
    let ex = this.#x[edge + 1] - this.#x[edge];
    let ey = this.#y[edge + 1] - this.#y[edge];
    let ez = this.#z[edge + 1] - this.#z[edge];
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
    const fx = ax + fraction * ex;
    const fy = ay + fraction * ey;
    const fz = az + fraction * ez;
    const distance = Math.sqrt(fx * fx + fy * fy + fz * fz);
    // the edge turned a quarter right is e × n; the point lies at −a from its start
    const right = ax * (ny * ez - nz * ey) + ay * (nz * ex - nx * ez) + az * (nx * ey - ny * ex);
    this.fraction = fraction;
    this.distance = distance;
    this.crossTrack = right < 0 ? -distance : distance;
    return distance;
  }
}
