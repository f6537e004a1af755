import type { Feature, LineString, Position } from 'geojson';
import type { Route, RouteOptions } from '../model';
import { compileRecipe } from './compileRecipe';
import { linePositions, type Track } from './linePositions';
import { plainCopy } from './plainCopy';

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
  const step = { call: 'follow', line: linePositions(line) } as const;
  return compileRecipe({ version: 1, options: plainCopy(options), steps: [plainCopy(step)] });
}
