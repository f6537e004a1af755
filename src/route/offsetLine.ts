import type { Position } from 'geojson';
import { EdgeFeet } from '../geodesy/EdgeFeet';
import { localPlane } from '../geodesy/localPlane';
import { turnBetween } from '../internal/azimuth';
import { chordCount, type LinePiece, linePiece, partOfLine, SAME_POINT, step } from './Piece';
import type { OffsetJoin, Side } from './RouteRecipe';

/** A line beside another. */
export interface OffsetLine {
  readonly vertices: Position[];
  /** For each vertex, where on the source it was made: vertex index and fraction of the edge after it. Never falling. */
  readonly source: number[];
  /** Whether a vertex is part of a curve round a corner. */
  readonly smooth: boolean[];
  /** Stretches of the source, as in `source`, whose bends are too tight for the offset: nothing beside them is kept. */
  readonly wide: [from: number, to: number][];
  /** Metres beside the source: less than asked where its bends would have left nothing. */
  readonly metres: number;
}

type Beside = Omit<OffsetLine, 'metres'>;

interface OffsetLineOptions {
  readonly join?: OffsetJoin;
  /** Azimuths at the ends of a line that is not a ring though it may be closed, where its edges stand for arcs. */
  readonly ends?: readonly [first: number, last: number];
}

/** Degrees: a turn at least this sharp is a U-turn, gone round at its tip on either side. */
const U_TURN = 179;

/** Metres: an end this near to the start is the start; nobody draws closer. */
const CLOSED = 0.05;

/** Degrees: with a sharper turn at its start a closed line is an out-and-back, and the offset doesn't go round there. */
const U_TURN_AT_START = 150;

/** Metres: a corner of the offset may lie this much further away than asked, to save two vertices. Half the promised millimetre. */
const MITRE_SLACK = 5e-4;

/** Metres that the chords of a round join lie inside its circle. Half the promised millimetre. */
const JOIN_SAGITTA = 5e-4;

/** A mitre longer than this many offsets is cut off as a bevel. */
const MITRE_LIMIT = 2;

/** Metres by which a point must be too near the source to be cut away: above the rounding of the measure. */
const TOO_NEAR = 1e-6;

/** What to tell the author of a line whose bends leave too little room. */
export function wideOffsetMessage(asked: number, metres: number): string {
  const instead = metres < asked ? `the line runs ${metres} m beside it` : 'the line is cut short there';
  return `${asked} m beside the line is more than its bends leave room for; ${instead}.`;
}

interface Path {
  readonly vertices: Position[];
  readonly source: number[];
  readonly smooth: boolean[];
  /** Whether the edge that ends at the vertex only bridges the two sides of an inside corner. */
  readonly bridge: boolean[];
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
  const right = side === 'right' ? 1 : -1;
  const edges: LinePiece[] = [];
  /** Index in `line` where each edge starts, and at last where the last ends. */
  const index: number[] = [];
  let from = 0;
  for (let i = 1; i < line.length; i++) {
    const piece = linePiece(line[from], line[i], true, -1);
    if (piece.length <= SAME_POINT) continue;
    edges.push(piece);
    index.push(from);
    from = i;
  }
  index.push(from);
  const original = (at: number) => {
    const edge = Math.min(Math.floor(at), edges.length);
    return edge === at ? index[edge] : index[edge] + (at - edge) * (index[edge + 1] - index[edge]);
  };
  if (ends !== undefined) {
    edges[0] = { ...edges[0], startAzimuth: ends[0] };
    edges[edges.length - 1] = { ...edges[edges.length - 1], endAzimuth: ends[1] };
  }
  const offset = ends === undefined && isClosed(edges) ? offsetRing : offsetOpen;
  for (let distance = metres; ; distance /= 2) {
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
}

/** Whether the line ends where it began, and runs on there rather than turning round. */
function isClosed(edges: readonly LinePiece[]): boolean {
  const [first, last] = [edges[0], edges[edges.length - 1]];
  if (linePiece(last.to, first.from, false, -1).length > CLOSED) return false;
  return Math.abs(turnBetween(last.endAzimuth, first.startAzimuth)) < U_TURN_AT_START;
}

function offsetOpen(edges: readonly LinePiece[], right: number, metres: number, join: OffsetJoin): Beside | undefined {
  const path = rawPath(edges, right, metres, join);
  const wide = cutLoops(path, edges, metres);
  if (wide === undefined || !hasLength(path.vertices)) return undefined;
  return { vertices: path.vertices, source: path.source, smooth: path.smooth, wide };
}

/** As for an open line that begins in the middle of the longest edge, so that the corner at the start is one like the others. */
function offsetRing(edges: readonly LinePiece[], right: number, metres: number, join: OffsetJoin): Beside | undefined {
  const longest = edges.reduce((best, edge, i) => (edge.length > edges[best].length ? i : best), 0);
  const edge = edges[longest];
  const turned = [
    partOfLine(edge, edge.length / 2, edge.length),
    ...edges.slice(longest + 1),
    ...edges.slice(0, longest),
    partOfLine(edge, 0, edge.length / 2),
  ];
  const open = offsetOpen(turned, right, metres, join);
  if (open === undefined) return undefined;
  const corner = edges.length - longest;
  const exact = open.source.lastIndexOf(corner);
  const start =
    exact !== -1
      ? exact
      : Math.max(
          open.source.findIndex((at) => at > corner),
          0,
        );
  const end = open.vertices.length - 1;
  // The middle of the longest edge is no vertex, unless the line was cut short there.
  const seam = linePiece(open.vertices[end], open.vertices[0], false, -1).length > SAME_POINT ? 0 : 1;
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
    wide: open.wide.map(([a, b]) => [ringSource(a), ringSource(b)]),
  };
}

function rawPath(edges: readonly LinePiece[], right: number, metres: number, join: OffsetJoin): Path {
  const path: Path = { vertices: [], source: [], smooth: [], bridge: [] };
  const add = (at: Position, azimuth: number, distance: number, source: number, smooth = false, bridge = false) => {
    path.vertices.push(step(at, azimuth, distance).to);
    path.source.push(source);
    path.smooth.push(smooth);
    path.bridge.push(bridge);
  };
  /** At the corner before edge i: signed towards the offset side. */
  const bends = edges.map((edge, i) => (i === 0 ? 0 : right * turnBetween(edges[i - 1].endAzimuth, edge.startAzimuth)));
  const trims = bends.map((bend) => (bend > 0 ? metres * Math.tan((Math.min(bend, U_TURN) * Math.PI) / 360) : 0));
  const roomy = edges.map((edge, i) => trims[i] + (trims[i + 1] ?? 0) <= edge.length);
  const normal = 90 * right;
  add(edges[0].from, edges[0].startAzimuth + normal, metres, 0);
  for (let i = 1; i < edges.length; i++) {
    const [before, after, bend] = [edges[i - 1], edges[i], bends[i]];
    const corner = after.from;
    const arriving = before.endAzimuth + normal;
    const leaving = after.startAzimuth + normal;
    const half = (bend * Math.PI) / 360;
    const reach = metres / Math.cos(half);
    const uTurn = Math.abs(bend) >= U_TURN;
    if (!uTurn && (bend > 0 ? roomy[i - 1] && roomy[i] : reach - metres <= MITRE_SLACK)) {
      add(corner, arriving + (right * bend) / 2, reach, i);
      continue;
    }
    if (bend > 0 && !uTurn) {
      add(corner, arriving, metres, i);
      add(corner, leaving, metres, i, false, true);
      continue;
    }
    // Outside, the azimuth of the normal turns away by the bend; at the tip of a U-turn always away.
    const sweep = bend > 0 ? 360 - bend : -bend;
    if (join === 'mitre' && 1 / Math.cos(half) <= MITRE_LIMIT && !uTurn) {
      add(corner, arriving + (right * bend) / 2, reach, i);
    } else {
      const count = join === 'round' ? chordCount(metres, sweep, JOIN_SAGITTA) : 1;
      for (let k = 0; k <= count; k++) {
        add(corner, arriving - (right * sweep * k) / count, metres, i, join === 'round');
      }
    }
  }
  const last = edges[edges.length - 1];
  add(last.to, last.endAzimuth + normal, metres, edges.length);
  return path;
}

function hasLength(vertices: readonly Position[]): boolean {
  return vertices.some((vertex) => linePiece(vertices[0], vertex, false, -1).length > SAME_POINT);
}

/**
 * Cuts what bridges of inside corners brought: loops where the line crosses itself, else the stretch too near the source.
 * Undefined when all of it is too near.
 */
function cutLoops(path: Path, edges: readonly LinePiece[], metres: number): [number, number][] | undefined {
  const wide: [number, number][] = [];
  if (!path.bridge.includes(true)) return wide;
  const near = nearness(edges, metres);
  for (let b = path.bridge.indexOf(true); b !== -1; b = path.bridge.indexOf(true)) {
    // A loop is cut only if all of it is too near: the search ends at the first vertex on either side that is not.
    let low = b - 1;
    while (low >= 0 && near(path.vertices[low], path.source[low], path.source[b])) low--;
    let high = b;
    while (high < path.vertices.length && near(path.vertices[high], path.source[high], path.source[b])) high++;
    const crossing = widestCrossing(path, Math.max(low, 0), b, Math.min(high, path.vertices.length - 1));
    wide.push([path.source[Math.max(low, 0)], path.source[Math.min(high, path.source.length - 1)]]);
    if (crossing !== undefined) {
      splice(path, crossing.first + 1, crossing.second, [crossing.position], crossing.source);
    } else if (low < 0 && high >= path.vertices.length) {
      return undefined;
    } else {
      const cut: Position[] = [];
      if (low >= 0) cut.push(edgeOfNear(path, low, low + 1, path.source[b], near));
      if (high < path.vertices.length) cut.push(edgeOfNear(path, high, high - 1, path.source[b], near));
      splice(path, low + 1, high - 1, cut, path.source[b]);
    }
  }
  return wide;
}

/** The last point, going from a vertex that is far enough towards one that is not. */
function edgeOfNear(path: Path, far: number, close: number, source: number, near: Near): Position {
  const piece = linePiece(path.vertices[far], path.vertices[close], false, -1);
  let [good, bad] = [0, piece.length];
  while (bad - good > 1e-4) {
    const middle = (good + bad) / 2;
    const fraction = middle / piece.length;
    const at = path.source[far] + fraction * (path.source[close] - path.source[far]);
    if (near(step(piece.from, piece.startAzimuth, middle).to, at, source)) bad = middle;
    else good = middle;
  }
  return step(piece.from, piece.startAzimuth, good).to;
}

function splice(path: Path, first: number, last: number, vertices: Position[], source: number): void {
  const count = last - first + 1;
  path.vertices.splice(first, count, ...vertices);
  path.source.splice(first, count, ...vertices.map(() => source));
  path.smooth.splice(first, count, ...vertices.map(() => false));
  path.bridge.splice(first, count, ...vertices.map(() => false));
  if (first + vertices.length < path.bridge.length) path.bridge[first + vertices.length] = false;
}

type Near = (position: Position, source: number, centre: number) => boolean;

/** Whether a point of the path is nearer to the source than asked, looking as far past the corner as it lies before it. */
function nearness(edges: readonly LinePiece[], metres: number): Near {
  const along = [0];
  for (const edge of edges) along.push(along[along.length - 1] + edge.length);
  const line = [edges[0].from, ...edges.map(({ to }) => to)];
  const feet = new EdgeFeet(
    line.map(([lon]) => lon),
    line.map(([, lat]) => lat),
  );
  const alongOf = (source: number) => {
    const edge = Math.min(Math.floor(source), edges.length - 1);
    return along[edge] + (source - edge) * edges[edge].length;
  };
  return (position, source, centre) => {
    const middle = alongOf(centre);
    const reach = 2 * Math.abs(alongOf(source) - middle) + 4 * metres;
    feet.moveTo(position[0], position[1]);
    const start = Math.min(Math.floor(centre), edges.length - 1);
    for (let edge = start; edge < edges.length && along[edge] <= middle + reach; edge++) {
      if (feet.measure(edge) < metres - TOO_NEAR) return true;
    }
    for (let edge = start - 1; edge >= 0 && along[edge + 1] >= middle - reach; edge--) {
      if (feet.measure(edge) < metres - TOO_NEAR) return true;
    }
    return false;
  };
}

/** Of the crossings between an edge before the bridge that ends at vertex `b` and one after it, the one that encloses most. */
function widestCrossing(
  path: Path,
  low: number,
  b: number,
  high: number,
): { first: number; second: number; position: Position; source: number } | undefined {
  const plane = localPlane(path.vertices[b]);
  const points = path.vertices.slice(low, high + 1).map((position) => plane.toPlane(position));
  for (let i = 0; low + i + 1 < b; i++) {
    for (let j = points.length - 2; low + j >= b; j--) {
      if (path.bridge[low + i + 1] || path.bridge[low + j + 1]) continue;
      const [[ax, ay], [bx, by], [cx, cy], [dx, dy]] = [points[i], points[i + 1], points[j], points[j + 1]];
      const across = (bx - ax) * (dy - cy) - (by - ay) * (dx - cx);
      if (across === 0) continue;
      const t = ((cx - ax) * (dy - cy) - (cy - ay) * (dx - cx)) / across;
      const u = ((cx - ax) * (by - ay) - (cy - ay) * (bx - ax)) / across;
      if (!(t >= 0 && t <= 1 && u >= 0 && u <= 1)) continue;
      const first = low + i;
      return {
        first,
        second: low + j,
        position: plane.toPosition([ax + t * (bx - ax), ay + t * (by - ay)]),
        source: (path.source[first] + t * (path.source[first + 1] - path.source[first]) + path.source[low + j + 1]) / 2,
      };
    }
  }
  return undefined;
}
