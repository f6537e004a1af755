import { Vertices, verticesOf } from '../index';
import { type Line, lineOf } from '../model';
import { alongGeodesic } from './alongGeodesic';
import { Curve, MAX_EDGE } from './Curve';
import { cutEdges } from './cutEdges';

/**
 * The curve of a line: edges over {@link MAX_EDGE} cut along their geodesic, gaps either `open` (no edge) or `joined`.
 *
 * @throws {InputError} not a line, no position, one that is not on the globe, or a line too long to be cut
 */
export function curveOf(line: Line, argument: string, gaps: 'open' | 'joined'): Curve {
  const columns = lineOf(line, argument);
  const vertices = verticesOf(columns);
  const gapBefore = gaps === 'open' ? columns.gapBefore : undefined;
  const curve = gapBefore === undefined && vertices.count > 1 ? joined(vertices) : broken(vertices, gapBefore ?? []);
  return cutEdges(curve, {
    argument,
    most: MAX_EDGE,
    piecesOf,
    place: (edge, pieces, into, at) => alongGeodesic(curve.vertices, edge, pieces, into, at),
  });
}

function joined(vertices: Vertices): Curve {
  let longest2 = 0;
  for (let i = 0; i + 1 < vertices.count; i++) longest2 = Math.max(longest2, vertices.chord2(i));
  return new Curve(vertices, Math.sqrt(longest2));
}

function broken(given: Vertices, gapBefore: ArrayLike<number>): Curve {
  const isGap = (edge: number) => gapBefore[edge + 1] > 0;
  const isLone = (i: number) => (i === 0 || isGap(i - 1)) && (i === given.count - 1 || isGap(i));
  let count = 0;
  for (let i = 0; i < given.count; i++) count += isLone(i) ? 2 : 1;
  const vertices = new Vertices(count);
  const gap = new Uint8Array(count);
  let longest2 = 0;
  let at = 0;
  for (let i = 0; i < given.count; i++) {
    for (let copy = isLone(i) ? 2 : 1; copy > 0; copy--) vertices.copy(at++, given, i);
    if (isGap(i)) gap[at - 1] = 1;
    else if (i + 1 < given.count) longest2 = Math.max(longest2, given.chord2(i));
  }
  return new Curve(vertices, Math.sqrt(longest2), gap);
}

function piecesOf(chord: number): number {
  if (chord <= MAX_EDGE) return 1;
  // below 1000 km a geodesic is under 0.11 % longer than its chord, anywhere under π / 2 times
  return Math.ceil((chord / MAX_EDGE) * (chord < 1_000_000 ? 1.0011 : Math.PI / 2));
}
