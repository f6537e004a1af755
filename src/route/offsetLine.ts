import type { Position } from 'geojson';
import { turnBetween } from '../geodesy';
import { checkNumber, type OffsetJoin, type Side } from '../model';
import { cutLoops } from './cutLoops';
import { nearness } from './nearness';
import { type LinePiece, partOfLine, quickPiece, quickStep, SAME_POINT } from './Piece';
import { rawOffset } from './rawOffset';

/** A quarter of a meridian: farther off, beside has no meaning, and a curve round a corner has chords without end. */
const FARTHEST = 1e7;

/** A line beside another. */
export interface OffsetLine {
  readonly vertices: Position[];
  /** For each vertex, where on the source it was made: vertex index and fraction of the edge after it. Never falling. */
  readonly source: number[];
  /** Whether a vertex is part of a curve round a corner. */
  readonly smooth: boolean[];
  /** Stretches of the source, as in `source`, whose bends are too tight for the offset: nothing beside them is kept. */
  readonly wide: [from: number, to: number][];
  /** Metres beside the source: less than asked where its bends would have left nothing, 0 where it is hardly a line. */
  readonly metres: number;
}

type Beside = Omit<OffsetLine, 'metres'>;

interface OffsetLineOptions {
  readonly join?: OffsetJoin;
  /** Azimuths at the ends of a line that is not a ring though it may be closed, where its edges stand for arcs. */
  readonly ends?: readonly [first: number, last: number];
}

/** Metres: an end this near to the start is the start; nobody draws closer. */
const CLOSED = 0.05;

/** Degrees: with a sharper turn at its start a closed line is an out-and-back, and the offset doesn't go round there. */
const U_TURN_AT_START = 150;

/** What to tell the author of a line whose bends leave too little room. */
export function wideOffsetMessage(asked: number, metres: number): string {
  const instead = metres < asked ? `the line runs ${metres} m beside it` : 'the line is cut short there';
  return `${asked} m beside the line is more than its bends leave room for; ${instead}.`;
}

/**
 * The line `metres` beside another: round the outside of corners, trimmed inside them, without loops.
 *
 * @remarks Perpendicular geodesics from the vertices; the geodesic between two of them strays from the true parallel by
 * about `metres` · edge² / 8R², a micrometre for 1 km beside 100 m.
 */
export function offsetLine(
  line: readonly Position[],
  side: Side,
  metres: number,
  { join = 'round', ends }: OffsetLineOptions = {},
): OffsetLine {
  checkNumber(metres, 'metres beside a line', { max: FARTHEST });
  const right = side === 'right' ? 1 : -1;
  const edges: LinePiece[] = [];
  /** Index in `line` where each edge starts, and at last where the last ends. */
  const index: number[] = [];
  let from = 0;
  for (let i = 1; i < line.length; i++) {
    const piece = quickPiece(line[from], line[i]);
    if (piece.length <= SAME_POINT) continue;
    edges.push(piece);
    index.push(from);
    from = i;
  }
  // nearer together than a direction can be told: nothing lies beside
  if (edges.length === 0) return unmoved(line);
  index.push(from);
  const original = (at: number) => {
    const edge = Math.floor(at);
    // of points said twice the last begins the edge that leads away
    return edge === at ? index[edge] : index[edge + 1] - 1 + (at - edge);
  };
  if (ends !== undefined) {
    edges[0] = { ...edges[0], startAzimuth: ends[0] };
    edges[edges.length - 1] = { ...edges[edges.length - 1], endAzimuth: ends[1] };
  }
  const offset = ends === undefined && isClosed(edges) ? offsetRing : offsetOpen;
  for (let distance = metres; distance > SAME_POINT; distance /= 2) {
    const beside = offset(edges, right, distance, join);
    // A line without bends always leaves one, and so does any line near enough to it.
    if (beside === undefined) continue;
    const { vertices, source, smooth } = beside;
    const wide = distance < metres ? [[0, edges.length] as const] : beside.wide;
    return {
      vertices,
      source: source.map(original),
      smooth,
      wide: wide.map(([a, b]) => [original(a), original(b)]),
      metres: distance,
    };
  }
  return unmoved(line);
}

/** The line itself, where nothing can be beside it. */
function unmoved(line: readonly Position[]): OffsetLine {
  const source = [...line.keys()];
  return { vertices: [...line], source, smooth: line.map(() => false), wide: [[0, line.length - 1]], metres: 0 };
}

/** Whether the line ends where it began, and runs on there rather than turning round. */
function isClosed(edges: readonly LinePiece[]): boolean {
  const [first, last] = [edges[0], edges[edges.length - 1]];
  if (apart(last.to, first.from) > CLOSED) return false;
  // a short line ends near its start without coming back to it
  if (!edges.some(({ to }) => apart(to, first.from) > CLOSED)) return false;
  return Math.abs(turnBetween(last.endAzimuth, first.startAzimuth)) < U_TURN_AT_START;
}

function offsetOpen(
  edges: readonly LinePiece[],
  right: number,
  metres: number,
  join: OffsetJoin,
  ring = false,
): Beside | undefined {
  const left = cutLoops(rawOffset(edges, right, metres, join), nearness(edges, metres, ring));
  return left === undefined || !hasLength(left.vertices) ? undefined : left;
}

/** As for an open line that begins in the middle of a long edge, so that the corner at the start is one like the others. */
function offsetRing(edges: readonly LinePiece[], right: number, metres: number, join: OffsetJoin): Beside | undefined {
  const longest = seamEdge(edges, right, metres);
  const edge = edges[longest];
  const turned = [
    partOfLine(edge, edge.length / 2, edge.length),
    ...edges.slice(longest + 1),
    ...edges.slice(0, longest),
    partOfLine(edge, 0, edge.length / 2),
  ];
  const open = offsetOpen(turned, right, metres, join, true);
  if (open === undefined) return undefined;
  const corner = edges.length - longest;
  // The last vertex beside the corner, or the nearest where what is beside it was cut.
  const start = open.source.reduce(
    (best, at, k) => (Math.abs(at - corner) <= Math.abs(open.source[best] - corner) ? k : best),
    0,
  );
  const end = open.vertices.length - 1;
  // The middle of the longest edge is no vertex, unless the line was cut short there.
  const seam = apart(open.vertices[end], open.vertices[0]) > SAME_POINT ? 0 : 1;
  const indices = [...open.source.keys()];
  const order = [...indices.slice(start, end + 1 - seam), ...indices.slice(seam, start + 1)];
  const ringSource = (at: number) => {
    if (at > corner) return at - corner > longest ? longest + (at - edges.length) / 2 : at - corner;
    return at < 1 ? longest + (1 + at) / 2 : longest + at;
  };
  return {
    vertices: order.map((k) => open.vertices[k]),
    source: order.map((k, i) => (i === 0 ? 0 : i === order.length - 1 ? edges.length : ringSource(open.source[k]))),
    smooth: order.map((k) => open.smooth[k]),
    wide: open.wide.flatMap(([a, b]): [number, number][] => {
      const [from, to] = [ringSource(a), ringSource(b)];
      if (from <= to) return [[from, to]];
      // across the start: from the corner itself, or from before it
      return from < edges.length
        ? [
            [from, edges.length],
            [0, to],
          ]
        : [[0, to]];
    }),
  };
}

/** The longest edge beside whose middle nothing else is too near; the longest where there is none. */
function seamEdge(edges: readonly LinePiece[], right: number, metres: number): number {
  const byLength = [...edges.keys()].sort((a, b) => edges[b].length - edges[a].length);
  const { isTooNear } = nearness(edges, metres, true);
  const isFree = (i: number) => {
    const middle = partOfLine(edges[i], 0, edges[i].length / 2);
    return !isTooNear(quickStep(middle.to, middle.endAzimuth + 90 * right, metres), i + 0.5);
  };
  return byLength.find(isFree) ?? byLength[0];
}

function hasLength(vertices: readonly Position[]): boolean {
  return vertices.some((vertex) => apart(vertices[0], vertex) > SAME_POINT);
}

/** Metres between two points. */
function apart(from: Position, to: Position): number {
  return quickPiece(from, to).length;
}
