import { line } from 'd3-shape';
import { thinLine } from '../geodesy';
import type { Point } from './routePlane';

/**
 * A line through points of the picture as path data, without the points that nobody could see missing: a quarter of a
 * pixel keeps a ten-kilometre recording to a few kilobytes. Empty for fewer than two points.
 */
export function linePath(points: readonly Point[], tolerance = 0.25): string {
  if (points.length < 2) return '';
  const column = (axis: 0 | 1) => Float64Array.from(points, (point) => point[axis]);
  const kept = thinLine(column(0), column(1), tolerance).map((i) => points[i]);
  return line<Point>().digits(1)(kept) ?? '';
}
