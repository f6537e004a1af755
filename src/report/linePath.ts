import { thinLine } from '../geodesy';
import type { Painted } from './Painted';
import type { Trace } from './Trace';

/** Pixels. */
const TOLERANCE = 0.35;

/**
 * A line of the picture as path data, without the points that nobody could see missing: a third of a pixel keeps a
 * ten-kilometre recording to a few kilobytes, and so does telling each point from the one before. To a tenth of a pixel,
 * and no further off after however many. Empty for fewer than two points.
 *
 * @param painted - what a line that comes back over itself is not drawn through again
 */
export function linePath({ x, y }: Trace, painted?: Painted): string {
  if (x.length < 2) return '';
  const kept = thinLine(x, y, TOLERANCE);
  const line = { x: kept.map((i) => x[i]), y: kept.map((i) => y[i]) };
  let path = '';
  for (const [begin, end] of painted?.add(line) ?? [[0, kept.length]]) path += pathOf(line, begin, end);
  return path;
}

function pathOf({ x, y }: Trace, begin: number, end: number): string {
  let atX = Math.round(10 * x[begin]);
  let atY = Math.round(10 * y[begin]);
  const from = `M${atX / 10},${atY / 10}l`;
  let steps = '';
  for (let k = begin + 1; k < end; k++) {
    const right = Math.round(10 * x[k]) - atX;
    const down = Math.round(10 * y[k]) - atY;
    const isFirst = steps === '';
    // what is less than a tenth away is the same place, but for the end of a line that would have none
    if (right === 0 && down === 0 && !(k === end - 1 && isFirst)) continue;
    steps += `${right >= 0 && !isFirst ? ' ' : ''}${tenths(right)}${down >= 0 ? ' ' : ''}${tenths(down)}`;
    atX += right;
    atY += down;
  }
  return from + steps;
}

/** So many tenths as a number without what path data can do without: `.3`, `-12.5`, `4`. */
function tenths(count: number): string {
  const size = Math.abs(count);
  const whole = Math.floor(size / 10);
  const part = size % 10;
  const digits = part === 0 ? `${whole}` : `${whole === 0 ? '' : whole}.${part}`;
  return count < 0 ? `-${digits}` : digits;
}
