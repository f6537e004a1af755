import { ECCENTRICITY2, FLATTENING, RADIAN, SEMI_MAJOR, WGS84 } from './ellipsoid';
import { footOnSegment } from './interception';
import { unwrapLongitude } from './longitude';

/**
 * Both ends of an edge no farther than this, in metres along the chord, and its foot comes from the plane; else from the
 * exact interception. The series of the plane ends at the third order: what it leaves out grows with the fourth power
 * of the distance and reaches 3e-7 m here (test/geodesy/EdgeFeet.test.ts holds 1e-6 on both sides).
 */
export const PLANE_REACH = 16000;

const STRIDE = 6;

/** Radians, 600 m: the series below leave out less than the last bit. */
const SMALL = 1e-4;

/**
 * Feet on the edges of one line: the vertices held as earth-centred columns, one query point at a time.
 *
 * Usage: `moveTo` a point, then `measure` edges; each leaves `distance`, `fraction` and `crossTrack` in the fields, so
 * that a hot loop allocates nothing. Edge `i` runs from vertex `i` to vertex `i + 1` and is a geodesic.
 *
 * Within 1e-6 m of the exact foot, distance and place on the edge alike, at every latitude, across ±180° and at the
 * poles, for edges and distances of any length: where both ends of the edge lie within {@link PLANE_REACH} of the point
 * (every edge up to 500 m from a point up to 1 km away, with room to spare) by a plane in some 20 ns, else by the exact
 * interception in some 5 µs.
 *
 * An edge of no length has fraction 0. Ends count: a foot past one is the end itself, `fraction` 0 or 1.
 *
 * @remarks The plane is the gnomonic one about the point, in which geodesics near it are straight and the foot stays
 * the foot. With x east, y north and z up of a vertex from the point, in metres of the tangent frame, and κ₁, κ₂, K the
 * curvatures there, the vertex lies at x (1 − κ₁z/3 + Kc²/3), y (1 − κ₂z/3 + Kc²/3): the first correction makes the
 * chord a geodesic, leaving the point in the same direction, the second makes the geodesic gnomonic.
 * @see Karney, Algorithms for geodesics, J. Geod. 87 (2013), §8, doi:10.1007/s00190-012-0578-z: the ellipsoidal
 * gnomonic projection, m/M = s + Ks³/3 + …
 */
export class EdgeFeet {
  /** Metres from the point to the edge last measured. */
  distance = Number.NaN;
  /** Where on that edge the foot lies, as a share of its length: 0 at its start, 1 at its end. */
  fraction = Number.NaN;
  /** As `distance`, signed: right of the edge positive, left negative; straight beyond an end positive. */
  crossTrack = Number.NaN;
  /** Cosine of the latitude of the point. */
  cosLat = 1;

  readonly #lon: ArrayLike<number>;
  readonly #lat: ArrayLike<number>;
  // each vertex, earth-centred, and the way from it to the next: six numbers side by side, to be fetched together
  readonly #edges: Float64Array;
  // the point: degrees, earth-centred, the sines and cosines of its east, north and up
  #pointLon = 0;
  #pointLat = 0;
  #px = 0;
  #py = 0;
  #pz = 0;
  #sinLon = 0;
  #cosLon = 1;
  #sinLat = 0;
  // a third of each curvature there: of the parallel's normal section, of the meridian, Gaussian
  #eastThird = 0;
  #northThird = 0;
  #gaussThird = 0;

  /** Keeps `lon` and `lat`, in degrees, without a copy: they must not change. */
  constructor(lon: ArrayLike<number>, lat: ArrayLike<number>) {
    const n = lon.length;
    this.#lon = lon;
    this.#lat = lat;
    this.#edges = new Float64Array(STRIDE * n);
    for (let i = 0; i < n; i++) this.#lay(i);
  }

  /** Lays down a vertex, and the edge that ends there: the vertex before was the last laid. */
  #lay(i: number): void {
    const edges = this.#edges;
    const at = STRIDE * i;
    const sinLatBefore = this.#sinLat;
    const cosLatBefore = this.cosLat;
    const sinLonBefore = this.#sinLon;
    const cosLonBefore = this.#cosLon;
    this.moveTo(this.#lon[i], this.#lat[i]);
    edges[at] = this.#px;
    edges[at + 1] = this.#py;
    edges[at + 2] = this.#pz;
    if (i === 0) return;
    const wBefore = Math.sqrt(1 - ECCENTRICITY2 * sinLatBefore * sinLatBefore);
    const w = Math.sqrt(1 - ECCENTRICITY2 * this.#sinLat * this.#sinLat);
    // of the reduced latitudes
    const sines = (1 - FLATTENING) * (this.#sinLat / w + sinLatBefore / wBefore);
    const cosines = this.cosLat / w + cosLatBefore / wBefore;
    // From the differences of the degrees: those of the earth-centred coordinates are good to 1e-9 m only, which
    // would turn an edge of 1 cm by 1e-7 rad, and move the foot of a point 1 km off by 0.1 mm.
    const climb = (this.#lat[i] - this.#lat[i - 1]) * RADIAN;
    const halfTurn = (unwrapLongitude(this.#lon[i], this.#lon[i - 1]) - this.#lon[i - 1]) * (RADIAN / 2);
    const isShort = Math.abs(climb) < SMALL && Math.abs(halfTurn) < SMALL;
    const sinStep = ((1 - FLATTENING) * (isShort ? smallSine(climb) : Math.sin(climb))) / (w * wBefore);
    const sinHalf = isShort ? smallSine(halfTurn) : Math.sin(halfTurn);
    const cosHalf = isShort ? smallCosine(halfTurn) : Math.cos(halfTurn);
    // sin (a − b) over cos a cos b + sin a sin b + 1, the squares of the sums less one
    const halfTangent = (2 * sinStep) / (sines * sines + cosines * cosines);
    const outward = -SEMI_MAJOR * sines * halfTangent * cosHalf;
    const chord = SEMI_MAJOR * cosines * sinHalf;
    const cosMiddle = cosLonBefore * cosHalf - sinLonBefore * sinHalf;
    const sinMiddle = sinLonBefore * cosHalf + cosLonBefore * sinHalf;
    edges[at - 3] = outward * cosMiddle - chord * sinMiddle;
    edges[at - 2] = outward * sinMiddle + chord * cosMiddle;
    edges[at - 1] = SEMI_MAJOR * (1 - FLATTENING) * cosines * halfTangent;
  }

  /** Takes a new query point, degrees. */
  moveTo(lon: number, lat: number): void {
    this.#pointLon = lon;
    this.#pointLat = lat;
    const sinLat = (this.#sinLat = Math.sin(lat * RADIAN));
    const cosLat = (this.cosLat = Math.cos(lat * RADIAN));
    const sinLon = (this.#sinLon = Math.sin(lon * RADIAN));
    const cosLon = (this.#cosLon = Math.cos(lon * RADIAN));
    const w2 = 1 - ECCENTRICITY2 * sinLat * sinLat;
    const w = Math.sqrt(w2);
    const normal = SEMI_MAJOR / w;
    this.#px = normal * cosLat * cosLon;
    this.#py = normal * cosLat * sinLon;
    this.#pz = normal * (1 - ECCENTRICITY2) * sinLat;
    const east = w / SEMI_MAJOR;
    const north = (w2 * east) / (1 - ECCENTRICITY2);
    this.#eastThird = east / 3;
    this.#northThird = north / 3;
    this.#gaussThird = (east * north) / 3;
  }

  /** Drops the point onto one edge; returns the distance in metres. */
  measure(edge: number): number {
    const sinLon = this.#sinLon;
    const cosLon = this.#cosLon;
    const sinLat = this.#sinLat;
    const cosLat = this.cosLat;
    const gaussThird = this.#gaussThird;

    const edges = this.#edges;
    const at = STRIDE * edge;
    let dx = edges[at] - this.#px;
    let dy = edges[at + 1] - this.#py;
    let dz = edges[at + 2] - this.#pz;
    let chord2 = dx * dx + dy * dy + dz * dz;
    if (!(chord2 <= PLANE_REACH * PLANE_REACH)) return this.#intercept(edge);
    let outward = cosLon * dx + sinLon * dy;
    let up = cosLat * outward + sinLat * dz;
    const ax = (cosLon * dy - sinLon * dx) * (1 - this.#eastThird * up + gaussThird * chord2);
    const ay = (cosLat * dz - sinLat * outward) * (1 - this.#northThird * up + gaussThird * chord2);

    dx += edges[at + 3];
    dy += edges[at + 4];
    dz += edges[at + 5];
    chord2 = dx * dx + dy * dy + dz * dz;
    if (!(chord2 <= PLANE_REACH * PLANE_REACH)) return this.#intercept(edge);
    outward = cosLon * dx + sinLon * dy;
    up = cosLat * outward + sinLat * dz;
    const ex = (cosLon * dy - sinLon * dx) * (1 - this.#eastThird * up + gaussThird * chord2) - ax;
    const ey = (cosLat * dz - sinLat * outward) * (1 - this.#northThird * up + gaussThird * chord2) - ay;

    const length2 = ex * ex + ey * ey;
    const along = -(ax * ex + ay * ey);
    const share = !(along > 0) ? 0 : along >= length2 ? 1 : along / length2;
    const fx = ax + share * ex;
    const fy = ay + share * ey;
    const plane2 = fx * fx + fy * fy;
    const distance = Math.sqrt(plane2) * (1 - gaussThird * plane2);
    this.distance = distance;
    this.crossTrack = ax * ey - ay * ex > 0 ? 0 - distance : distance; // never -0
    // lengths on the line grow with the square of the distance from the foot of its perpendicular
    this.fraction = share * (1 + gaussThird * length2 * (1 - share) * (1 - 2 * share));
    return distance;
  }

  #intercept(edge: number): number {
    const line = WGS84.InverseLine(this.#lat[edge], this.#lon[edge], this.#lat[edge + 1], this.#lon[edge + 1]);
    const foot = footOnSegment({ line, lon: this.#pointLon, lat: this.#pointLat });
    this.crossTrack = foot.crossTrack;
    this.distance = Math.abs(foot.crossTrack);
    this.fraction = line.s13 > 0 ? Math.min(foot.alongTrack / line.s13, 1) : 0;
    return this.distance;
  }
}

function smallSine(angle: number): number {
  return angle - (angle * angle * angle) / 6;
}

function smallCosine(angle: number): number {
  const square = angle * angle;
  return 1 - square / 2 + (square * square) / 24;
}
