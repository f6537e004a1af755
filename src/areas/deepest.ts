import { unwrapLongitude } from '../geodesy';
import { degreeMetres } from './degreeMetres';
import type { Region } from './Region';
import type { WalkedPart } from './walkLine';

/** Metres that the depth may be short of the deepest. */
const NEAR_ENOUGH = 1e-3;

/** Metres around a place in which edges are first looked for. */
const FIRST_REACH = 16;

/** Squares of metres further by this are further whatever rounding does. */
const SURELY = 1 + 1e-9;

/** The nearest edge to a place: the metres to it, and its ends in degrees. */
interface Nearest {
  readonly distance: number;
  readonly edge: readonly [ax: number, ay: number, bx: number, by: number];
}

/** The deepest place of a stay. */
export interface Deepest {
  /** Metres from the nearest edge. */
  readonly distance: number;
  /** The part that it lies in, and the share of that. */
  readonly part: number;
  readonly share: number;
}

/**
 * Where a line is furthest from the edges of a region, in metres, to a millimetre within a kilometre of them.
 *
 * @remarks The distance from an edge rises no faster than one moves, and between two places it is no more than the greater
 * of theirs: what cannot be deeper than the deepest found is not looked at.
 */
export function deepest(region: Region, parts: readonly Omit<WalkedPart, 'standing'>[]): Deepest {
  let best: Deepest = { distance: -1, part: 0, share: 0 };
  /** Metres moved, beyond which a place can be deeper than the best. */
  let within = 0;
  let known: Nearest | undefined;
  let end: readonly [number, number] | undefined;
  const note = (place: Nearest, part: number, share: number) => {
    if (place.distance > best.distance) best = { distance: place.distance, part, share };
  };
  parts.forEach(({ x0, y0, x1, y1 }, i) => {
    const goesOn = end !== undefined && end[0] === x0 && end[1] === y0;
    end = [x1, y1];
    const { east, north } = degreeMetres((y0 + y1) / 2);
    const length = Math.hypot((x1 - x0) * east, (y1 - y0) * north);
    if (goesOn && length <= within) {
      within -= length;
      known = undefined;
      return;
    }
    const at = (share: number) => [x0 + share * (x1 - x0), y0 + share * (y1 - y0)] as const;
    const start: Nearest = (goesOn && known) || nearestEdge(region, x0, y0);
    note(start, i, 0);
    const finish = nearestEdge(region, x1, y1, start.distance + length);
    note(finish, i, 1);
    const open: { from: number; to: number; a: Nearest; b: Nearest }[] = [{ from: 0, to: 1, a: start, b: finish }];
    for (let one = open.pop(); one !== undefined; one = open.pop()) {
      const { from, to, a, b } = one;
      const most = Math.min(
        Math.max(a.distance, metresTo(...a.edge, ...at(to), east, north)),
        Math.max(b.distance, metresTo(...b.edge, ...at(from), east, north)),
        (a.distance + b.distance + (to - from) * length) / 2,
      );
      if (most <= best.distance + NEAR_ENOUGH || to - from < 1e-9) continue;
      const middle = (from + to) / 2;
      const c = nearestEdge(region, ...at(middle), most + NEAR_ENOUGH);
      note(c, i, middle);
      open.push({ from, to: middle, a, b: c }, { from: middle, to, a: c, b });
    }
    known = finish;
    within = Math.max(0, best.distance - finish.distance);
  });
  return best;
}

/**
 * The edge of a region nearest to a place.
 *
 * @param within - Metres in which there surely is one, where that is known.
 */
function nearestEdge(region: Region, longitude: number, py: number, within?: number): Nearest {
  const { index } = region;
  const px = unwrapLongitude(longitude, index.near);
  const { x, y, first, end, polygonOf, groupBoxes } = index;
  const { east, north } = degreeMetres(py);
  let best: Nearest = { distance: Infinity, edge: [px, py, px, py] };
  for (let reach = Math.max(within ?? FIRST_REACH, NEAR_ENOUGH); ; reach *= 4) {
    const groups = region.groupsIn({
      minX: px - reach / east,
      minY: py - reach / north,
      maxX: px + reach / east,
      maxY: py + reach / north,
    });
    for (const group of groups) {
      const box = 4 * group;
      const aside = Math.max(groupBoxes[box] - px, px - groupBoxes[box + 2], 0) * east;
      const ahead = Math.max(groupBoxes[box + 1] - py, py - groupBoxes[box + 3], 0) * north;
      if (aside * aside + ahead * ahead > SURELY * best.distance * best.distance) continue;
      for (let e = first[group]; e < end[group]; e++) {
        const ax = x[e];
        const ay = y[e];
        const bx = x[e + 1];
        const by = y[e + 1];
        if (metresTo(ax, ay, bx, by, px, py, east, north) >= best.distance) continue;
        const bounds = region.bounds(e, polygonOf[group]);
        for (let k = 0; k < bounds.length; k += 2) {
          const s = bounds[k];
          const t = bounds[k + 1];
          const edge = [ax + s * (bx - ax), ay + s * (by - ay), ax + t * (bx - ax), ay + t * (by - ay)] as const;
          const distance = metresTo(...edge, px, py, east, north);
          if (distance < best.distance) best = { distance, edge };
        }
      }
    }
    // what lies further away than the box reaches may be nearer than what was found in its corners
    if (best.distance <= reach || reach > 4e7) return best;
  }
}

/** Metres from a place to an edge that is straight in degrees, in a plane. */
function metresTo(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  px: number,
  py: number,
  east: number,
  north: number,
): number {
  const ux = (px - ax) * east;
  const uy = (py - ay) * north;
  const ex = (bx - ax) * east;
  const ey = (by - ay) * north;
  const square = ex * ex + ey * ey;
  const share = square > 0 ? Math.min(1, Math.max(0, (ux * ex + uy * ey) / square)) : 0;
  const dx = ux - share * ex;
  const dy = uy - share * ey;
  return Math.sqrt(dx * dx + dy * dy);
}
