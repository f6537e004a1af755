import type { RecipeStep, RouteRecipe } from 'datumline';

/**
 * What is drawn: a recipe, which may still lack the points that make a line of it. Never written to; an edit gives another
 * one, which shares with it what did not change.
 */
export type Drawing = RouteRecipe;

/** Where a step stands: its number, and within laps or a way out and back its number there, from the outside in. */
export type StepPath = readonly number[];

/** The step of one call. */
export type StepOf<C extends RecipeStep['call']> = Extract<RecipeStep, { readonly call: C }>;

/** Nothing is drawn. */
export const NOTHING: Drawing = { version: 1, options: {}, steps: [] };
