import { ECCENTRICITY2, SEMI_MAJOR } from '../geodesy/ellipsoid';
import type { Curve } from './Curve';
import { FreeInterval } from './FreeInterval';
import { surfaceDistance } from './surfaceDistance';

/**
 * Distances up to this much over the one asked for count as within, in metres: the last bits of earth-centred coordinates
 * are a nanometre, and a leash that fits exactly must fit.
 */
const TOLERANCE = 1e-7;

// Smallest radius of curvature, b² / a. No distance is longer than the one its chord has on a sphere of this radius.
const SMALLEST_RADIUS = SEMI_MAJOR * (1 - ECCENTRICITY2);

// Fewer cells than this are walked sooner than jumped.
const WORTH_A_JUMP = 6;

/**
 * Whether a monotone path through the free space of two curves leads from both starts to both ends: whether their Fréchet
 * distance is at most `distance` metres.
 *
 * The diagram is swept by the vertices of `a`; of each column only the parts of `b` reachable in it are kept, as runs that
 * may span many edges. Between two columns only cells that can be reached are looked at; where a run is free in both
 * columns the strip between is free as well (free space is convex in a cell), so that it is jumped, its end found in the
 * tree of `b`. The cost follows the outline of the reachable space, not its area.
 *
 * @see Alt, Godau, Computing the Fréchet distance between two polygonal curves, IJCGA 5 (1995),
 * doi:10.1142/S0218195995000064
 */
export function freeSpacePath(a: Curve, b: Curve, distance: number): boolean {
  const limit = distance + TOLERANCE;
  const [va, vb] = [a.vertices, b.vertices];
  const ends = b.edges;
  if (between(a, 0, b, 0) > limit || between(a, a.edges, b, ends) > limit) return false;

  const free = new FreeInterval(limit);
  const chord2 = (2 * SMALLEST_RADIUS * Math.sin(Math.min(limit / (2 * SMALLEST_RADIUS), Math.PI / 2))) ** 2;
  const firstBeyond = (from: number, column: number) =>
    b.boxes.firstBeyond(from, va.x[column], va.y[column], va.z[column], chord2);

  // runs of b reachable in a column: from, to, from, to …, an edge and its fraction in one number
  let runs = new Float64Array(64);
  let next = new Float64Array(64);
  let count = 0;

  // the first column can be climbed as far as it is free
  let climbed = Math.max(0, firstBeyond(0, 0) - 1);
  for (; climbed < ends; climbed++) {
    free.measure(vb, climbed, va, 0);
    if (free.low > 0 || free.high < 1) break;
  }
  runs[count++] = 0;
  runs[count++] = climbed < ends && free.low === 0 ? climbed + free.high : climbed;

  // whether the line along the start of b is free as far as this column
  let floor = true;

  for (let i = 0; i < a.edges; i++) {
    let written = 0;
    let k = 0;
    // least reachable fraction of this edge of a at vertex j of b; over 1 where there is none
    let below = 2;
    let j = count > 0 ? Math.min(Math.floor(runs[0]), ends - 1) : 0;
    if (floor) {
      free.measure(va, i, vb, 0);
      if (free.low === 0 && free.high >= 0) {
        below = 0;
        j = 0;
      }
      floor = free.low === 0 && free.high === 1;
    }
    while (j < ends) {
      while (k < count && runs[k + 1] < j) k += 2;
      const left = k < count && runs[k] <= j + 1 ? Math.max(0, runs[k] - j) : 2;
      if (left > 1 && below > 1) {
        if (k >= count) break;
        j = Math.min(Math.floor(runs[k]), ends - 1);
        continue;
      }
      free.measure(vb, j, va, i + 1);
      const low = below <= 1 ? free.low : Math.max(free.low, left);
      if (low <= free.high) {
        if (written > 0 && j + low - next[written - 1] < 1e-12 * ends) next[written - 1] = j + free.high;
        else {
          if (written + 2 > next.length) next = grown(next);
          next[written++] = j + low;
          next[written++] = j + free.high;
        }
      }
      j++;
      free.measure(va, i, vb, j);
      const lowest = left <= 1 ? free.low : Math.max(free.low, below);
      below = lowest <= free.high ? lowest : 2;
      if (left <= 1 && below === 0 && free.high === 1 && runs[k + 1] - j >= WORTH_A_JUMP) {
        const last = Math.min(Math.floor(runs[k + 1]), firstBeyond(j, i + 1) - 1);
        if (last > j && written > 0 && next[written - 1] === j) {
          next[written - 1] = last;
          j = last;
        }
      }
    }
    if (written === 0 && !floor) return false;
    [runs, next] = [next, runs];
    count = written;
  }
  return count > 0 && runs[count - 1] >= ends;
}

function between(a: Curve, i: number, b: Curve, j: number): number {
  const [p, q] = [a.vertices, b.vertices];
  return surfaceDistance(p.x[i], p.y[i], p.z[i], q.x[j], q.y[j], q.z[j]);
}

function grown(column: Float64Array): Float64Array<ArrayBuffer> {
  const wider = new Float64Array(2 * column.length);
  wider.set(column);
  return wider;
}
