import { FLATTENING, Geodesic, type GeodesicLine, RADIAN, SEMI_MAJOR, WGS84 } from './ellipsoid';

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

/** Halvings of a stride until it is shorter than {@link CONVERGED}. */
const HALVINGS = 49;

/** Distances closer than this, in metres, are the same one: geographiclib's own accuracy is 15 nm. */
export const SAME = 2e-8;

/** Metres of half a turn round the ellipsoid. */
const HALF_TURN = Math.PI * SEMI_MAJOR;

/**
 * The point as seen from the line at `alongTrack`: how far, how much of that ahead and to the right, and the step from
 * there to the foot: that of a sphere whose curvature is the mean one along the way to the point, m/M for R tan s/R.
 */
function look({ line, lon, lat }: View, alongTrack: number) {
  const { lat2, lon2, azi2 } = line.Position(alongTrack);
  const { s12, azi1, m12, M12 } = WGS84.Inverse(lat2!, lon2!, lat, lon, PERPENDICULAR);
  const angle = (azi1! - azi2!) * RADIAN;
  const ahead = Math.cos(angle);
  return {
    distance: s12!,
    ahead,
    right: Math.sin(angle),
    step: SEMI_MAJOR * Math.atan2(m12! * ahead, SEMI_MAJOR * M12!),
  };
}

/** Metres along the line to about the foot: that of a sphere, off by 0.3 % of the distance from the start at most. */
function guess({ line, lon, lat }: View): number {
  const sin1 = Math.sin(line.lat1 * RADIAN);
  const cos1 = Math.cos(line.lat1 * RADIAN);
  const sin2 = Math.sin(lat * RADIAN);
  const cos2 = Math.cos(lat * RADIAN);
  const turn = (lon - line.lon1) * RADIAN;
  const outward = cos2 * Math.cos(turn);
  const forward = line.salp1 * cos2 * Math.sin(turn) + line.calp1 * (cos1 * sin2 - sin1 * outward);
  return SEMI_MAJOR * Math.atan2(forward, cos1 * outward + sin1 * sin2);
}

/**
 * Newton from the foot of a sphere: the only foot within half a turn of the edge's middle that can be the nearest one.
 * Undefined where there may be several, or none that it finds.
 */
function plainFoot(view: View): Interception | undefined {
  let alongTrack = guess(view);
  alongTrack -= 2 * HALF_TURN * Math.round((alongTrack - view.line.s13 / 2) / (2 * HALF_TURN));
  for (let i = 0; i < STEPS; i++) {
    const { distance, ahead, right, step } = look(view, alongTrack);
    alongTrack += step;
    // the step is exact on a plane and a sphere; the ellipsoid leaves about f δ² s / a²
    if (2 * FLATTENING * step * step * Math.max(distance, Math.abs(step)) < CONVERGED * SEMI_MAJOR * SEMI_MAJOR) {
      // the side opposite the angle in the right-angled triangle: of a sphere, and exact as the angle becomes right
      const sine = Math.sin(distance / SEMI_MAJOR);
      const cosine = Math.cos(distance / SEMI_MAJOR);
      const crossTrack = SEMI_MAJOR * Math.atan2(sine * right, Math.hypot(cosine, sine * ahead));
      return Math.abs(crossTrack) < NEAR_POLAR ? { alongTrack, crossTrack } : undefined;
    }
  }
  return undefined;
}

/** A place of the line taken for the foot, whether perpendicular or not. */
function footAt(view: View, alongTrack: number, beyond?: 'start' | 'end'): Interception {
  const { distance, right } = look(view, alongTrack);
  return { alongTrack, crossTrack: right < 0 ? 0 - distance : distance, beyond };
}

/** The feet between two places of the line, by their brackets: ahead of the one end, behind at the other. */
function feetBetween(view: View, from: number, to: number): Interception[] {
  const feet: Interception[] = [];
  const pieces = Math.ceil((to - from) / STRIDE);
  let wasAhead = false;
  for (let k = 0; k <= pieces; k++) {
    let far = from + ((to - from) * k) / pieces;
    const isAhead = look(view, far).ahead > 0;
    if (wasAhead && !isAhead) {
      let near = far - (to - from) / pieces;
      for (let i = 0; i < HALVINGS; i++) {
        const middle = (near + far) / 2;
        if (look(view, middle).ahead > 0) near = middle;
        else far = middle;
      }
      feet.push(footAt(view, near));
    }
    wasAhead = isAhead;
  }
  return feet;
}

/** The nearest; of equally near ones the first. */
function nearest(feet: readonly Interception[]): Interception {
  return feet.reduce((best, foot) => (Math.abs(foot.crossTrack) < Math.abs(best.crossTrack) - SAME ? foot : best));
}

/** The foot on an edge of no length: its start, counted right. */
function pointFoot({ line, lon, lat }: View): Interception {
  return { alongTrack: 0, crossTrack: WGS84.Inverse(line.lat1, line.lon1, lat, lon, Geodesic.DISTANCE).s12! };
}

/**
 * The foot of a point on the endless geodesic of an edge: the nearest within half a turn of the ellipsoid either way of
 * the edge's middle; of equally near ones the start of the edge, else the first. An edge of no length has its start.
 */
export function footOnLine(view: View): Interception {
  if (!(view.line.s13 > POINTLIKE)) return pointFoot(view);
  const middle = view.line.s13 / 2;
  const foot = plainFoot(view);
  if (foot && Math.abs(foot.alongTrack - middle) < HALF_TURN - STRIDE) return foot;
  // A geodesic comes back beside itself after a turn: the foot may be nearer at the other end of the turn.
  const reach = HALF_TURN + STRIDE;
  return nearest([footAt(view, 0), ...feetBetween(view, middle - reach, middle + reach)]);
}

/** The nearest place of an edge, ends included; the first of equally near ones. */
export function footOnSegment(view: View): Interception {
  const length = view.line.s13;
  if (!(length > POINTLIKE)) return pointFoot(view);
  const foot = plainFoot(view);
  if (foot) {
    const nearer = Math.min(Math.max(foot.alongTrack, 0), length);
    if (Math.abs(foot.alongTrack - nearer) <= SAME) return { alongTrack: nearer, crossTrack: foot.crossTrack };
    // away from the foot the distance grows for half a turn: past that the other end could be the nearer one
    if (Math.abs(foot.alongTrack - (length - nearer)) < HALF_TURN - STRIDE) {
      return footAt(view, nearer, nearer ? 'end' : 'start');
    }
  }
  const between = foot ? [] : feetBetween(view, 0, length);
  return nearest([footAt(view, 0, 'start'), ...between, footAt(view, length, 'end')]);
}
