import type { Position } from 'geojson';
import { localPlane } from '../geodesy';
import type { Nearness } from './nearness';
import { linePiece, step } from './Piece';
import type { OffsetPath } from './rawOffset';

/** Metres within which the place is found where a line that comes too near begins to. */
const PRECISION = 1e-4;

/**
 * Cuts from a path what is too near its source, each time with as much on either side as is too near as well: loops
 * where the path crosses itself, else the stretch.
 *
 * @returns the stretches of the source beside which something was cut; undefined when all of the path is too near
 */
export function cutLoops(path: OffsetPath, nearness: Nearness): [from: number, to: number][] | undefined {
  const wide: [number, number][] = [];
  const { vertices, source, bridge } = path;
  for (let b = bridge.indexOf(true); b !== -1; b = bridge.indexOf(true)) {
    const stretch = cutAround(path, b, nearness);
    if (stretch === undefined) return undefined;
    wide.push(stretch);
  }
  // What corners do to each other: every cut can bring a new vertex that is too near another corner in its turn.
  let left = 2 * vertices.length;
  for (let b = 0; b < vertices.length && left > 0; ) {
    if (!nearness.isTooNear(vertices[b], source[b])) {
      b++;
      continue;
    }
    left--;
    const before = vertices.length;
    const stretch = cutAround(path, b, nearness);
    if (stretch === undefined) return undefined;
    wide.push(stretch);
    b = Math.max(b - 1 - Math.max(before - vertices.length, 0), 0);
  }
  return wide;
}

/** Cuts the loop or stretch around a vertex; undefined when that is the whole path. */
function cutAround(path: OffsetPath, b: number, { isInLoop }: Nearness): [from: number, to: number] | undefined {
  const { vertices, source } = path;
  const centre = source[b];
  // A loop is cut only if all of it is too near: the search ends at the first vertex on either side that is not.
  let low = b - 1;
  while (low >= 0 && isInLoop(vertices[low], source[low], centre)) low--;
  let high = b;
  while (high < vertices.length && isInLoop(vertices[high], source[high], centre)) high++;
  const stretch: [number, number] = [source[Math.max(low, 0)], source[Math.min(high, source.length - 1)]];
  const crossing = widestCrossing(path, Math.max(low, 0), b, Math.min(high, vertices.length - 1));
  if (crossing !== undefined) {
    splice(path, crossing.first + 1, crossing.second, [crossing.position], crossing.source);
    return stretch;
  }
  if (low < 0 && high >= vertices.length) return undefined;
  const ends: Position[] = [];
  if (low >= 0) ends.push(edgeOfLoop(path, low, low + 1, centre, isInLoop));
  if (high < vertices.length) ends.push(edgeOfLoop(path, high, high - 1, centre, isInLoop));
  splice(path, low + 1, high - 1, ends, centre);
  return stretch;
}

/** The last point, going from a vertex that is far enough towards one that is not. */
function edgeOfLoop(
  path: OffsetPath,
  far: number,
  close: number,
  centre: number,
  isInLoop: Nearness['isInLoop'],
): Position {
  const piece = linePiece(path.vertices[far], path.vertices[close], false, -1);
  let [good, bad] = [0, piece.length];
  while (bad - good > PRECISION) {
    const middle = (good + bad) / 2;
    const fraction = middle / piece.length;
    const at = path.source[far] + fraction * (path.source[close] - path.source[far]);
    if (isInLoop(step(piece.from, piece.startAzimuth, middle).to, at, centre)) bad = middle;
    else good = middle;
  }
  return step(piece.from, piece.startAzimuth, good).to;
}

function splice(path: OffsetPath, first: number, last: number, vertices: Position[], source: number): void {
  const count = last - first + 1;
  path.vertices.splice(first, count, ...vertices);
  path.source.splice(first, count, ...vertices.map(() => source));
  path.smooth.splice(first, count, ...vertices.map(() => false));
  path.bridge.splice(first, count, ...vertices.map(() => false));
  if (first + vertices.length < path.bridge.length) path.bridge[first + vertices.length] = false;
}

/** Of the crossings between an edge before the bridge that ends at vertex `b` and one after it, the one that encloses most. */
function widestCrossing(
  path: OffsetPath,
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
