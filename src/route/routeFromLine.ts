import { positionsOf } from '../geodesy';
import type { Line, Route, RouteOptions } from '../model';
import { compileRecipe } from './compileRecipe';
import { plainCopy } from './plainCopy';

/**
 * The route along a line that exists already: positions, a GeoJSON LineString (or a Feature of one), another route, a
 * recording, or columns of degrees.
 *
 * @example
 * routeFromLine([[5, 60], [5.01, 60]]).length // → 558.00…
 *
 * @throws {InputError} fewer than 2 positions, or one that is not on the globe
 */
export function routeFromLine(line: Line, options: RouteOptions = {}): Route {
  const step = { call: 'follow', line: positionsOf(line) } as const;
  return compileRecipe({ version: 1, options: plainCopy(options), steps: [plainCopy(step)] });
}
