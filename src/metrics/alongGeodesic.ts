import { ECCENTRICITY2, Geodesic, RADIAN, SEMI_MAJOR, WGS84 } from '../geodesy';
import { latitudeOf, longitudeOf, surfaceDistance, type Vertices } from '../index';

/** Metres of a geodesic that one polynomial follows: its sixth derivative, some 1 / R⁵, leaves 1e-9 m of that. */
const SPAN = 100_000;

/** Metres up to which a geodesic is drawn by how it bends: what that leaves out is 1e-8 m. */
const SHORT = 30_000;

const STEEPER = 1 / (1 - ECCENTRICITY2);

/** A place of a geodesic: where it is, in which direction it goes there and how it bends, earth-centred. */
class Knot {
  readonly place = new Float64Array(3);
  readonly ahead = new Float64Array(3);
  readonly bend = new Float64Array(3);

  set(x: number, y: number, z: number, lat: number, lon: number, azimuth: number): void {
    const [sinLat, cosLat] = [Math.sin(lat * RADIAN), Math.cos(lat * RADIAN)];
    const [sinLon, cosLon] = [Math.sin(lon * RADIAN), Math.cos(lon * RADIAN)];
    const [east, north] = [Math.sin(azimuth * RADIAN), Math.cos(azimuth * RADIAN)];
    const w2 = 1 - ECCENTRICITY2 * sinLat * sinLat;
    const w = Math.sqrt(w2);
    // Euler: the curvature of the normal section, of the parallel and the meridian
    const curvature = (east * east * w + (north * north * w * w2) / (1 - ECCENTRICITY2)) / SEMI_MAJOR;
    this.place[0] = x;
    this.place[1] = y;
    this.place[2] = z;
    this.ahead[0] = -east * sinLon - north * sinLat * cosLon;
    this.ahead[1] = east * cosLon - north * sinLat * sinLon;
    this.ahead[2] = north * cosLat;
    this.bend[0] = -curvature * cosLat * cosLon;
    this.bend[1] = -curvature * cosLat * sinLon;
    this.bend[2] = -curvature * sinLat;
  }
}

/**
 * Sets vertices from `at` on to the places that cut the geodesic of an edge into so many equal pieces.
 *
 * Between knots of which place, direction and bend are known runs the polynomial of the fifth degree that has them all: a
 * geodesic bends straight down, and needs no solving in between.
 */
export function alongGeodesic(vertices: Vertices, edge: number, pieces: number, into: Vertices, at: number): void {
  if (vertices.chord2(edge) <= SHORT * SHORT) {
    cutShort(vertices, edge, pieces, into, at);
    return;
  }
  const { x, y, z } = vertices;
  const next = edge + 1;
  const [lat1, lon1] = [latitudeOf(x[edge], y[edge], z[edge]), longitudeOf(x[edge], y[edge])];
  const [lat2, lon2] = [latitudeOf(x[next], y[next], z[next]), longitudeOf(x[next], y[next])];
  const { s12, azi1, azi2 } = WGS84.Inverse(lat1, lon1, lat2, lon2, Geodesic.STANDARD);
  const spans = Math.ceil(s12! / SPAN);
  const length = s12! / spans;
  const mask = Geodesic.STANDARD | Geodesic.DISTANCE_IN;
  const line = spans > 1 ? WGS84.InverseLine(lat1, lon1, lat2, lon2, mask) : undefined;
  let [from, to] = [new Knot(), new Knot()];
  from.set(x[edge], y[edge], z[edge], lat1, lon1, azi1!);
  let k = 1;
  for (let span = 1; span <= spans; span++) {
    if (span === spans) to.set(x[next], y[next], z[next], lat2, lon2, azi2!);
    else {
      const knot = line!.Position(span * length, Geodesic.STANDARD);
      // the place of the vertex that is set next does for a moment
      into.set(at + k - 1, knot.lon2!, knot.lat2!);
      to.set(into.x[at + k - 1], into.y[at + k - 1], into.z[at + k - 1], knot.lat2!, knot.lon2!, knot.azi2!);
    }
    for (; k < pieces && (span === spans || k * spans <= span * pieces); k++) {
      put(into, at + k - 1, from, to, (k * spans) / pieces - (span - 1), length);
    }
    [from, to] = [to, from];
  }
}

/**
 * The same for an edge of some kilometres: the polynomial of the fourth degree with its ends and the bends there and in the
 * middle, set down onto the surface.
 */
function cutShort({ x, y, z }: Vertices, edge: number, pieces: number, into: Vertices, at: number): void {
  const next = edge + 1;
  const [x0, y0, z0, x2, y2, z2] = [x[edge], y[edge], z[edge], x[next], y[next], z[next]];
  const [dx, dy, dz] = [x2 - x0, y2 - y0, z2 - z0];
  const length = surfaceDistance(x0, y0, z0, x2, y2, z2);
  // a geodesic bends straight down, by the curvature of the normal section along it: more the steeper it climbs along the axis
  const scaleAt = (px: number, py: number, pz: number) => {
    const nz = pz * STEEPER;
    const normal2 = px * px + py * py + nz * nz;
    const up = (dx * px + dy * py + dz * nz) / normal2;
    const climb = (dz - up * nz) ** 2 / (dx * dx + dy * dy + dz * dz - up * up * normal2);
    return ((1 + (STEEPER - 1) * climb) * length * length) / normal2;
  };
  const scale0 = scaleAt(x0, y0, z0);
  const scale2 = scaleAt(x2, y2, z2);
  const x1 = (x0 + x2) / 2 + (x0 * scale0 + x2 * scale2) / 16;
  const y1 = (y0 + y2) / 2 + (y0 * scale0 + y2 * scale2) / 16;
  const z1 = (z0 + z2) / 2 + ((z0 * scale0 + z2 * scale2) * STEEPER) / 16;
  const scale1 = scaleAt(x1, y1, z1);
  for (let k = 1; k < pieces; k++) {
    const t = k / pieces;
    const u = 1 - t;
    const b0 = (scale0 * t * u * (1 - t * (2 - t))) / 6;
    const b1 = (scale1 * t * u * (1 + t * u)) / 3;
    const b2 = (scale2 * t * t * t * u) / 6;
    const px = x0 + t * dx + b0 * x0 + b1 * x1 + b2 * x2;
    const py = y0 + t * dy + b0 * y0 + b1 * y1 + b2 * y2;
    const pz = z0 + t * dz + (b0 * z0 + b1 * z1 + b2 * z2) * STEEPER;
    const nz = pz * STEEPER;
    // one step of Newton along the normal
    const rise = (SEMI_MAJOR * SEMI_MAJOR - (px * px + py * py + pz * nz)) / (2 * (px * px + py * py + nz * nz));
    into.x[at + k - 1] = px + rise * px;
    into.y[at + k - 1] = py + rise * py;
    into.z[at + k - 1] = pz + rise * nz;
  }
}

/** Sets a vertex to the place at a fraction of the span between two knots. */
function put(into: Vertices, i: number, from: Knot, to: Knot, t: number, length: number): void {
  const t3 = t * t * t;
  const p1 = t3 * (10 + t * (6 * t - 15));
  const v0 = length * (t - t3 * (6 + t * (3 * t - 8)));
  const v1 = length * t3 * (t * (7 - 3 * t) - 4);
  const u = 1 - t;
  const a0 = (length * length * t * t * u * u * u) / 2;
  const a1 = (length * length * t3 * u * u) / 2;
  const at = (axis: number) =>
    from.place[axis] +
    p1 * (to.place[axis] - from.place[axis]) +
    v0 * from.ahead[axis] +
    v1 * to.ahead[axis] +
    a0 * from.bend[axis] +
    a1 * to.bend[axis];
  into.x[i] = at(0);
  into.y[i] = at(1);
  into.z[i] = at(2);
}
