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
  return cornerPlaces(grid).map(({ first, end, ...corner }) => ({
    ...corner,
    passages: placed.map(({ name, placed: one }) => passage(grid, name, one, { first, end, ...corner }, tolerance)),
  }));
}

function cornerPlaces(grid: RouteGrid): Place[] {
  const { turned, middle } = grid;
  const least = (LEAST_TURN * Math.PI) / 180;
  const half = WITHIN / 2;
  const places: Place[] = [];
  let first = -1;
  let low = 0;
  let high = 0;
  let sign = 0;
  for (let k = 0; k <= grid.count; k++) {
    let turning = 0;
    if (k < grid.count) {
      while (middle[k] - middle[low] > half) low++;
      while (high + 1 < grid.count && middle[high + 1] - middle[k] <= half) high++;
      // A hair under 30° is 30°: a polyline turns in steps.
      const turn = turned[high] - turned[low];
      turning = Math.abs(turn) > least - 1e-9 ? Math.sign(turn) : 0;
    }
    if (turning === sign) continue;
    if (sign !== 0) places.push(place(grid, first, k, sign, places.length + 1));
    first = k;
    sign = turning;
  }
  return places;
}

/** The bins in which the turning window was over the limit hold the corner in their middle: shrunk to where it turns. */
function place(grid: RouteGrid, from: number, to: number, sign: number, number: number): Place {
  const { turned } = grid;
  let first = from;
  let end = to;
  while (first + 1 < end && turned[first + 1] === turned[first]) first++;
  while (end - 1 > first && turned[end - 1] === turned[end - 2]) end--;
  const before = turned[first];
  const whole = turned[Math.min(end, grid.count - 1)] - before;
  let at = first;
  while (at + 1 < end && Math.abs(turned[at] - before) < Math.abs(whole) / 2) at++;
  const section = grid.section[at];
  return {
    number,
    section: section < 0 ? null : grid.route.sections[section].name,
    from: grid.edges[first],
    to: grid.edges[end],
    alongTrack: grid.middle[at],
    position: [round(grid.lon[at], 7), round(grid.lat[at], 7)],
    turn: (Math.abs(whole) * 180) / Math.PI,
    direction: sign > 0 ? 'left' : 'right',
    first,
    end,
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
