import type { Position } from 'geojson';
import { checkPosition, type Line, lineOf, lineString } from '../model';
import { wrapLongitude } from './longitude';

/**
 * The positions of a line, whatever form it comes in, every one checked. Positions that were given come as they are; those of
 * columns with longitudes within [-180, 180).
 *
 * @throws {InputError} not a line, or a position not on the globe
 */
export function positionsOf(line: Line, argument = 'line'): readonly Position[] {
  const given = lineString(line);
  if (given === undefined) {
    const { lon, lat } = lineOf(line, argument, 0);
    return Array.from(lon, (longitude, i) => [wrapLongitude(longitude), lat[i]]);
  }
  for (let i = 0; i < given.length; i++) checkPosition(given[i], argument, i);
  return given as readonly Position[];
}
