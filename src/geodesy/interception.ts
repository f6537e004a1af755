import { Geodesic, type GeodesicLine, type Geodesics, RADIAN } from './ellipsoid';

/** Where the perpendicular from a point meets a geodesic. */
export interface Interception {
  /** Metres from the start of the line. */
  readonly alongTrack: number;
  /** Metres, right of the line positive. */
  readonly crossTrack: number;
  /** Which end of the edge it is, where it is no foot of a perpendicular. */
  readonly beyond?: 'start' | 'end';
}

const PLACE = Geodesic.LATITUDE | Geodesic.LONGITUDE | Geodesic.AZIMUTH;
const PERPENDICULAR = Geodesic.DISTANCE | Geodesic.AZIMUTH | Geodesic.REDUCEDLENGTH | Geodesic.GEODESICSCALE;

/** What a step leaves may be up to this, in metres. */
const CONVERGED = 5e-10;

/** Steps before the search gives way to the bracketed one; 3 are needed for 10 000 km, 1 for 10 km. */
const STEPS = 8;

/**
 * Feet farther off than this, in metres, are searched for all round. A quarter of the ellipsoid's girth is some
 * 10 000 km; closer to it than a few times the 21 km by which its axes differ, the distance to a geodesic has several
 * minima along it.
 */
const NEAR_POLAR = 9_500_000;

/** An edge no longer than this, in metres, has no direction: the last bit of a longitude is 3e-9 m. */
export const POINTLIKE = 1e-9;

/** Metres between the samples of the search all round. */
const STRIDE = 200_000;

/** Distances closer than this, in metres, are the same one: geographiclib's own accuracy is 15 nm. */
export const SAME = 2e-8;

/** The point as seen from the line at `alongTrack`, and the step from there to the foot were the ellipsoid a sphere. */
function look(geodesics: Geodesics, line: GeodesicLine, alongTrack: number, lon: number, lat: number) {
  const { lat2, lon2, azi2 } = line.Position(alongTrack, PLACE);
  const { s12, azi1, m12, M12 } = geodesics.Inverse(lat2!, lon2!, lat, lon, PERPENDICULAR);
  const angle = (azi1! - azi2!) * RADIAN;
  const ahead = Math.cos(angle);
  return { distance: s12!, angle, ahead, step: geodesics.a * Math.atan2(m12! * ahead, geodesics.a * M12!) };
}

/** Right-angled spherical triangle: the side opposite `angle`; exact where `angle` is right, whatever the surface. */
function opposite(radius: number, hypotenuse: number, angle: number): number {
  const sine = Math.sin(hypotenuse / radius);
  return radius * Math.atan2(sine * Math.sin(angle), Math.hypot(Math.cos(hypotenuse / radius), sine * Math.cos(angle)));
}

/**
 * Metres along the line to about the foot, by earth-centred coordinates: the point dropped on the plane of the line
 * and the centre of curvature at its start. Off by some 10 km at 5000 km, 0.1 m at 10 km.
 */
function guess(geodesics: Geodesics, line: GeodesicLine, lon: number, lat: number): number {
  const { a, f } = geodesics;
  const e2 = f * (2 - f);
  const sin1 = Math.sin(line.lat1 * RADIAN);
  const cos1 = Math.cos(line.lat1 * RADIAN);
  const sin2 = Math.sin(lat * RADIAN);
  const cos2 = Math.cos(lat * RADIAN);
  const sinLon = Math.sin((lon - line.lon1) * RADIAN);
  const cosLon = Math.cos((lon - line.lon1) * RADIAN);
  const n1 = a / Math.sqrt(1 - e2 * sin1 * sin1);
  const n2 = a / Math.sqrt(1 - e2 * sin2 * sin2);
  const outward = n2 * cos2 * cosLon - n1 * cos1;
  const aside = n2 * cos2 * sinLon;
  const upward = (1 - e2) * (n2 * sin2 - n1 * sin1);
  const forward = line.salp1 * aside + line.calp1 * (cos1 * upward - sin1 * outward);
  return a * Math.atan2(forward, a + cos1 * outward + sin1 * upward);
}

/** Newton from one place; undefined where it doesn't settle. */
function approach(
  geodesics: Geodesics,
  line: GeodesicLine,
  start: number,
  lon: number,
  lat: number,
): Interception | undefined {
  const { a, f } = geodesics;
  let alongTrack = start;
  for (let i = 0; i < STEPS; i++) {
    const { distance, angle, step } = look(geodesics, line, alongTrack, lon, lat);
    alongTrack += step;
    // the step is exact on a plane and a sphere; an ellipsoid leaves about f δ² s / a²
    if (2 * f * step * step * Math.max(distance, Math.abs(step)) < CONVERGED * a * a) {
      return { alongTrack, crossTrack: opposite(a, distance, angle) };
    }
  }
  return undefined;
}

/** The feet between two places of the line, by their brackets: ahead of the one end, behind at the other. */
function feetBetween(
  geodesics: Geodesics,
  line: GeodesicLine,
  from: number,
  to: number,
  lon: number,
  lat: number,
): Interception[] {
  const feet: Interception[] = [];
  const pieces = Math.ceil((to - from) / STRIDE);
  let low = from;
  let lowAhead = look(geodesics, line, low, lon, lat).ahead;
  for (let k = 1; k <= pieces; k++) {
    const high = from + ((to - from) * k) / pieces;
    const highAhead = look(geodesics, line, high, lon, lat).ahead;
    if (lowAhead > 0 && highAhead <= 0) {
      let [near, far] = [low, high];
      while (far - near > CONVERGED) {
        const middle = (near + far) / 2;
        if (middle <= near || middle >= far) break;
        if (look(geodesics, line, middle, lon, lat).ahead > 0) near = middle;
        else far = middle;
      }
      feet.push(footAt(geodesics, line, near, lon, lat));
    }
    low = high;
    lowAhead = highAhead;
  }
  return feet;
}

/** A place of the line taken for the foot, whether perpendicular or not. */
function footAt(geodesics: Geodesics, line: GeodesicLine, alongTrack: number, lon: number, lat: number): Interception {
  const { distance, angle } = look(geodesics, line, alongTrack, lon, lat);
  return { alongTrack, crossTrack: Math.sin(angle) < 0 ? 0 - distance : distance };
}

/** The nearest; of equally near ones the first. */
function nearest(feet: readonly Interception[]): Interception {
  return feet.reduce((best, foot) => (Math.abs(foot.crossTrack) < Math.abs(best.crossTrack) - SAME ? foot : best));
}

/**
 * The only foot within half a turn either way of the edge's middle that can be the nearest one; undefined where there
 * may be several, or none that Newton finds.
 */
function plainFoot(geodesics: Geodesics, line: GeodesicLine, lon: number, lat: number): Interception | undefined {
  const turn = 2 * Math.PI * geodesics.a;
  const start = guess(geodesics, line, lon, lat);
  const foot = approach(geodesics, line, start - turn * Math.round((start - line.s13 / 2) / turn), lon, lat);
  return foot && Math.abs(foot.crossTrack) < NEAR_POLAR ? foot : undefined;
}

/**
 * The foot of a point on the endless geodesic of an edge: the nearest within half a turn of the ellipsoid either way of
 * the edge's middle; of equally near ones the start of the edge, else the first. An edge of no length has its start for the foot.
 */
export function footOnLine(geodesics: Geodesics, line: GeodesicLine, lon: number, lat: number): Interception {
  if (!(line.s13 > POINTLIKE)) return pointFoot(geodesics, line, lon, lat);
  const half = Math.PI * geodesics.a;
  const middle = line.s13 / 2;
  const foot = plainFoot(geodesics, line, lon, lat);
  if (foot && Math.abs(foot.alongTrack - middle) < half - STRIDE) return foot;
  // A geodesic comes back beside itself after a turn: the foot may be nearer at the other end of the turn.
  const [from, to] = [middle - half - STRIDE, middle + half + STRIDE];
  return nearest([footAt(geodesics, line, 0, lon, lat), ...feetBetween(geodesics, line, from, to, lon, lat)]);
}

/** The nearest place of an edge, ends included; the first of equally near ones. */
export function footOnSegment(geodesics: Geodesics, line: GeodesicLine, lon: number, lat: number): Interception {
  const length = line.s13;
  if (!(length > POINTLIKE)) return pointFoot(geodesics, line, lon, lat);
  const foot = plainFoot(geodesics, line, lon, lat);
  if (foot && foot.alongTrack >= -SAME && foot.alongTrack <= length + SAME) {
    return { alongTrack: Math.min(Math.max(foot.alongTrack, 0), length), crossTrack: foot.crossTrack };
  }
  return nearest([
    { ...footAt(geodesics, line, 0, lon, lat), beyond: 'start' },
    ...(foot ? [] : feetBetween(geodesics, line, 0, length, lon, lat)),
    { ...footAt(geodesics, line, length, lon, lat), beyond: 'end' },
  ]);
}

function pointFoot(geodesics: Geodesics, line: GeodesicLine, lon: number, lat: number): Interception {
  return {
    alongTrack: 0,
    crossTrack: geodesics.Inverse(line.lat1, line.lon1, lat, lon, Geodesic.DISTANCE).s12!,
  };
}
