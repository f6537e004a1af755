import { MEAN_RADIUS, RADIAN } from '../geodesy';
import { indexRoute } from '../index';
import type { Line } from '../model';
import { routeFromLine } from '../route';
import type { LineColumns } from './drawnLine';
import type { RouteGrid } from './RouteGrid';

/** A line further off than this is another street. */
const BESIDE = 60;

/** A line beside the route: its offset from it by bin, right positive, NaN where it isn't beside it. */
export interface Companion {
  readonly offset: Float64Array;
  readonly line: LineColumns;
}

/**
 * How far right of the route another line runs, bin by bin.
 *
 * @throws {InputError} a line that is none
 */
export function companionOffsets(grid: RouteGrid, line: Line): Companion {
  const companion = routeFromLine(line, { name: 'companion' });
  const index = indexRoute(companion);
  const offset = new Float64Array(grid.count).fill(Number.NaN);
  for (let k = 0; k < grid.count; k++) {
    const found = index.nearest([grid.lon[k], grid.lat[k]], { maxDistance: BESIDE });
    if (!found) continue;
    const turn = found.position[0] - grid.lon[k];
    const east = (turn - 360 * Math.round(turn / 360)) * MEAN_RADIUS * RADIAN * Math.cos(grid.lat[k] * RADIAN);
    const north = (found.position[1] - grid.lat[k]) * MEAN_RADIUS * RADIAN;
    const right = east * grid.rightEast[k] + north * grid.rightNorth[k];
    // Past its end, or where it crosses, the nearest place lies ahead or behind and not beside.
    if (found.distance < 1e-3 || Math.abs(right) > 0.7 * found.distance) {
      offset[k] = Math.sign(right) * found.distance;
    }
  }
  const { lon, lat } = companion;
  return { offset, line: { lon, lat, alongTrack: lon.map(() => Number.NaN) } };
}
