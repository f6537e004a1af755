import { InputError } from 'datumline';
import type { ControlPoint } from './PlacedPicture';

/**
 * The corners of a picture as its world file places them: six numbers, one a line: degrees east a column, north a column, east
 * a row, north a row, then longitude and latitude of the middle of the upper left element.
 *
 * @throws {InputError} other than six numbers, or numbers that are no degrees: metres of a grid whose name the file doesn't say
 */
export function readWorldFile(text: string, { width, height }: { width: number; height: number }): ControlPoint[] {
  const values = text
    .trim()
    .split(/\s+/)
    .map((word) => Number(word.replace(',', '.')));
  if (values.length !== 6 || !values.every(Number.isFinite)) {
    throw new InputError({
      reason: 'unreadable',
      argument: 'world file',
      rule: 'six numbers',
      value: text.slice(0, 80),
    });
  }
  const [a, b, c, d, e, f] = values;
  const corners = [
    [0, 0],
    [width, 0],
    [width, height],
    [0, height],
  ].map(([x, y]) => ({ x, y, position: [e + a * (x - 0.5) + c * (y - 0.5), f + b * (x - 0.5) + d * (y - 0.5)] }));
  if (!corners.every(({ position: [lon, lat] }) => Math.abs(lon) <= 360 && Math.abs(lat) <= 90)) {
    throw new InputError({
      reason: 'out-of-range',
      argument: 'world file',
      rule: 'in degrees of longitude and latitude',
      value: [e, f],
      hint: 'Metres of a grid do not say of which: place the picture by clicking two or more points instead',
    });
  }
  return corners;
}
