import type { RecipeStep, RouteRecipe } from '../model';

/** The recipe of a route made of others. */
export function derivedRecipe(step: RecipeStep): RouteRecipe {
  return { version: 1, options: {}, steps: [step] };
}
