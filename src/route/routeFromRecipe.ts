import type { Route, RouteRecipe } from '../model';
import { compileRecipe } from './compileRecipe';
import { plainCopy } from './plainCopy';

/**
 * The route that a recipe describes: `routeFromRecipe(route.recipe)` is identical to `route`.
 *
 * A recipe is plain JSON: keep it in a file, and replace a leg in it when the line run turns out to be another;
 * `datumline/schemas/recipe.json` describes it to an editor. It is judged as a {@link routeBuilder} judges its calls: the same
 * fault is refused for the same reason and in the same words.
 *
 * @example
 * const route = routeBuilder().start([5, 60]).lineTo([5.01, 60]).lineTo([5.01, 60.01]).build();
 * const steps = route.recipe.steps.with(1, { call: 'lineTo', position: [5.02, 60] });
 * routeFromRecipe({ ...route.recipe, steps }).length - route.length // → 689.8…
 *
 * @throws {InputError} naming the call by its number, and the path to it in a recipe within: `steps[0] reverse recipe.steps[3] arc radius`
 */
export function routeFromRecipe(recipe: RouteRecipe): Route {
  return compileRecipe(plainCopy(recipe));
}
