import { type Line, lineOf } from '../model';
import { Geodesic, WGS84 } from './ellipsoid';
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
 * 1 µs an edge.
 * @see Karney, Algorithms for geodesics, J. Geod. 87 (2013), doi:10.1007/s00190-012-0578-z
 */
export function lineLength(positions: Line): number {
  const { lon, lat } = lineOf(positions, 'positions', 0);
  const sum = new Sum();
  for (let i = 1; i < lon.length; i++) {
    sum.add(WGS84.Inverse(lat[i - 1], lon[i - 1], lat[i], lon[i], Geodesic.DISTANCE).s12!);
  }
  return sum.value;
}
