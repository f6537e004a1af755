import {
  checkNumber,
  checkOptions,
  InputError,
  type OptionKeys,
  type RecipeStep,
  type Route,
  type RouteOptions,
  type RouteRecipe,
} from '../model';
import type { Draft } from './Draft';
import { drawnWarnings } from './drawnWarnings';
import { drawSteps } from './drawSteps';
import { joinRoutes } from './joinRoutes';
import { layVertices } from './layVertices';
import { offsetRoute } from './offsetRoute';
import { placeMarks } from './placeMarks';
import { placeSections } from './placeSections';
import { reverseRoute } from './reverseRoute';
import { roundCorners } from './roundCorners';
import { sliceRoute } from './sliceRoute';
import { withWarnings } from './withWarnings';

const optionKeys: OptionKeys<RouteOptions> = {
  name: true,
  maxSpacing: true,
  maxSagitta: true,
  cornerRadius: true,
  lateral95: true,
  halfWidth: true,
};

/**
 * The route that a recipe describes; the recipe becomes part of it and must not be changed afterwards.
 *
 * @throws {InputError} naming the call by its number
 */
export function compileRecipe(recipe: RouteRecipe): Route {
  const [only] = recipe.steps;
  if (recipe.steps.length === 1) {
    const derived = derivedRoute(only);
    if (derived !== undefined) return derived;
  }
  checkOptions(recipe.options, optionKeys);
  const { name, maxSpacing = 5, maxSagitta = 0.02, cornerRadius = 0, lateral95, halfWidth } = recipe.options;
  if (name !== undefined && typeof name !== 'string') {
    throw new InputError({ reason: 'wrong-type', argument: 'options.name', rule: 'a text', value: name });
  }
  checkNumber(maxSpacing, 'options.maxSpacing', { above: 0 });
  checkNumber(maxSagitta, 'options.maxSagitta', { above: 0 });
  checkNumber(cornerRadius, 'options.cornerRadius', { min: 0 });
  if (lateral95 !== undefined) checkNumber(lateral95, 'options.lateral95', { min: 0 });
  if (halfWidth !== undefined) checkNumber(halfWidth, 'options.halfWidth', { above: 0 });

  const draft: Draft = {
    pieces: [],
    sections: [],
    marks: [],
    provenances: [],
    origin: -1,
    warnings: [],
    authored: [],
    laps: [],
  };
  drawSteps(draft, recipe.steps, 'steps');
  if (draft.pieces.length === 0) {
    throw new InputError({
      reason: 'too-few',
      argument: 'steps',
      rule: 'a line of at least 2 points',
      value: recipe.steps.length,
    });
  }
  const rounded = roundCorners(draft.pieces, cornerRadius);
  const laid = layVertices(rounded, draft, { maxSpacing, maxSagitta, lateral95 });
  const sections = placeSections(draft, laid, halfWidth);
  const marks = placeMarks(draft, laid);
  return withWarnings({ ...(name === undefined ? {} : { name }), ...laid.columns, sections, marks, recipe }, () =>
    drawnWarnings(draft, rounded, laid.alongNode),
  );
}

function derivedRoute(step: RecipeStep): Route | undefined {
  switch (step?.call) {
    case 'offset': {
      const { call: _, recipe, ...options } = step;
      return offsetRoute(compileRecipe(recipe), options);
    }
    case 'slice':
      return sliceRoute(compileRecipe(step.recipe), step.from, step.to);
    case 'reverse':
      return reverseRoute(compileRecipe(step.recipe));
    case 'join': {
      const { call: _, recipes, ...options } = step;
      return joinRoutes(compileRecipe(recipes[0]), compileRecipe(recipes[1]), options);
    }
    default:
      return undefined;
  }
}
