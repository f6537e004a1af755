import { unwrapLongitude } from '../geodesy';
import { placeOnEdge } from '../index';
import { degreeMetres } from './degreeMetres';
import type { Region, Standing } from './Region';

/** Metres: within so short a part of an edge, the geodesic and the straight line in degrees are the same to 0.3 mm at 80°. */
const STRAIGHT_PART = 50;

/** Edges for which those of the region near by are looked up together. */
const TOGETHER = 16;

/** A part of an edge of a line, straight in degrees, and how it stands to a region. */
export interface WalkedPart {
  /** The vertex that the edge ends at. */
  readonly vertex: number;
  /** Shares of the edge. */
  readonly from: number;
  readonly to: number;
  /** Degrees, longitudes beside those of the region. */
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
  readonly standing: Standing;
}

/**
 * How a line stands to a region, part by part: its edges are geodesics, cut exactly where they come within reach of the
 * region's edges and where they leave it.
 *
 * @param vertices - Those at which the edges to be walked end, ascending.
 * @remarks To 0.3 mm up to 80° of latitude; a part nearer to an edge than a micrometre is undecided.
 */
export function walkLine(
  region: Region,
  lon: ArrayLike<number>,
  lat: ArrayLike<number>,
  vertices: readonly number[],
): WalkedPart[] {
  const walked: WalkedPart[] = [];
  let last = -1;
  let before: Standing | undefined;
  for (let begin = 0; begin < vertices.length; begin += TOGETHER) {
    const together: WalkedPart[] = [];
    const end = Math.min(begin + TOGETHER, vertices.length);
    for (let k = begin; k < end; k++) straightParts(region, lon, lat, vertices[k], together);
    let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
    for (const { x0, y0, x1, y1 } of together) {
      minX = Math.min(minX, x0, x1);
      maxX = Math.max(maxX, x0, x1);
      minY = Math.min(minY, y0, y1);
      maxY = Math.max(maxY, y0, y1);
    }
    const { east, north } = degreeMetres(Math.max(Math.abs(minY), Math.abs(maxY)));
    const groups = region.groupsIn({
      minX: minX - region.reach / east,
      minY: minY - region.reach / north - 1e-9,
      maxX: maxX + region.reach / east,
      maxY: maxY + region.reach / north + 1e-9,
    });
    for (const part of together) {
      const { vertex, from, to, x0, y0, x1, y1 } = part;
      if (vertex > last + 1) before = undefined;
      last = vertex;
      if (groups.length === 0 && before !== undefined && before !== 'undecided') {
        walked.push(part.standing === before ? part : { ...part, standing: before });
        continue;
      }
      for (const found of region.parts(x0, y0, x1, y1, groups, before)) {
        before = found.standing;
        if (found.from === 0 && found.to === 1)
          walked.push(before === part.standing ? part : { ...part, standing: before });
        else {
          walked.push({
            vertex,
            from: from + found.from * (to - from),
            to: from + found.to * (to - from),
            x0: x0 + found.from * (x1 - x0),
            y0: y0 + found.from * (y1 - y0),
            x1: x0 + found.to * (x1 - x0),
            y1: y0 + found.to * (y1 - y0),
            standing: before,
          });
        }
      }
    }
  }
  return walked;
}

/** The parts of an edge that are straight in degrees; that they lie outside is supposed: most do. */
function straightParts(
  { index }: Region,
  lon: ArrayLike<number>,
  lat: ArrayLike<number>,
  vertex: number,
  parts: WalkedPart[],
): void {
  const x0 = unwrapLongitude(lon[vertex - 1], index.near);
  const x1 = unwrapLongitude(lon[vertex], x0);
  const y0 = lat[vertex - 1];
  const y1 = lat[vertex];
  const { east, north } = degreeMetres((y0 + y1) / 2);
  const length = Math.hypot((x1 - x0) * east, (y1 - y0) * north);
  const count = Math.ceil(length / STRAIGHT_PART);
  if (count <= 1) {
    parts.push({ vertex, from: 0, to: 1, x0, y0, x1, y1, standing: 'outside' });
    return;
  }
  const [xs, ys] = [Float64Array.of(x0, x1), Float64Array.of(y0, y1)];
  let from = { lon: x0, lat: y0 };
  for (let k = 1; k <= count; k++) {
    const to = k === count ? { lon: x1, lat: y1 } : placeOnEdge(xs, ys, 0, k / count, length);
    parts.push({
      ...{ vertex, from: (k - 1) / count, to: k / count },
      ...{ x0: from.lon, y0: from.lat, x1: to.lon, y1: to.lat, standing: 'outside' },
    });
    from = to;
  }
}
