import { type Line, lineOf } from '../model';
import { quickInverse } from './quickInverse';
import { Sum } from './Sum';

/**
 * Length in metres of a line, its edges geodesics.
 *
 * One position or none has length 0; repeated positions add nothing; heights and the gaps of a recording are ignored.
 *
 * @example
 * lineLength([[5, 52], [6, 52], [6, 51.4]]) // → 135434.461…
 *
 * @throws {InputError} not a line, or a position not on the globe
 * @remarks Edges good to 15 nm each, in a compensated sum: its rounding does not grow with their number. Linear, about
 * 0.1 µs an edge up to some 500 m, 1 µs else.
 * @see Karney, Algorithms for geodesics, J. Geod. 87 (2013), doi:10.1007/s00190-012-0578-z
 */
export function lineLength(positions: Line): number {
  const { lon, lat } = lineOf(positions, 'positions', 0);
  const sum = new Sum();
  for (let i = 1; i < lon.length; i++) {
    sum.add(quickInverse(lon[i - 1], lat[i - 1], lon[i], lat[i]).s12);
  }
  return sum.value;
}
