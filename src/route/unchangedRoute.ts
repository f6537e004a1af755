import type { FeatureCollection } from 'geojson';
import { InputError, type Route, type RouteOptions, type RouteRecipe } from '../model';
import { compileRecipe } from './compileRecipe';
import { plainCopy } from './plainCopy';
import { EDGE, routeToGeoJson } from './routeToGeoJson';

/** Degrees that a coordinate may differ by and still be the one written: an editor cuts digits. 5 cm. */
const SAME = 5e-7;

/**
 * The route that a collection holds as its recipe; `undefined` where it holds none, or where the drawing beside it was changed
 * since.
 */
export function unchangedRoute(collection: FeatureCollection, options: RouteOptions): Route | undefined {
  const { recipe } = collection as { recipe?: RouteRecipe };
  if (typeof recipe !== 'object' || recipe === null) return undefined;
  let route: Route;
  try {
    route = compileRecipe(plainCopy(recipe));
  } catch (error) {
    // of another library, or changed by hand: the drawing counts
    if (error instanceof InputError) return undefined;
    throw error;
  }
  const drawn = (features: FeatureCollection['features']) =>
    features
      .filter((feature) => !isEdge(feature?.properties))
      .map((feature) => [feature?.geometry, feature?.properties]);
  if (!isAlike(drawn(routeToGeoJson(route).features), drawn(collection.features))) return undefined;
  if (Object.keys(options).length === 0) return route;
  return compileRecipe(plainCopy({ ...recipe, options: { ...recipe.options, ...options } }));
}

/** Whether a feature only shows the corridor. */
export function isEdge(properties: unknown): boolean {
  return (properties as { datumline?: unknown } | null | undefined)?.datumline === EDGE.datumline;
}

/** Whether what was written stands in what was found: numbers but for digits cut, other members left alone, lists whole. */
function isAlike(written: unknown, found: unknown): boolean {
  if (typeof written === 'number') return Math.abs(written - Number(found)) <= SAME;
  if (Array.isArray(written)) {
    return Array.isArray(found) && written.length === found.length && written.every((one, i) => isAlike(one, found[i]));
  }
  if (typeof written !== 'object' || written === null) return written === found;
  if (typeof found !== 'object' || found === null) return false;
  return Object.entries(written).every(([key, value]) => isAlike(value, (found as Record<string, unknown>)[key]));
}
