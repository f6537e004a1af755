import {
  checkMembers,
  checkNumber,
  checkOptions,
  checkString,
  InputError,
  type MemberKeys,
  type OptionKeys,
  type RecipeStep,
  type Route,
  type RouteOptions,
  type RouteRecipe,
} from '../model';
import type { Draft } from './Draft';
import { drawnWarnings } from './drawnWarnings';
import { drawSteps } from './drawSteps';
import { type DerivedCall, isDerived, type StepOf } from './isDerived';
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

const recipeKeys: MemberKeys<RouteRecipe> = { version: 'must', options: 'must', steps: 'must' };

const derivedKeys: { [C in DerivedCall]: MemberKeys<StepOf<C>> } = {
  offset: { call: 'must', recipe: 'must', side: 'must', metres: 'must', join: 'may' },
  slice: { call: 'must', recipe: 'must', from: 'must', to: 'must' },
  reverse: { call: 'must', recipe: 'must' },
  join: { call: 'must', recipes: 'must', gap: 'may' },
};

/**
 * The route that a recipe describes; the recipe becomes part of it and must not be changed afterwards.
 *
 * @param path of a recipe within another, for errors
 * @throws {InputError} naming the call by its number
 */
export function compileRecipe(recipe: RouteRecipe, path?: string): Route {
  checkMembers(recipe, recipeKeys, path ?? 'recipe');
  const within = path === undefined ? '' : `${path}.`;
  if (recipe.version !== 1) {
    const argument = `${path ?? 'recipe'}.version`;
    throw new InputError({ reason: 'unreadable', argument, rule: '1', value: recipe.version });
  }
  const at = `${within}options`;
  checkOptions(recipe.options, optionKeys, at);
  const { name, maxSpacing = 5, maxSagitta = 0.02, cornerRadius = 0, lateral95, halfWidth } = recipe.options;
  if (name !== undefined) checkString(name, `${at}.name`);
  checkNumber(maxSpacing, `${at}.maxSpacing`, { above: 0 });
  checkNumber(maxSagitta, `${at}.maxSagitta`, { above: 0 });
  checkNumber(cornerRadius, `${at}.cornerRadius`, { min: 0 });
  if (lateral95 !== undefined) checkNumber(lateral95, `${at}.lateral95`, { min: 0 });
  if (halfWidth !== undefined) checkNumber(halfWidth, `${at}.halfWidth`, { above: 0 });

  const only = Array.isArray(recipe.steps) && recipe.steps.length === 1 ? recipe.steps[0] : undefined;
  if (isDerived(only)) {
    const [key] = Object.keys(recipe.options);
    if (key === undefined) return derivedRoute(only, `${within}steps[0] ${only.call}`);
    const value = recipe.options[key as keyof RouteOptions];
    const rule = 'left out where the route is made of others';
    throw new InputError({ reason: 'misplaced', argument: `${at}.${key}`, rule, value });
  }

  const draft: Draft = {
    pieces: [],
    sections: [],
    sectionNames: new Set(),
    cornerRadii: new Map(),
    openSection: -1,
    marks: [],
    provenances: [],
    origin: -1,
    warnings: [],
    authored: [],
    laps: [],
    lapRuns: [],
  };
  drawSteps(draft, recipe.steps, `${within}steps`);
  if (draft.pieces.length === 0) {
    throw new InputError({
      reason: 'too-few',
      argument: `${within}steps`,
      rule: 'a line of at least 2 points',
      value: recipe.steps.length,
    });
  }
  const rounded = roundCorners(draft.pieces, cornerRadius, draft.cornerRadii);
  const laid = layVertices(rounded, draft, { maxSpacing, maxSagitta, lateral95 });
  const sections = placeSections(draft, laid, halfWidth);
  const marks = placeMarks(draft, laid);
  const laps = draft.lapRuns
    .map(({ fromNode, toNode, count }) => ({ from: laid.alongNode[fromNode], to: laid.alongNode[toNode], count }))
    .sort((a, b) => a.from - b.from || a.to - b.to);
  return withWarnings({ ...(name === undefined ? {} : { name }), ...laid.columns, sections, marks, laps, recipe }, () =>
    drawnWarnings(draft, rounded, laid.alongNode),
  );
}

function derivedRoute(step: StepOf<DerivedCall>, call: string): Route {
  checkMembers(step, derivedKeys[step.call] as MemberKeys<RecipeStep>, call, ' ');
  switch (step.call) {
    case 'offset': {
      const { call: _, recipe, ...options } = step;
      const route = compileRecipe(recipe, `${call} recipe`);
      return toldOf(call, () => offsetRoute(route, options));
    }
    case 'slice': {
      const route = compileRecipe(step.recipe, `${call} recipe`);
      return toldOf(call, () => sliceRoute(route, step.from, step.to));
    }
    case 'reverse':
      return reverseRoute(compileRecipe(step.recipe, `${call} recipe`));
    case 'join': {
      const { call: _, recipes, ...options } = step;
      if (!Array.isArray(recipes) || recipes.length !== 2) {
        throw new InputError({
          reason: 'wrong-type',
          argument: `${call} recipes`,
          rule: 'two recipes',
          value: recipes,
        });
      }
      const [first, second] = recipes;
      const routes = [compileRecipe(first, `${call} recipes[0]`), compileRecipe(second, `${call} recipes[1]`)] as const;
      return toldOf(call, () => joinRoutes(...routes, options));
    }
  }
}

/** What the function that makes the route refuses, told of the call that asked for it. */
function toldOf(call: string, make: () => Route): Route {
  try {
    return make();
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    const { reason, rule, value, hint } = error;
    throw new InputError({
      reason,
      argument: `${call} ${error.argument.replace(/^options\./, '')}`,
      rule,
      value,
      hint,
    });
  }
}
