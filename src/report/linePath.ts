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
  for (let i = 0; i < n; i++) {
    const point = points[i];
    x[i] = point[0];
    y[i] = point[1];
  }
  const kept = thinLine(x, y, tolerance);
  let atX = Math.round(10 * x[0]);
  let atY = Math.round(10 * y[0]);
  let steps = '';
  for (let k = 1; k < kept.length; k++) {
    const right = Math.round(10 * x[kept[k]]) - atX;
    const down = Math.round(10 * y[kept[k]]) - atY;
    const isFirst = steps === '';
    // what is less than a tenth away is the same place, but for the end of a line that would have none
    if (right === 0 && down === 0 && !(k === kept.length - 1 && isFirst)) continue;
    steps += `${right >= 0 && !isFirst ? ' ' : ''}${tenths(right)}${down >= 0 ? ' ' : ''}${tenths(down)}`;
    atX += right;
    atY += down;
  }
  return `M${Math.round(10 * x[0]) / 10},${Math.round(10 * y[0]) / 10}l${steps}`;
}

/** So many tenths as a number without what path data can do without: `.3`, `-12.5`, `4`. */
function tenths(count: number): string {
  const size = Math.abs(count);
  const whole = Math.floor(size / 10);
  const part = size % 10;
  const digits = part === 0 ? `${whole}` : `${whole === 0 ? '' : whole}.${part}`;
  return count < 0 ? `-${digits}` : digits;
}
