import { alongEdge, type SegmentTree, segmentAt } from '../index';
import type { Route } from '../model';

/** How far to either side of the matched place a foot is looked for first, metres along the route. */
const WINDOW = 12;

/** Weight of the distance along the route against that from it: enough to tell a leg from the other on the same line. */
const STAY = 0.02;

/** Metres: the way out and the way back on one line are equally near, but for rounding. */
const TIE = 1e-6;

/** Metres: what lies further off than this is on no part of the route hereabouts, and no nearer foot is looked for. */
const AWAY = 10_000;

/**
 * Drops the position that the tree has been moved to onto the route near a place along it: onto the foot that is nearest
 * of its surroundings, on the leg of that place where another runs beside it. Leaves the answer in the tree's fields.
 *
 * @remarks Time goes with the edges on the way down to the foot, no further than 10 km.
 */
export function footNear({ alongTrack }: Route, tree: SegmentTree, place: number): void {
  const last = tree.size - 1;
  let segment = segmentAt(alongTrack, Math.max(place - WINDOW, 0));
  let best = segment;
  let distance = Infinity;
  let least = Infinity;
  /** Metres to the segment measured last, to the one before the best and to the one after it; NaN where it wasn't measured. */
  let latest = Number.NaN;
  let behind = Number.NaN;
  let ahead = Number.NaN;
  for (; segment <= last && alongTrack[segment] <= place + WINDOW; segment++) {
    const here = tree.measure(segment);
    const away = alongEdge(alongTrack, segment, tree.fraction) - place;
    const cost = here * here + STAY * away * away;
    if (cost < least) {
      least = cost;
      best = segment;
      distance = here;
      behind = latest;
      ahead = Number.NaN;
    } else if (segment === best + 1) ahead = here;
    latest = here;
  }
  // down to the foot itself, from neighbour to neighbour as long as one is nearer
  if (distance < AWAY) {
    const from = best;
    if (Number.isNaN(ahead)) ahead = from < last ? tree.measure(from + 1) : Infinity;
    if (Number.isNaN(behind)) behind = from > 0 ? tree.measure(from - 1) : Infinity;
    if (ahead < distance - TIE) {
      distance = ahead;
      best = from + 1;
    }
    if (behind < distance - TIE) {
      distance = behind;
      best = from - 1;
    }
    const way = best - from;
    for (let next = best + way; way !== 0 && next >= 0 && next <= last && distance < AWAY; next += way) {
      const there = tree.measure(next);
      if (!(there < distance - TIE)) break;
      distance = there;
      best = next;
    }
  }
  tree.settle(best, distance < AWAY ? tree.size : best + 1);
}
