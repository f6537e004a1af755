/** A corner as its neighbourhood shows it, in the plane: metres, radians, everything positive towards the turn. */
export interface Corner {
  /** Radians turned at the corner, above 0, below π. */
  readonly bend: number;
  /** Curvature of what arrives and of what leaves, 1/m: positive where it turns the way the corner does, 0 a straight line. */
  readonly curvature: readonly [before: number, after: number];
}

/** An arc that is tangent to both sides of a corner. */
export interface Fillet {
  readonly radius: number;
  /** Radians. */
  readonly sweep: number;
  /** Metres from the corner, along what arrives and what leaves, to where they touch the arc. */
  readonly tangent: readonly [before: number, after: number];
}

/** Steps in which a fillet beside an arc grows: each a small part of the room and of the turn, so that the next solution is near. */
const STEPS = 16;

/** Enough for the radius to grow from nothing to a thousand rooms, and for the last step to be halved to rounding. */
const MOST_STEPS = 400;

/** Metres by which the centres seen from both sides may differ. */
const MEETING = 1e-9;

/**
 * The arc of `radius` metres in a corner, or the widest that touches both sides within `room` metres of it.
 *
 * Between straight lines its points of tangency lie r tan(θ/2) from the corner. Beside an arc there is no such formula
 * worth having: the fillet grows from nothing, each time to where the lines r metres inside of both sides meet. As it grows, its
 * tangents grow by tan(φ/2) / (1 − rκ) for each metre of radius, φ being its sweep and κ the curvature of that side.
 */
export function fitFillet(corner: Corner, radius: number, room: readonly [before: number, after: number]): Fillet {
  const {
    bend,
    curvature: [before, after],
  } = corner;
  if (before === 0 && after === 0) {
    const tangent = radius * Math.tan(bend / 2);
    const kept = Math.min(tangent, ...room);
    return { radius: radius * (kept / tangent), sweep: bend, tangent: [kept, kept] };
  }
  let fitting: Fillet = { radius: 0, sweep: bend, tangent: [0, 0] };
  let most = 1 / STEPS;
  for (let k = 0; k < MOST_STEPS && fitting.radius < radius; k++) {
    const half = Math.tan(fitting.sweep / 2);
    const growth = [half / (1 - fitting.radius * before), half / (1 - fitting.radius * after)];
    const turning = Math.abs(before * growth[0] + after * growth[1]);
    const step = most * Math.min(radius, room[0] / growth[0], room[1] / growth[1], (2 * fitting.sweep) / turning);
    const next = grown(corner, Math.min(fitting.radius + step, radius), fitting);
    if (next !== undefined && follows(next, fitting, room)) fitting = next;
    else most /= 2;
  }
  return fitting;
}

/** Whether a fillet is the next wider one, not another that touches the sides prolonged. */
function follows({ sweep, tangent }: Fillet, narrower: Fillet, room: readonly [number, number]): boolean {
  const grows = tangent[0] >= narrower.tangent[0] && tangent[1] >= narrower.tangent[1];
  return grows && tangent[0] <= room[0] && tangent[1] <= room[1] && sweep > 0 && sweep < Math.PI;
}

/** The fillet of another radius, by Newton's method from one of nearly that radius; undefined where it finds none. */
function grown({ bend, curvature: [before, after] }: Corner, radius: number, near: Fillet): Fillet | undefined {
  let [s, t] = near.tangent;
  const [cos, sin] = [Math.cos(bend), Math.sin(bend)];
  for (let i = 0; i < 10; i++) {
    // x along what arrives, y towards the turn; both centres are `radius` inside of their side
    const [back, backIn] = travelled(before, s);
    const [on, onIn] = travelled(after, t);
    const [alpha, beta] = [-before * s, bend + after * t];
    const apartX = -back - radius * Math.sin(alpha) - (on * cos - onIn * sin - radius * Math.sin(beta));
    const apartY = backIn + radius * Math.cos(alpha) - (on * sin + onIn * cos + radius * Math.cos(beta));
    const [ax, ay] = [Math.cos(alpha) * (1 - radius * before), Math.sin(alpha) * (1 - radius * before)];
    const [bx, by] = [Math.cos(beta) * (1 - radius * after), Math.sin(beta) * (1 - radius * after)];
    if (Math.hypot(apartX, apartY) < MEETING) return { radius, sweep: beta - alpha, tangent: [s, t] };
    const across = ax * by - ay * bx;
    s += (apartX * by - apartY * bx) / across;
    t += (ax * apartY - ay * apartX) / across;
  }
  return undefined;
}

/** Where a line of constant curvature is after so many metres: along its first direction, and to the side it turns to. */
function travelled(curvature: number, metres: number): [along: number, aside: number] {
  if (curvature === 0) return [metres, 0];
  return [Math.sin(curvature * metres) / curvature, (2 * Math.sin((curvature * metres) / 2) ** 2) / curvature];
}
