import {
  ECCENTRICITY2,
  FLATTENING,
  Geodesic,
  type GeodesicLine,
  MEAN_RADIUS,
  RADIAN,
  SEMI_MAJOR,
  WGS84,
} from './ellipsoid';

/** Where a point drops on a geodesic. */
export interface Interception {
  /** Metres from the start of the line. */
  readonly alongTrack: number;
  /** Metres, right of the line positive. */
  readonly crossTrack: number;
  /** Which end of the edge it is, where it is no foot of a perpendicular. */
  readonly beyond?: 'start' | 'end';
}

/** A point in degrees and the line it is seen from. */
interface View {
  readonly line: GeodesicLine;
  readonly lon: number;
  readonly lat: number;
}

const PERPENDICULAR = Geodesic.STANDARD | Geodesic.REDUCEDLENGTH | Geodesic.GEODESICSCALE;

/** What a step leaves may be up to this, in metres. */
const CONVERGED = 5e-10;

/** Steps before the search gives way to the bracketed one; 3 are needed for 10 000 km, 1 for 1 km. */
const STEPS = 8;

/** Degrees from the start of the line, some 2 km, within which it is itself as good a guess as any. */
const NEARBY = 0.02;

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

/** Metres of half a turn round the ellipsoid. */
const HALF_TURN = Math.PI * SEMI_MAJOR;

/**
 * The point as seen from the line at `alongTrack`: how far, right positive, and how much of that ahead; the sides of the
 * right-angled triangle with the foot, the step to it and the way from it. The triangle is that of a sphere: exact on a
 * plane, and as the angle becomes right. Its curvature is the Gaussian one at the point and, where it matters more, the
 * mean one along the way to it, m/M for R tan s/R.
 */
function look({ line, lon, lat }: View, alongTrack: number) {
  const { lat2, lon2, azi2 } = alongTrack
    ? line.Position(alongTrack)
    : { lat2: line.lat1, lon2: line.lon1, azi2: line.azi1 };
  const { s12, azi1, m12, M12 } = WGS84.Inverse(lat2!, lon2!, lat, lon, PERPENDICULAR);
  const angle = (azi1! - azi2!) * RADIAN;
  const ahead = Math.cos(angle);
  const right = Math.sin(angle);
  const radius = (SEMI_MAJOR * (1 - FLATTENING)) / (1 - ECCENTRICITY2 * Math.sin(lat * RADIAN) ** 2);
  return {
    distance: right < 0 ? 0 - s12! : s12!,
    ahead,
    step: radius * Math.atan2(m12! * ahead, radius * M12!),
    crossTrack: radius * Math.asin(Math.sin(s12! / radius) * right) + 0, // never -0
  };
}

/**
 * Where to begin: the start of the line, or where a point further off drops on the great circle of the reduced latitudes,
 * which misses by 0.4 % of its distance at the most.
 */
function guess({ line: { lat1, lon1, azi1 }, lon, lat }: View): number {
  if (Math.abs(lat - lat1) < NEARBY && Math.abs(lon - lon1) < NEARBY) return 0;
  const reduced = (latitude: number) => Math.atan((1 - FLATTENING) * Math.tan(latitude * RADIAN));
  const [from, to, turn, azimuth] = [reduced(lat1), reduced(lat), (lon - lon1) * RADIAN, azi1 * RADIAN];
  const [sin, cos, out] = [Math.sin(from), Math.cos(from), Math.cos(to) * Math.cos(turn)];
  const east = Math.cos(to) * Math.sin(turn);
  const north = cos * Math.sin(to) - sin * out;
  return MEAN_RADIUS * Math.atan2(east * Math.sin(azimuth) + north * Math.cos(azimuth), sin * Math.sin(to) + cos * out);
}

/**
 * Newton along the line, kept between two places of it: the foot that is nearest on the turn it leads to, or
 * the place that it lies beyond. Undefined where there may be several, or none that it finds.
 */
function plainFoot(view: View, from: number, to: number): Interception | undefined {
  let alongTrack = Math.min(Math.max(guess(view), from), to);
  for (let i = 0; i < STEPS; i++) {
    const { distance, step, crossTrack } = look(view, alongTrack);
    if (!(Math.abs(crossTrack) < NEAR_POLAR)) return undefined;
    const foot = alongTrack + step;
    const place = Math.min(Math.max(foot, from), to);
    if (Math.abs(foot - place) > SAME) {
      if (place === alongTrack) {
        // away from the foot the distance grows for half a turn: past that the other end, further on, could be the nearer one
        if (Math.abs(foot - place) + view.line.s13 > HALF_TURN - STRIDE) return undefined;
        return { alongTrack, crossTrack: distance, beyond: place === from ? 'start' : 'end' };
      }
    } else if (
      2 * FLATTENING * (step * Math.max(Math.abs(distance), Math.abs(step))) ** 2 <
      CONVERGED * SEMI_MAJOR ** 3
    ) {
      // what a step δ at a distance s leaves is under 2 f δ² s² / a³: test/geodesy/interception.test.ts
      return { alongTrack: place, crossTrack };
    }
    alongTrack = place;
  }
  return undefined;
}

/** A place of the line taken for the foot, whether perpendicular or not. */
function footAt(view: View, alongTrack: number, beyond?: 'start' | 'end'): Interception {
  return { alongTrack, crossTrack: look(view, alongTrack).distance, beyond };
}

/** The feet between two places of the line, by their brackets: ahead of the one end, behind at the other. */
function feetBetween(view: View, from: number, to: number): Interception[] {
  const feet: Interception[] = [];
  const isAhead = (alongTrack: number) => look(view, alongTrack).ahead > 0;
  const stride = (to - from) / Math.ceil((to - from) / STRIDE);
  let wasAhead = false;
  for (let place = from; place < to + stride / 2; place += stride) {
    const ahead = isAhead(place);
    if (wasAhead && !ahead) {
      let near = place - stride;
      for (let half = stride / 2; half > CONVERGED / 2; half /= 2) if (isAhead(near + half)) near += half;
      feet.push(footAt(view, near));
    }
    wasAhead = ahead;
  }
  return feet;
}

/** The nearest; of equally near ones the first. */
function nearest(feet: readonly Interception[]): Interception {
  return feet.reduce((best, foot) => (Math.abs(foot.crossTrack) < Math.abs(best.crossTrack) - SAME ? foot : best));
}

/** The foot on an edge of no length: its start, counted right. */
function pointFoot(view: View): Interception {
  return { alongTrack: 0, crossTrack: Math.abs(look(view, 0).distance) };
}

/**
 * The foot of a point on the endless geodesic of an edge: the nearest within half a turn of the ellipsoid either way of
 * the edge's middle; of equally near ones the start of the edge, else the first. An edge of no length has its start.
 */
export function footOnLine(view: View): Interception {
  if (!(view.line.s13 > POINTLIKE)) return pointFoot(view);
  const middle = view.line.s13 / 2;
  const foot = plainFoot(view, -Infinity, Infinity);
  if (foot && Math.abs(foot.alongTrack - middle) < HALF_TURN - STRIDE) return foot;
  // A geodesic comes back beside itself after a turn: the foot may be nearer at the other end of the turn.
  const reach = HALF_TURN + STRIDE;
  return nearest([footAt(view, 0), ...feetBetween(view, middle - reach, middle + reach)]);
}

/** The nearest place of an edge, ends included; the first of equally near ones. */
export function footOnSegment(view: View): Interception {
  const length = view.line.s13;
  if (!(length > POINTLIKE)) return pointFoot(view);
  return (
    plainFoot(view, 0, length) ??
    nearest([footAt(view, 0, 'start'), ...feetBetween(view, 0, length), footAt(view, length, 'end')])
  );
}
