import type { Position } from 'geojson';
import { checkNumber } from '../internal/checkNumber';
import { checkOptions } from '../internal/checkOptions';
import { checkPosition } from '../internal/checkPosition';
import { wrapLongitude } from '../internal/longitude';
import { Geodesic, WGS84 } from './ellipsoid';

/** Options of {@link densify}. */
export interface DensifyOptions {
  /** No edge of the result is longer, in metres. */
  readonly maxSpacing: number;
}

/**
 * The same line with vertices at most `maxSpacing` metres apart: given vertices kept, each edge cut into equal pieces
 * of its geodesic.
 *
 * @example
 * densify([[5, 52], [5.01, 52]], { maxSpacing: 300 }).length // → 4
 *
 * @throws {InputError} a position not on the globe, or a spacing not above 0
 */
export function densify(positions: readonly Position[], options: DensifyOptions): Position[] {
  checkOptions(options, { maxSpacing: true });
  const maxSpacing = checkNumber(options?.maxSpacing, 'options.maxSpacing', { above: 0 });
  const out: Position[] = [];
  for (let i = 0; i < positions.length; i++) {
    checkPosition(positions[i], `positions[${i}]`);
    if (i > 0) {
      const [a, b] = [positions[i - 1], positions[i]];
      const line = WGS84.InverseLine(a[1], a[0], b[1], b[0], Geodesic.STANDARD | Geodesic.DISTANCE_IN);
      const pieces = Math.ceil(line.s13 / maxSpacing);
      for (let k = 1; k < pieces; k++) {
        const { lat2, lon2 } = line.Position((line.s13 * k) / pieces, Geodesic.LATITUDE | Geodesic.LONGITUDE);
        out.push([wrapLongitude(lon2!), lat2!]);
      }
    }
    out.push([...positions[i]]);
  }
  return out;
}
