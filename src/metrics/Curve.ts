import { InputError } from '../errors';
import { Geodesic, WGS84 } from '../geodesy/ellipsoid';
import { EdgeBoxes } from './EdgeBoxes';
import type { Line, LineColumns } from './Line';
import { latitudeOf, longitudeOf } from './surfaceDistance';
import { Vertices, verticesOf } from './Vertices';

/**
 * No edge of a {@link Curve} is longer, in metres: its chord then runs at most 0.2 mm under the surface, which costs a
 * distance of 1 km 0.03 µm.
 */
export const MAX_EDGE = 100;

const MAX_PIECES = 5_000_000;

/**
 * A line ready to be measured as a set of points: earth-centred vertices, edge `i` from vertex `i` to `i + 1`, every edge
 * short, and those that were not travelled marked. A vertex that no edge would touch stands twice, as an edge of length 0.
 */
export class Curve {
  /** 1 where the edge that starts at a vertex is none; absent where all are edges. */
  gap?: Uint8Array;

  #boxes?: EdgeBoxes;

  constructor(readonly vertices: Vertices) {}

  /** The tree over its edges, built when first asked for. */
  get boxes(): EdgeBoxes {
    this.#boxes ??= new EdgeBoxes(this.vertices);
    return this.#boxes;
  }

  get edges(): number {
    return this.vertices.count - 1;
  }
}

/**
 * The curve of a line: long edges cut along their geodesic, gaps either `open` (no edge) or `joined`.
 *
 * @throws {InputError} not a line, no position, one that is not on the globe, or a line too long to be cut
 */
export function curveOf(line: Line, argument: string, gaps: 'open' | 'joined'): Curve {
  const given = verticesOf(line, argument);
  const gapBefore = gaps === 'open' ? (line as Partial<LineColumns>).gapBefore : undefined;
  const isGap = (edge: number) => gapBefore !== undefined && gapBefore[edge + 1] > 0;
  const isLone = (i: number) => (i === 0 || isGap(i - 1)) && (i === given.count - 1 || isGap(i));
  const { x, y, z } = given;

  let count = 0;
  let open = false;
  for (let i = 0; i < given.count; i++) {
    count += isLone(i) ? 2 : 1;
    if (i === given.count - 1) break;
    if (isGap(i)) open = true;
    else count += piecesOf(Math.hypot(x[i + 1] - x[i], y[i + 1] - y[i], z[i + 1] - z[i])) - 1;
  }
  if (count === given.count && !open) return new Curve(given);
  if (!(count <= MAX_PIECES)) {
    const rule = `at most ${MAX_PIECES} pieces of ${MAX_EDGE} m`;
    throw new InputError({ reason: 'too-large', argument, rule, value: count });
  }

  const vertices = new Vertices(count);
  const curve = new Curve(vertices);
  if (open) curve.gap = new Uint8Array(count);
  let at = 0;
  for (let i = 0; i < given.count; i++) {
    for (let copy = isLone(i) ? 2 : 1; copy > 0; copy--) vertices.copy(at++, given, i);
    if (i === given.count - 1) break;
    if (isGap(i)) curve.gap![at - 1] = 1;
    else at = cut(given, i, vertices, at);
  }
  return curve;
}

// The chord of an edge to be cut is shorter than the edge; by less than this at any length below a whole piece more.
const CHORD_SLACK = 1e-9;

function piecesOf(chord: number): number {
  if (chord <= MAX_EDGE * (1 - CHORD_SLACK)) return 1;
  // no geodesic is more than half a turn longer than its chord: π / 2
  return Math.ceil((chord / MAX_EDGE) * (chord < 1_000_000 ? 1.0011 : Math.PI / 2));
}

function cut(given: Vertices, edge: number, vertices: Vertices, at: number): number {
  const { x, y, z } = given;
  const pieces = piecesOf(Math.hypot(x[edge + 1] - x[edge], y[edge + 1] - y[edge], z[edge + 1] - z[edge]));
  if (pieces === 1) return at;
  const [lat1, lon1] = [latitudeOf(x[edge], y[edge], z[edge]), longitudeOf(x[edge], y[edge])];
  const [lat2, lon2] = [latitudeOf(x[edge + 1], y[edge + 1], z[edge + 1]), longitudeOf(x[edge + 1], y[edge + 1])];
  const line = WGS84.InverseLine(lat1, lon1, lat2, lon2, Geodesic.STANDARD | Geodesic.DISTANCE_IN);
  for (let k = 1; k < pieces; k++) {
    const { lat2, lon2 } = line.Position((line.s13 * k) / pieces, Geodesic.LATITUDE | Geodesic.LONGITUDE);
    vertices.set(at++, lon2!, lat2!);
  }
  return at;
}
