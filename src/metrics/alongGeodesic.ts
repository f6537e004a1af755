import { ECCENTRICITY2, Geodesic, RADIAN, SEMI_MAJOR, WGS84 } from '../geodesy';
import { latitudeOf, longitudeOf, type Vertices } from '../index';

/** Metres of a geodesic that one polynomial follows: its sixth derivative, some 1 / R⁵, leaves 1e-9 m of that. */
const SPAN = 100_000;

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
