import { thinLine } from '../geodesy';
import type { Point } from './routePlane';

/**
 * A line through points of the picture as path data, without the points that nobody could see missing: a third of a
 * pixel keeps a ten-kilometre recording to a few kilobytes, and so does telling each point from the one before. To a tenth
 * of a pixel, and no further off after however many. Empty for fewer than two points.
 */
export function linePath(points: readonly Point[], tolerance = 0.35): string {
  const n = points.length;
  if (n < 2) return '';
  const x = new Float64Array(n);
  const y = new Float64Array(n);
  for (let i = 0; i < n; i++) [x[i], y[i]] = points[i];
  const kept = thinLine(x, y, tolerance);
  let [atX, atY] = [Math.round(10 * x[0]), Math.round(10 * y[0])];
  let path = `M${atX / 10},${atY / 10}l`;
  for (let k = 1; k < kept.length; k++) {
    const [nextX, nextY] = [Math.round(10 * x[kept[k]]), Math.round(10 * y[kept[k]])];
    const [right, down] = [nextX - atX, nextY - atY];
    // what is less than a tenth away is the same place, but for the end of a line that would have none
    if (right === 0 && down === 0 && !(k === kept.length - 1 && path.endsWith('l'))) continue;
    if (right >= 0 && !path.endsWith('l')) path += ' ';
    path += tenths(right);
    if (down >= 0) path += ' ';
    path += tenths(down);
    [atX, atY] = [nextX, nextY];
  }
  return path;
}

/** So many tenths as a number without what path data can do without: `.3`, `-12.5`, `4`. */
function tenths(count: number): string {
  const size = Math.abs(count);
  const whole = Math.floor(size / 10);
  const part = size % 10;
  const digits = part === 0 ? `${whole}` : `${whole === 0 ? '' : whole}.${part}`;
  return count < 0 ? `-${digits}` : digits;
}
