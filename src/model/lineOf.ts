import { checkColumns } from './checkColumns';
import { checkCoordinates, checkPosition } from './checkPosition';
import { InputError } from './InputError';
import type { GivenPosition, Line, LineColumns } from './Line';
import { lineString } from './lineString';

/**
 * The columns of a line, whatever form it comes in, every position checked. Columns that were given are not copied.
 *
 * @param least - Fewer positions than this are no line.
 * @throws {InputError} not a line; too few positions; one that is not on the globe; columns of different lengths
 */
export function lineOf(line: Line, argument = 'line', least = 1): LineColumns {
  const given = lineString(line);
  const columns = given === undefined ? checkedColumns(line, argument) : columnsOf(given, argument);
  if (columns.lon.length >= least) return columns;
  const rule = `a line of at least ${least} position${least === 1 ? '' : 's'}`;
  throw new InputError({ reason: 'too-few', argument, rule, value: given ?? columns.lon.length });
}

function columnsOf(positions: readonly GivenPosition[], argument: string): LineColumns {
  const lon = new Float64Array(positions.length);
  const lat = new Float64Array(positions.length);
  for (let i = 0; i < positions.length; i++) {
    const position: unknown = positions[i];
    checkPosition(position, argument, i);
    lon[i] = position[0];
    lat[i] = position[1];
  }
  return { lon, lat };
}

function checkedColumns(line: unknown, argument: string): LineColumns {
  const rule = 'positions, a GeoJSON LineString, a route, a recording or columns lon and lat';
  checkColumns(line, argument, rule, ['lon', 'lat'], ['gapBefore']);
  const { lon, lat } = line as LineColumns;
  for (let i = 0; i < lon.length; i++) {
    if (Math.abs(lon[i]) <= 540 && Math.abs(lat[i]) <= 90) continue;
    // longitudes of a route run on, turn after turn: each lies beside the one before
    if (i > 0 && Math.abs(lon[i] - lon[i - 1]) <= 180 && Math.abs(lat[i]) <= 90) continue;
    checkCoordinates(lon[i], lat[i], `${argument}[${i}]`);
  }
  return line as LineColumns;
}
