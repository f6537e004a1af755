import type { Feature, LineString, Position } from 'geojson';
import { InputError } from '../errors';
import type { Route } from './Route';
import type { RecipeStep, RouteOptions } from './RouteRecipe';
import { routeFromRecipe } from './routeFromRecipe';

/** A line held as columns: a recording, a route, or anything of that shape. */
export interface Track {
  readonly lon: ArrayLike<number>;
  readonly lat: ArrayLike<number>;
}

/**
 * The route along a line that exists already: positions, a GeoJSON LineString (or a Feature of one), or a track.
 *
 * @example
 * routeFromLine([[5, 60], [5.01, 60]]).length // → 558.00…
 *
 * @throws {InputError} fewer than 2 positions, or one that is not on the globe
 */
export function routeFromLine(
  line: readonly Position[] | LineString | Feature<LineString> | Track,
  options: RouteOptions = {},
): Route {
  const positions = positionsOf(line);
  const steps = positions.map((position, i): RecipeStep => ({ call: i === 0 ? 'start' : 'lineTo', position }));
  return routeFromRecipe({ version: 1, options, steps });
}

function positionsOf(line: readonly Position[] | LineString | Feature<LineString> | Track): readonly Position[] {
  if (Array.isArray(line)) return line;
  if (typeof line === 'object' && line !== null) {
    if ('lon' in line) return Array.from(line.lon, (lon, i) => [lon, line.lat[i]]);
    if ('coordinates' in line) return line.coordinates;
    if ('geometry' in line) return line.geometry.coordinates;
  }
  throw new InputError({
    reason: 'wrong-type',
    argument: 'line',
    rule: 'positions, a GeoJSON LineString or a track',
    value: line,
  });
}
