import { hashNumbers } from './hashNumbers';
import { ofRoute } from './ofRoute';
import { orderedJson } from './orderedJson';
import type { Route } from './Route';

/** What tells one route from another: the hash of its recipe, not of the line made of it, whose last bits are another engine's. */
export function routeHash(route: Route): string {
  return ofRoute(route, recipeHash);
}

function recipeHash({ recipe }: Route): string {
  return hashNumbers([orderedJson(recipe)]);
}
