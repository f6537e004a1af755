import type { Position } from 'geojson';
import { RADIAN } from '../geodesy';
import type { Nearness } from './nearness';
import { quickPiece, quickStep } from './Piece';
import type { OffsetPath } from './rawOffset';

/** Metres within which the place is found where a line that comes too near begins to. */
const PRECISION = 1e-4;

/** A path whose vertices are chained, so that a cut costs what it cuts; -1 is past either end. */
interface ChainedPath extends OffsetPath {
  readonly before: number[];
  readonly after: number[];
  first: number;
  last: number;
  count: number;
}

/** What is left of a path, and the stretches of the source beside which something was cut. */
interface Remainder extends Omit<OffsetPath, 'bridge'> {
  readonly wide: [from: number, to: number][];
}

/**
 * Cuts from a path what is too near its source, each time with as much on either side as is too near as well: loops
 * where the path crosses itself, else the stretch.
 *
 * @returns undefined when all of the path is too near
 */
export function cutLoops(path: OffsetPath, nearness: Nearness): Remainder | undefined {
  const wide: [number, number][] = [];
  const chain = chained(path);
  const { vertices, source, bridge, after } = chain;
  for (let b = chain.first; b !== -1; ) {
    if (!bridge[b]) {
      b = after[b];
      continue;
    }
    const cut = cutAround(chain, b, nearness);
    if (cut === undefined) return undefined;
    wide.push(cut.stretch);
    b = cut.put;
  }
  // What corners do to each other: every cut can bring a new vertex that is too near another corner in its turn.
  let left = 2 * chain.count;
  for (let b = chain.first; b !== -1 && left > 0; ) {
    if (!nearness.isTooNear(vertices[b], source[b])) {
      b = after[b];
      continue;
    }
    left--;
    const cut = cutAround(chain, b, nearness);
    if (cut === undefined) return undefined;
    wide.push(cut.stretch);
    b = cut.put;
  }
  return wide.length > 0 ? { ...unchained(chain), wide } : { ...path, wide };
}

function chained(path: OffsetPath): ChainedPath {
  const count = path.vertices.length;
  const before: number[] = [];
  const after: number[] = [];
  for (let i = 0; i < count; i++) {
    before.push(i - 1);
    after.push(i + 1 < count ? i + 1 : -1);
  }
  return { ...path, before, after, first: 0, last: count - 1, count };
}

/** The vertices that are left, in order. */
function unchained({ first, after, vertices, source, smooth }: ChainedPath): Omit<OffsetPath, 'bridge'> {
  const left: Omit<OffsetPath, 'bridge'> = { vertices: [], source: [], smooth: [] };
  for (let i = first; i !== -1; i = after[i]) {
    left.vertices.push(vertices[i]);
    left.source.push(source[i]);
    left.smooth.push(smooth[i]);
  }
  return left;
}

/** What was cut, and the first vertex that was put in its place. */
interface Cut {
  readonly stretch: [from: number, to: number];
  readonly put: number;
}

/** Cuts the loop or stretch around a vertex; undefined when that is the whole path. */
function cutAround(chain: ChainedPath, b: number, { isInLoop }: Nearness): Cut | undefined {
  const { vertices, source, before, after, first, last } = chain;
  const centre = source[b];
  // A loop is cut only if all of it is too near: the search ends at the first vertex on either side that is not.
  let low = before[b];
  while (low !== -1 && isInLoop(vertices[low], source[low], centre)) low = before[low];
  let high = b;
  while (high !== -1 && isInLoop(vertices[high], source[high], centre)) high = after[high];
  const [from, to] = [low === -1 ? first : low, high === -1 ? last : high];
  const stretch: [number, number] = [source[from], source[to]];
  const crossing = widestCrossing(chain, from, b, to);
  if (crossing !== undefined) {
    return { stretch, put: replace(chain, crossing.low, crossing.high, [crossing.position], crossing.source) };
  }
  if (low === -1 && high === -1) return undefined;
  const ends: Position[] = [];
  if (low !== -1) ends.push(edgeOfLoop(chain, low, after[low], centre, isInLoop));
  if (high !== -1) ends.push(edgeOfLoop(chain, high, before[high], centre, isInLoop));
  return { stretch, put: replace(chain, low, high, ends, centre) };
}

/** The last point, going from a vertex that is far enough towards one that is not. */
function edgeOfLoop(
  path: OffsetPath,
  far: number,
  close: number,
  centre: number,
  isInLoop: Nearness['isInLoop'],
): Position {
  const piece = quickPiece(path.vertices[far], path.vertices[close]);
  let [good, bad] = [0, piece.length];
  while (bad - good > PRECISION) {
    const middle = (good + bad) / 2;
    const fraction = middle / piece.length;
    const at = path.source[far] + fraction * (path.source[close] - path.source[far]);
    if (isInLoop(quickStep(piece.from, piece.startAzimuth, middle), at, centre)) bad = middle;
    else good = middle;
  }
  return quickStep(piece.from, piece.startAzimuth, good);
}

/** Puts vertices in place of all between two; returns the first of them. */
function replace(chain: ChainedPath, low: number, high: number, positions: Position[], source: number): number {
  const { before, after } = chain;
  for (let i = low === -1 ? chain.first : after[low]; i !== high; i = after[i]) chain.count--;
  const put = chain.vertices.length;
  let previous = low;
  for (const position of positions) {
    const i = chain.vertices.length;
    chain.vertices.push(position);
    chain.source.push(source);
    chain.smooth.push(false);
    chain.bridge.push(false);
    before.push(previous);
    after.push(-1);
    if (previous === -1) chain.first = i;
    else after[previous] = i;
    previous = i;
    chain.count++;
  }
  after[previous] = high;
  if (high === -1) chain.last = previous;
  else {
    before[high] = previous;
    chain.bridge[high] = false;
  }
  return put;
}

/**
 * Of the crossings between an edge before the bridge that ends at vertex `b` and one after it, the one that encloses most:
 * after vertex `low` and before vertex `high`.
 */
function widestCrossing(
  { vertices, source, bridge, after }: ChainedPath,
  from: number,
  b: number,
  to: number,
): { low: number; high: number; position: Position; source: number } | undefined {
  const origin = vertices[b];
  const indices: number[] = [];
  for (let i = from; ; i = after[i]) {
    indices.push(i);
    if (i === to) break;
  }
  const middle = indices.indexOf(b);
  // the azimuthal equidistant plane about the vertex
  const x = new Float64Array(indices.length);
  const y = new Float64Array(indices.length);
  for (const [k, i] of indices.entries()) {
    const { length, startAzimuth } = quickPiece(origin, vertices[i]);
    x[k] = length * Math.sin(startAzimuth * RADIAN);
    y[k] = length * Math.cos(startAzimuth * RADIAN);
  }
  for (let i = 0; i + 1 < middle; i++) {
    if (bridge[indices[i + 1]]) continue;
    const [ax, ay] = [x[i], y[i]];
    const [abx, aby] = [x[i + 1] - ax, y[i + 1] - ay];
    for (let j = indices.length - 2; j >= middle; j--) {
      const [cdx, cdy] = [x[j + 1] - x[j], y[j + 1] - y[j]];
      const across = abx * cdy - aby * cdx;
      if (across === 0) continue;
      const t = ((x[j] - ax) * cdy - (y[j] - ay) * cdx) / across;
      const u = ((x[j] - ax) * aby - (y[j] - ay) * abx) / across;
      if (!(t >= 0 && t <= 1 && u >= 0 && u <= 1) || bridge[indices[j + 1]]) continue;
      const [east, north] = [ax + t * abx, ay + t * aby];
      const [low, next, high] = [indices[i], indices[i + 1], indices[j + 1]];
      return {
        low,
        high,
        position: quickStep(origin, Math.atan2(east, north) / RADIAN, Math.sqrt(east * east + north * north)),
        source: (source[low] + t * (source[next] - source[low]) + source[high]) / 2,
      };
    }
  }
  return undefined;
}
