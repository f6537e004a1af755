import { lineString } from '@turf/helpers';
import simplify from '@turf/simplify';
import { line } from 'd3-shape';
import type { Point } from './routePlane';

/**
 * A line through points of the picture as path data, without the points that nobody could see missing: a quarter of a
 * pixel keeps a ten-kilometre recording to a few kilobytes. Empty for fewer than two points.
 */
export function linePath(points: readonly Point[], tolerance = 0.25): string {
  if (points.length < 2) return '';
  const coordinates = points.map(([x, y]) => [x, y]);
  const thinned = simplify(lineString(coordinates), { tolerance, highQuality: true, mutate: true }).geometry
    .coordinates;
  return line<number[]>().digits(1)(thinned) ?? '';
}
