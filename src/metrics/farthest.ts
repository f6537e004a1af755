import type { Position } from 'geojson';
import type { Curve } from './Curve';
import type { NearestEdge } from './NearestEdge';
import { positionOf } from './surfaceDistance';

// How much the true maximum may exceed the one found, metres.
const TOLERANCE = 1e-7;

// One vertex in so many is looked up first: a good early bound lets the walk alone settle nearly all others.
const STRIDE = 64;

/** The place of a curve farthest from another, and the place of the other nearest to it. */
export interface Farthest {
  /** Metres. */
  readonly distance: number;
  readonly at: Position;
  readonly nearest: Position;
}

/**
 * Where `from` is farthest from the curve of `other`, if anywhere farther than `beyond` metres.
 *
 * Every vertex is settled by a walk along the other line, or by its tree where the walk finds nothing within the maximum so
 * far. As the distance to one edge is convex along another, an edge of `from` can hold more than its ends only where the
 * nearest edge changes: it is split until one near edge bounds each piece.
 */
export function farthest(from: Curve, other: NearestEdge, beyond = -1): Farthest | undefined {
  const { vertices, gap, edges } = from;
  const { x, y, z } = vertices;
  const place = new Float64Array(3);
  let level = beyond < 0 ? -1 : beyond * beyond;
  let best: Farthest | undefined;

  /** Finds an edge within the level from the present point, or the nearest, which then is the level. */
  const settle = (guess: number, px: number, py: number, pz: number): void => {
    other.walk(guess);
    if (other.squared <= level) return;
    other.search(level);
    if (other.squared <= level) return;
    level = other.squared;
    other.measure(other.edge);
    other.curve.vertices.between(other.edge, other.fraction, place);
    best = {
      distance: Math.sqrt(level),
      at: positionOf(px, py, pz),
      nearest: positionOf(place[0], place[1], place[2]),
    };
  };

  let near = 0;
  for (let i = 0; i <= edges; i += STRIDE) {
    other.moveTo(x[i], y[i], z[i]);
    settle(near, x[i], y[i], z[i]);
    near = other.edge;
  }

  // edges that may hold more than their ends, with the near edges found for these
  const open: number[] = [];
  for (let i = 0; i <= edges; i++) {
    const nearBefore = near;
    const squaredBefore = other.squared;
    other.moveTo(x[i], y[i], z[i]);
    settle(near, x[i], y[i], z[i]);
    near = other.edge;
    if (i === 0 || gap?.[i - 1] === 1) continue;
    const squared = other.squared;
    const limit = (Math.sqrt(level) + TOLERANCE) ** 2;
    if (nearBefore === near || Math.max(squaredBefore, other.measure(nearBefore)) <= limit) continue;
    other.moveTo(x[i - 1], y[i - 1], z[i - 1]);
    if (Math.max(other.measure(near), squared) > limit) open.push(i - 1, nearBefore, near);
    other.moveTo(x[i], y[i], z[i]);
    other.offer(near);
  }

  // pieces of an edge: edge, from fraction, near edge there, to fraction, near edge there
  const pieces: number[] = [];
  const measureAt = (edge: number, fraction: number, near: number): number => {
    vertices.between(edge, fraction, place);
    other.moveTo(place[0], place[1], place[2]);
    return other.measure(near);
  };
  for (let k = 0; k < open.length; k += 3) {
    pieces.push(open[k], 0, open[k + 1], 1, open[k + 2]);
    while (pieces.length > 0) {
      const [edge, begin, nearBegin, end, nearEnd] = pieces.splice(-5);
      const limit = (Math.sqrt(level) + TOLERANCE) ** 2;
      const byFirst = Math.max(measureAt(edge, begin, nearBegin), measureAt(edge, end, nearBegin));
      if (byFirst <= limit) continue;
      const bySecond = Math.max(measureAt(edge, begin, nearEnd), measureAt(edge, end, nearEnd));
      if (bySecond <= limit) continue;
      const middle = (begin + end) / 2;
      if (!(middle > begin && middle < end)) continue;
      vertices.between(edge, middle, place);
      const [px, py, pz] = place;
      other.moveTo(px, py, pz);
      other.offer(nearEnd);
      settle(nearBegin, px, py, pz);
      const nearMiddle = other.edge;
      pieces.push(edge, middle, nearMiddle, end, nearEnd, edge, begin, nearBegin, middle, nearMiddle);
    }
  }
  return best;
}
