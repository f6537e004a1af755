import { checkDocument, type Route, type RouteRecipe } from '../model';
import { compileRecipe } from './compileRecipe';
import { plainCopy } from './plainCopy';
import { recipeSchema } from './recipeSchema';

/**
 * The route that a recipe describes: `routeFromRecipe(route.recipe)` is identical to `route`.
 *
 * A recipe is plain JSON, checked against {@link recipeSchema}: keep it in a file, and replace a leg in it when the line
 * run turns out to be another.
 *
 * @example
 * const route = routeBuilder().start([5, 60]).lineTo([5.01, 60]).lineTo([5.01, 60.01]).build();
 * const steps = route.recipe.steps.with(1, { call: 'lineTo', position: [5.02, 60] });
 * routeFromRecipe({ ...route.recipe, steps }).length - route.length // → 689.8…
 *
 * @throws {InputError} naming the path into the document, with the call by its number
 */
export function routeFromRecipe(recipe: RouteRecipe): Route {
  checkDocument(recipe, recipeSchema, 'recipe');
  return compileRecipe(plainCopy(recipe));
}
