import type { Corner, CornerPassage } from './Assessment';
import { round } from './drawnLine';
import type { PlacedRecording } from './PlacedRecording';
import type { RouteGrid } from './RouteGrid';

/** A corner turns more than this many degrees within so many metres: common practice, no source. */
const LEAST_TURN = 30;
const WITHIN = 30;
/** A sharp corner is judged over the metres just before and after it too: that is where it is cut or overshot. */
const BESIDE = 10;

export const CORNER_RULE = `A corner turns ${LEAST_TURN}° or more within ${WITHIN} m; it is judged over itself and ${BESIDE} m on both sides, offsets outside of the turn positive. Within the lever arm, at least 1 m, it counts as kept.`;

type Place = Omit<Corner, 'passages'> & { readonly first: number; readonly end: number };

/**
 * Where the route turns by more than 30° within 30 m, and how each recording took it.
 *
 * @param tolerance metres by which inside or outside must be exceeded to be called so
 */
export function findCorners(
  grid: RouteGrid,
  placed: readonly { readonly name: string; readonly placed: PlacedRecording }[],
  tolerance: number,
): Corner[] {
  return grid.once(cornerPlaces).map(({ first, end, ...corner }) => ({
    ...corner,
    passages: placed.map(({ name, placed: one }) => passage(grid, name, one, { first, end, ...corner }, tolerance)),
  }));
}

function cornerPlaces(grid: RouteGrid): Place[] {
  const { middle } = grid;
  const bend = bendsOf(grid);
  const least = (LEAST_TURN * Math.PI) / 180;
  const half = WITHIN / 2;
  const turns: Turn[] = [];
  let windows: Turn | undefined;
  const close = () => {
    if (!windows) return;
    const found = shrunk(bend, windows);
    const before = turns.at(-1);
    // windows about the limit come and go along one bend
    if (before?.sign === found.sign && found.first <= before.end) {
      turns[turns.length - 1] = { ...before, end: Math.max(before.end, found.end) };
    } else turns.push(found);
    windows = undefined;
  };
  let low = 0;
  let high = 0;
  for (let k = 0; k < grid.count; k++) {
    while (middle[k] - middle[low] > half) low++;
    while (high + 1 < grid.count && middle[high + 1] - middle[k] <= half) high++;
    // A hair under 30° is 30°: a polyline turns in steps.
    const turn = bend[high] - bend[low];
    const sign = Math.abs(turn) > least - 1e-9 ? Math.sign(turn) : 0;
    if (windows?.sign !== sign) close();
    if (sign !== 0) windows = { first: windows?.first ?? low, end: high, sign };
  }
  close();
  return turns
    .filter(({ first, end }) => Math.abs(bend[end] - bend[first]) > least - 1e-9)
    .map((turn, i) => place(grid, bend, turn, i + 1));
}

/** Bins from `first` to `end` that turn to the left (1) or right (-1). */
interface Turn {
  readonly first: number;
  readonly end: number;
  readonly sign: number;
}

/**
 * Radians turned since the start at each bin's middle, left positive. A vertex that is no corner by itself stands for the bend
 * about it, half of the way to the nearer of the turns beside it: a curve drawn with few points turns as evenly as it was meant
 * to.
 */
function bendsOf(grid: RouteGrid): Float64Array {
  const { turn, edges, width, route } = grid;
  const at = route.alongTrack;
  const turns = Array.from(turn.keys()).filter((v) => Math.abs(turn[v]) > NO_TURN);
  const bend = new Float64Array(grid.count);
  turns.forEach((v, i) => {
    const beside = Math.min(at[v] - (at[turns[i - 1]] ?? -Infinity), (at[turns[i + 1]] ?? Infinity) - at[v]);
    const alone = Math.abs(turn[v]) * 180 > LEAST_TURN * Math.PI || beside > WITHIN;
    const reach = alone ? 0 : beside / 2;
    const end = grid.binAt(Math.min(at[v] + reach, route.length));
    for (let k = grid.binAt(Math.max(0, at[v] - reach)); k <= end; k++) {
      const inside = Math.min(edges[k] + width[k], at[v] + reach) - Math.max(edges[k], at[v] - reach);
      bend[k] += reach > 0 ? (turn[v] * inside) / (2 * reach) : turn[v];
    }
  });
  let turned = 0;
  return bend.map((here) => {
    turned += here;
    return turned - here / 2;
  });
}

/** Radians: what rounding leaves of a straight line, and less than a curve of 10 km turns from one vertex to the next. */
const NO_TURN = 1e-5;

/** From where it begins to turn to its side to where it ends, within the windows that turned enough. */
function shrunk(bend: Float64Array, { first: from, end: to, sign }: Turn): Turn {
  let first = from;
  for (let k = from; k <= to && sign * bend[k] < sign * bend[from] + NO_TURN; k++) {
    if (sign * bend[k] <= sign * bend[first] + NO_TURN) first = k;
  }
  let end = to;
  for (let k = to; k > first && sign * bend[k] > sign * bend[to] - NO_TURN; k--) {
    if (sign * bend[k] >= sign * bend[end] - NO_TURN) end = k;
  }
  return { first, end, sign };
}

function place(grid: RouteGrid, bend: Float64Array, { first, end, sign }: Turn, number: number): Place {
  const whole = bend[end] - bend[first];
  let at = first;
  while (at + 1 < end && Math.abs(bend[at] - bend[first]) < Math.abs(whole) / 2) at++;
  const section = grid.section[at];
  return {
    number,
    section: section < 0 ? null : grid.route.sections[section].name,
    from: grid.edges[first],
    to: grid.edges[end + 1],
    alongTrack: grid.middle[at],
    position: grid.positionAt(at).map((degrees) => round(degrees, 7)),
    turn: (Math.abs(whole) * 180) / Math.PI,
    direction: sign > 0 ? 'left' : 'right',
    first,
    end: end + 1,
  };
}

function passage(
  grid: RouteGrid,
  name: string,
  placed: PlacedRecording,
  corner: Place,
  tolerance: number,
): CornerPassage {
  const first = grid.binAt(Math.max(0, corner.from - BESIDE));
  const end = grid.binAt(Math.min(grid.route.length, corner.to + BESIDE)) + 1;
  // The outside of a left turn is the right.
  const outward = corner.direction === 'left' ? 1 : -1;
  let inside = Number.POSITIVE_INFINITY;
  let outside = Number.NEGATIVE_INFINITY;
  let area = 0;
  let covered = 0;
  let length = 0;
  for (let k = first; k < end; k++) {
    length += grid.width[k];
    const offset = outward * placed.offset[k];
    if (Number.isNaN(offset)) continue;
    covered += grid.width[k];
    area += offset * grid.width[k];
    inside = Math.min(inside, offset);
    outside = Math.max(outside, offset);
  }
  const coverage = covered / length;
  if (covered === 0) {
    return { recording: name, coverage, inside: null, outside: null, mean: null, area: null, outcome: null };
  }
  const outcome =
    Math.max(-inside, outside) <= tolerance ? 'kept' : -inside > outside ? 'cut inside' : 'overshot outside';
  return {
    recording: name,
    coverage,
    inside,
    outside,
    mean: area / covered,
    area,
    outcome: coverage < 0.5 ? null : outcome,
  };
}
