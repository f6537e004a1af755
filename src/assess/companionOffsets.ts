import { densify, MEAN_RADIUS, RADIAN, unwrapLongitude } from '../geodesy';
import { placeOnEdge, SegmentTree } from '../index';
import { hashNumbers, type Line, lineOf, routeHash } from '../model';
import type { LineColumns } from './drawnLine';
import type { RouteGrid } from './RouteGrid';

/** A line further off than this is another street. */
const BESIDE = 60;

/** Metres between vertices of the line, as along a route. */
const SPACING = 5;

/** A line beside the route: its offset from it by bin, right positive, NaN where it isn't beside it. */
export interface Companion {
  readonly offset: Float64Array;
  readonly line: LineColumns;
  /** Of what was given: the last bits of what is made of it are another engine's. */
  readonly hash: string;
}

/**
 * How far right of the route another line runs, bin by bin.
 *
 * @throws {InputError} a line that is none
 */
export function companionOffsets(grid: RouteGrid, line: Line): Companion {
  const given = lineOf(line, 'line', 2);
  const vertices = densify(given, { maxSpacing: SPACING });
  const lon = Float64Array.from(vertices, ([longitude]) => longitude);
  for (let i = 1; i < lon.length; i++) lon[i] = unwrapLongitude(lon[i], lon[i - 1]);
  const lat = Float64Array.from(vertices, ([, latitude]) => latitude);
  const tree = new SegmentTree(lon, lat);
  const offset = new Float64Array(grid.count).fill(Number.NaN);
  for (let k = 0; k < grid.count; k++) {
    const [longitude, latitude] = grid.positionAt(k);
    const segment = tree.nearest(longitude, latitude, BESIDE);
    if (segment < 0) continue;
    const { distance, fraction } = tree;
    const place = placeOnEdge(lon, lat, segment, fraction, SPACING);
    const turn = place.lon - longitude;
    const east = (turn - 360 * Math.round(turn / 360)) * MEAN_RADIUS * RADIAN * Math.cos(latitude * RADIAN);
    const north = (place.lat - latitude) * MEAN_RADIUS * RADIAN;
    const right = east * grid.rightEast[k] + north * grid.rightNorth[k];
    // Past its end, or where it crosses, the nearest place lies ahead or behind and not beside.
    if (distance < 1e-3 || Math.abs(right) > 0.7 * distance) {
      offset[k] = Math.sign(right) * distance;
    }
  }
  const hash = 'recipe' in line ? routeHash(line) : hashNumbers([given.lon, given.lat]);
  return { offset, line: { lon, lat, alongTrack: lon.map(() => Number.NaN) }, hash };
}
