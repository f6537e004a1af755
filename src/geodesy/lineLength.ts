import type { Position } from 'geojson';
import { checkPositions } from '../model';
import { Geodesic, WGS84 } from './ellipsoid';
import { Sum } from './Sum';

/**
 * Length in metres of the line through `positions`, its edges geodesics.
 *
 * One position or none has length 0; repeated positions add nothing; heights are ignored.
 *
 * @example
 * lineLength([[5, 52], [6, 52], [6, 51.4]]) // → 135434.461…
 *
 * @throws {InputError} no array, or a position not on the globe
 * @remarks Edges good to 15 nm each, in a compensated sum: its rounding does not grow with their number. Linear, about
 * 1 µs an edge.
 * @see Karney, Algorithms for geodesics, J. Geod. 87 (2013), doi:10.1007/s00190-012-0578-z
 */
export function lineLength(positions: readonly Position[]): number {
  checkPositions(positions, 'positions');
  const sum = new Sum();
  for (let i = 1; i < positions.length; i++) {
    const from = positions[i - 1];
    const to = positions[i];
    sum.add(WGS84.Inverse(from[1], from[0], to[1], to[0], Geodesic.DISTANCE).s12!);
  }
  return sum.value;
}
