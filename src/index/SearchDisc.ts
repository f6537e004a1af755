import { RADIAN } from '../geodesy';

const HALF_RADIAN = RADIAN / 2;

/**
 * A sphere of this radius, carrying the same longitudes and latitudes, nowhere measures a length greater than WGS 84 does:
 * the ellipsoid's smallest radius of curvature a(1 − e²), a millionth taken off for rounding. Distances on it fall short of
 * the true ones, by 1 % at the most.
 */
const SMALLEST_RADIUS = 6335439.327 * (1 - 1e-6);

/**
 * Numbers for each box: middle and half width in longitude, middle and half height in latitude, degrees; least cosine of
 * latitude.
 */
export const BOX = 5;

/**
 * All that may lie within so many metres of a position: what it leaves out is surely further away.
 *
 * @remarks Bounded on an inscribed sphere, so that ±180° and the poles need no special case.
 */
export class SearchDisc {
  /** {@link SearchDisc.keyOf} of what lies further away is above it. */
  limit = 2;
  #lon = 0;
  #lat = 0;
  /** Of the latitude of its middle. */
  cosine = 1;
  // degrees of longitude and of latitude that the radius spans
  #spanX = Infinity;
  #spanY = Infinity;

  /** Takes a new middle, degrees, with the cosine of its latitude; the radius must be told next. */
  moveTo(lon: number, lat: number, cosine: number): void {
    this.#lon = lon;
    this.#lat = lat;
    this.cosine = Math.max(cosine, 0);
  }

  /** Takes a new radius, metres. */
  narrow(radius: number): void {
    const angle = radius / SMALLEST_RADIUS;
    const cosine = this.cosine;
    this.#spanY = angle / RADIAN;
    if (angle < 0.1 * cosine) {
      // asin t ≤ t + t³/5 up to 0.1
      const t = angle / cosine;
      this.#spanX = (t + 0.2 * t * t * t) / RADIAN;
      this.limit = 0.25 * angle * angle;
      return;
    }
    const sine = angle < Math.PI ? Math.sin(angle / 2) : Math.SQRT2;
    this.limit = sine * sine;
    const overPole = angle >= Math.PI / 2 - Math.abs(this.#lat) * RADIAN - 1e-9;
    this.#spanX = overPole ? Infinity : Math.asin(Math.min(Math.sin(angle) / cosine, 1)) / RADIAN;
  }

  /** Whether a box may lie within the radius; quick, and the corners of the square about the disc count. */
  reachesBox(boxes: Float64Array, box: number): boolean {
    if (!(Math.abs(this.#lat - boxes[box + 2]) - boxes[box + 3] <= this.#spanY)) return false;
    return apart(this.#lon, boxes[box]) - boxes[box + 1] <= this.#spanX;
  }

  /** {@link SearchDisc.awayFrom} of what lies further away is above it. */
  get reach(): number {
    return this.#spanX * this.cosine + this.#spanY;
  }

  /** Degrees to a box, as on a map: those east and those north together. */
  awayFrom(boxes: Float64Array, box: number): number {
    const east = (apart(this.#lon, boxes[box]) - boxes[box + 1]) * this.cosine;
    const north = Math.abs(this.#lat - boxes[box + 2]) - boxes[box + 3];
    return Math.max(east, 0) + Math.max(north, 0);
  }

  /** Whether an edge may lie within the radius, `bulge` degrees beyond the latitudes of its ends at the most. */
  reachesEdge(lon1: number, lat1: number, lon2: number, lat2: number, bulge: number): boolean {
    const north = Math.abs(this.#lat - 0.5 * (lat1 + lat2)) - 0.5 * Math.abs(lat2 - lat1) - bulge;
    if (!(north <= this.#spanY)) return false;
    return apart(this.#lon, 0.5 * (lon1 + lon2)) - 0.5 * Math.abs(lon2 - lon1) <= this.#spanX;
  }

  /** Grows with the distance that a box is at least away: the squared sine of half its angle. */
  keyOf(boxes: Float64Array, box: number): number {
    const dx = (apart(this.#lon, boxes[box]) - boxes[box + 1]) * HALF_RADIAN;
    const dy = (Math.abs(this.#lat - boxes[box + 2]) - boxes[box + 3]) * HALF_RADIAN;
    // sin t ≥ t − t³/6
    const sy = dy > 0 ? dy - (dy * dy * dy) / 6 : 0;
    if (!(dx > 0)) return sy * sy;
    const sx = dx - (dx * dx * dx) / 6;
    return sy * sy + this.cosine * boxes[box + 4] * sx * sx;
  }
}

/** Degrees between two longitudes, the shorter way round. */
function apart(a: number, b: number): number {
  const turn = Math.abs(a - b);
  return turn > 180 ? Math.abs(turn - 360 * Math.round(turn / 360)) : turn;
}
