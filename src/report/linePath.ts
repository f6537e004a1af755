import { pathRound } from 'd3-path';
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
  const path = pathRound(1);
  kept.forEach(([x, y], i) => {
    if (i === 0) path.moveTo(x, y);
    else path.lineTo(x, y);
  });
  return path.toString();
}
