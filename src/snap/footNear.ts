import type { Route } from '../route/Route';
import type { SegmentTree } from '../route/SegmentTree';
import { segmentAt } from '../route/segmentAt';

/** How far to either side of the matched place a foot is looked for first, metres along the route. */
const WINDOW = 12;

/** Weight of the distance along the route against that from it: enough to tell a leg from the other on the same line. */
const STAY = 0.02;

/**
 * Drops the position that the tree has been moved to onto the route near a place along it: onto the foot that is nearest
 * of its surroundings, on the leg of that place where another runs beside it. Leaves the answer in the tree's fields.
 */
export function footNear({ alongTrack }: Route, tree: SegmentTree, place: number): void {
  const last = tree.size - 1;
  let segment = segmentAt(alongTrack, Math.max(place - WINDOW, 0));
  let best = segment;
  let least = Infinity;
  for (; segment <= last && alongTrack[segment] <= place + WINDOW; segment++) {
    const distance = tree.measure(segment);
    const away = alongTrack[segment] + tree.fraction * (alongTrack[segment + 1] - alongTrack[segment]) - place;
    const cost = distance * distance + STAY * away * away;
    if (cost < least) {
      least = cost;
      best = segment;
    }
  }
  // down to the foot itself: what follows is nearer as long as the foot is the end that it starts from
  let distance = tree.measure(best);
  for (;;) {
    const next = tree.fraction === 1 ? best + 1 : tree.fraction === 0 ? best - 1 : -1;
    if (next < 0 || next > last || !(tree.measure(next) < distance)) break;
    distance = tree.distance;
    best = next;
  }
  tree.settle(best);
}
