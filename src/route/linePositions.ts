import type { Feature, LineString, Position } from 'geojson';
import { wrapLongitude } from '../geodesy';
import { InputError } from '../model';

/** A line held as columns: a recording, a route, or anything of that shape. */
export interface Track {
  readonly lon: ArrayLike<number>;
  readonly lat: ArrayLike<number>;
}

/**
 * The positions of a line, whatever form it comes in.
 *
 * @throws {InputError} `wrong-type`
 */
export function linePositions(
  line: readonly Position[] | LineString | Feature<LineString> | Track,
  argument = 'line',
): readonly Position[] {
  if (Array.isArray(line)) return line;
  if (typeof line === 'object' && line !== null) {
    if ('lon' in line && 'lat' in line) return Array.from(line.lon, (lon, i) => [wrapLongitude(lon), line.lat[i]]);
    const geometry = 'geometry' in line ? line.geometry : line;
    if (geometry !== null && 'coordinates' in geometry && geometry.type === 'LineString') return geometry.coordinates;
  }
  throw new InputError({
    reason: 'wrong-type',
    argument,
    rule: 'positions, a GeoJSON LineString or a track',
    value: line,
  });
}
