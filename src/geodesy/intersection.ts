import type { Position } from 'geojson';
import type { GivenPosition } from '../model';
import { edgeLine, positionAlong } from './edgeLine';
import { FLATTENING, type GeodesicLine, RADIAN, SEMI_MAJOR, WGS84 } from './ellipsoid';
import { footOnLine, POINTLIKE, SAME } from './interception';

/** Where two geodesics cross. */
export interface Intersection {
  readonly position: Position;
  /** Metres from the start of the first geodesic, negative behind it. */
  readonly alongFirst: number;
  /** Metres from the start of the second. */
  readonly alongSecond: number;
}

/** A place on each of two lines, metres from their starts, and the sine of the angle under which they meet there. */
type Crossing = readonly [first: number, second: number, sine: number];

/**
 * Steps until two lines are taken for one: those apart by 1e-13 rad or more, a micrometre at the widest, never need over 5
 * (test/geodesy/intersection.test.ts), so that no bracketed search need stand behind.
 */
const STEPS = 10;

/** After a step no longer than this, in metres, the next would be under 1e-9 m: convergence is quadratic. */
const SETTLED = 1e-4;

/** Sine of the angle under which two lines must cross to be different ones without a closer look. */
const CLEARLY_CROSSING = 1e-5;

/**
 * The crossing of the endless geodesics `a`–`b` and `c`–`d` that is closest to both edges.
 *
 * - Geodesics cross again and again round the ellipsoid; the one taken has the smallest sum of along-track distances from
 *   the middles of the two edges. Where the edges themselves cross, it is that crossing.
 * - `undefined` where an edge has no direction (its ends the same) or lies along the geodesic of the other, to within
 *   2e-8 m: then they meet nowhere or everywhere.
 *
 * @example
 * intersection([5, 52], [6, 51.4], [4.5, 51.5], [5.5, 52]) // → { position: [5.22745…, 51.86566…], alongFirst: 21637.1031…, alongSecond: 64703.2463… }
 * intersection([0, 0], [1, 0], [3, 0], [2, 0]) // → undefined
 *
 * @throws {InputError} a position not on the globe
 * @remarks Converged to 1e-9 m; along lines that cross at a small angle the crossing is less sure by one over the sine of
 * that angle. 3–5 rounds of one inverse and two direct solutions each; far crossings take up to five searches.
 * @see Karney, Geodesic intersections, J. Surv. Eng. 150 (2024), arXiv:2308.00495
 * @see Baselga & Martínez-Llario, Stud. Geophys. Geod. 62 (2018), doi:10.1007/s11200-017-1020-z
 */
export function intersection(
  a: GivenPosition,
  b: GivenPosition,
  c: GivenPosition,
  d: GivenPosition,
): Intersection | undefined {
  const first = edgeLine(a, b, ['a', 'b']);
  const second = edgeLine(c, d, ['c', 'd']);
  if (!(first.s13 > POINTLIKE && second.s13 > POINTLIKE)) return undefined;
  const crossing = closestCrossing(first, second);
  if (!crossing) return undefined;
  const [alongFirst, alongSecond] = crossing;
  return { position: positionAlong(first, alongFirst), alongFirst, alongSecond };
}

/** As {@link intersection}, in metres along the two, for edges of some length. */
export function closestCrossing(first: GeodesicLine, second: GeodesicLine): Crossing | undefined {
  const [x, y] = [first.s13 / 2, second.s13 / 2];
  const far = (crossing: Crossing) => Math.abs(crossing[0] - x) + Math.abs(crossing[1] - y);
  const quarter = (Math.PI / 2) * SEMI_MAJOR;
  // Crossings are at least half a turn apart in this sum: one nearer than that is the closest.
  const halfTurn = 2 * quarter * (1 - FLATTENING);
  let best: Crossing | undefined;
  for (const [dx, dy] of [
    [0, 0],
    [quarter, 0],
    [-quarter, 0],
    [0, quarter],
    [0, -quarter],
  ]) {
    const found = converge(first, second, x + dx, y + dy);
    if (found && (!best || far(found) < far(best))) best = found;
    if (best && far(best) < halfTurn) break;
  }
  if (!best || (best[2] < CLEARLY_CROSSING && (liesOn(first, second) || liesOn(second, first)))) return undefined;
  return best;
}

/** Follows both lines to a crossing, each round as if the ellipsoid were a sphere. */
function converge(first: GeodesicLine, second: GeodesicLine, x: number, y: number): Crossing | undefined {
  for (let i = 0; i < STEPS; i++) {
    const p = first.Position(x);
    const q = second.Position(y);
    const { s12, azi1, azi2 } = WGS84.Inverse(p.lat2!, p.lon2!, q.lat2!, q.lon2!);
    // the triangle of p, q and the crossing: the angle at p, the outer angle at q
    let atP = (azi1! - p.azi2!) * RADIAN;
    let atQ = (azi2! - q.azi2!) * RADIAN;
    const sine = Math.sin(atQ - atP);
    // so near each other the direction from one to the other is noise, and a step that way could lead anywhere
    if (s12! < SAME) return [x, y, Math.abs(sine)];
    if (sine < 0) {
      atP = -atP;
      atQ = -atQ;
    }
    const sinP = Math.sin(atP);
    const cosP = Math.cos(atP);
    const sinQ = Math.sin(atQ);
    const cosQ = Math.cos(atQ);
    const sin = Math.sin(s12! / SEMI_MAJOR);
    const cos = Math.cos(s12! / SEMI_MAJOR);
    const stepX = SEMI_MAJOR * Math.atan2(sinQ * sin, sinQ * cosP * cos - cosQ * sinP);
    const stepY = SEMI_MAJOR * Math.atan2(sinP * sin, cosP * sinQ - sinP * cosQ * cos);
    x += stepX;
    y += stepY;
    if (Math.max(Math.abs(stepX) + Math.abs(stepY), s12!) < SETTLED) return [x, y, Math.abs(sine)];
  }
  return undefined;
}

/** Whether an edge lies on a line all along, as far as positions can tell. */
function liesOn(line: GeodesicLine, edge: GeodesicLine): boolean {
  return [0, edge.s13 / 2, edge.s13].every((along) => {
    const [lon, lat] = positionAlong(edge, along);
    return Math.abs(footOnLine({ line, lon, lat }).crossTrack) < SAME;
  });
}
