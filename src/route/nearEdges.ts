import type { EdgeBoxes } from '../index';

/** A place in earth-centred metres, and how far about it to look. */
export interface Ball {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly radius: number;
}

/** What a search may still look at: boxes and edges. */
export interface Patience {
  left: number;
}

/**
 * Goes through the edges of a line, in its order from `from` on, whose box lies within a ball, until one is `wanted`;
 * returns that one, -1 where there is none, or patience has run out.
 */
export function nearEdges(
  boxes: EdgeBoxes,
  edges: number,
  from: number,
  { x, y, z, radius }: Ball,
  patience: Patience,
  wanted: (edge: number) => boolean,
): number {
  const limit = radius * radius;
  let at = from;
  let node = boxes.leafOf(from);
  while (node > 0 && at < edges && patience.left > 0) {
    patience.left--;
    const isNear = boxes.squaredDistance(node, x, y, z) <= limit;
    if (isNear && node < boxes.leaves) {
      node *= 2;
      continue;
    }
    const end = Math.min(boxes.endEdge(boxes.lastLeaf(node)), edges);
    for (; isNear && at < end; at++) {
      patience.left--;
      if (wanted(at)) return at;
    }
    at = end;
    // to the right neighbour, as large a node as begins there
    while ((node & 1) === 1) node >>= 1;
    if (node > 0) node++;
  }
  return -1;
}
