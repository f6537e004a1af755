import type { Position } from 'geojson';
import { ECCENTRICITY2, SEMI_MAJOR } from '../geodesy';
import { positionOf } from '../index';
import { bulge } from './bulge';
import type { Curve } from './Curve';
import type { NearestEdge } from './NearestEdge';

// How much the true maximum may exceed the one found, metres.
const TOLERANCE = 1e-7;

// When one near vertex has settled so many vertices in a row, it may settle hundreds more: the tree knows.
const SETTLED = 24;

// Smallest radius of curvature, b² / a. No distance is longer than the one its chord has on a sphere of this radius.
const SMALLEST_RADIUS = SEMI_MAJOR * (1 - ECCENTRICITY2);

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
 * far. As the distance to one edge is convex along another but for a known {@link bulge}, an edge of `from` can hold more
 * than its ends only where these need different near edges, or are that close to the maximum: it is split until one near
 * edge bounds each piece.
 */
export function farthest(from: Curve, other: NearestEdge, beyond = -1): Farthest | undefined {
  const { vertices, gap, edges, longest } = from;
  const { x, y, z } = vertices;
  const place = new Float64Array(3);
  let level = beyond < 0 ? -1 : beyond * beyond;
  let best: Farthest | undefined;

  /** What a piece of `length` may measure at both ends, squared, to hold nothing over the maximum so far. */
  const limitFor = (length: number): number => {
    const distance = Math.sqrt(level);
    const limit = distance + TOLERANCE - bulge(length, distance);
    return limit > 0 ? limit * limit : -1;
  };
  let limit = limitFor(longest);

  /** Finds an edge within the level from the present point, or the nearest, which then is the level. */
  const settle = (guess: number, px: number, py: number, pz: number): void => {
    if (other.offer(guess) <= level) return;
    other.walk();
    if (other.squared <= level) return;
    other.search(level);
    if (other.squared <= level) return;
    level = other.squared;
    limit = limitFor(longest);
    other.measure(other.edge);
    other.curve.vertices.between(other.edge, other.fraction, place);
    best = {
      distance: Math.sqrt(level),
      at: positionOf(px, py, pz),
      nearest: positionOf(place[0], place[1], place[2]),
    };
  };

  const others = other.curve.vertices;
  let near = 0;
  for (let i = 0; i <= edges; i += STRIDE) {
    other.moveTo(x[i], y[i], z[i]);
    settle(vertices.hop(i, others, near), x[i], y[i], z[i]);
    near = other.edge;
  }

  // edges that may hold more than their ends, with the near edges found for these
  const open: number[] = [];
  let squared = Infinity;
  near = 0;
  let settled = 0;
  for (let i = 0; i <= edges; i++) {
    const nearBefore = near;
    const squaredBefore = squared;
    const alone = i === 0 || gap?.[i - 1] === 1;
    // most edges are settled by a vertex: both ends near enough to it
    squared = vertices.squaredDistance(i, others, near);
    if (squared > limit) {
      near = vertices.hop(i, others, near);
      squared = vertices.squaredDistance(i, others, near);
    }
    settled = near === nearBefore && squared <= limit ? settled + 1 : 0;
    if (settled === SETTLED) {
      settled = 0;
      const beyond = from.boxes.firstBeyond(i, others.x[near], others.y[near], others.z[near], sureChord2(limit));
      if (beyond > i + 1) {
        i = beyond - 1;
        squared = vertices.squaredDistance(i, others, near);
        continue;
      }
    }
    if (squared <= limit) {
      if (alone) continue;
      if ((near === nearBefore ? squaredBefore : vertices.squaredDistance(i - 1, others, near)) <= limit) continue;
    }
    other.moveTo(x[i], y[i], z[i]);
    settle(near, x[i], y[i], z[i]);
    near = other.edge;
    squared = other.squared;
    if (alone || (squaredBefore <= limit && other.measure(nearBefore) <= limit)) continue;
    other.moveTo(x[i - 1], y[i - 1], z[i - 1]);
    if (!(squared <= limit && other.measure(near) <= limit)) open.push(i - 1, nearBefore, near);
  }

  // pieces of an edge: edge, from fraction, near edge there, to fraction, near edge there
  const pieces: number[] = [];
  const measureAt = (edge: number, fraction: number, near: number): number => {
    vertices.between(edge, fraction, place);
    other.moveTo(place[0], place[1], place[2]);
    return other.measure(near);
  };
  for (let k = 0; k < open.length; k += 3) {
    const length = Math.sqrt(vertices.chord2(open[k]));
    pieces.push(open[k], 0, open[k + 1], 1, open[k + 2]);
    while (pieces.length > 0) {
      const [edge, begin, nearBegin, end, nearEnd] = pieces.splice(-5);
      const limit = limitFor((end - begin) * length);
      if (measureAt(edge, begin, nearBegin) <= limit && measureAt(edge, end, nearBegin) <= limit) continue;
      if (measureAt(edge, begin, nearEnd) <= limit && measureAt(edge, end, nearEnd) <= limit) continue;
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

/** A squared chord within which the squared distance is no more than a limit. */
function sureChord2(limit: number): number {
  const half = Math.sqrt(limit) / (2 * SMALLEST_RADIUS);
  return (2 * SMALLEST_RADIUS * Math.sin(Math.min(half, Math.PI / 2))) ** 2 * (1 - 1e-12);
}
