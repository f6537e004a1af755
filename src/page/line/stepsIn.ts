import type { RecipeStep } from 'datumline';
import type { Drawing, StepPath } from './Drawing';

/** The steps of laps, or of a way out and back; none of another step. */
export function stepsIn(step: Drawing | RecipeStep): readonly RecipeStep[] {
  return 'steps' in step ? step.steps : [];
}

/** The step at a path; undefined where there is none. */
export function stepAt(drawing: Drawing, path: StepPath): RecipeStep | undefined {
  let within: Drawing | RecipeStep | undefined = path.length === 0 ? undefined : drawing;
  for (const index of path) within = within && stepsIn(within)[index];
  return within as RecipeStep | undefined;
}

/** The steps among which the one at a path stands. */
export function siblingsOf(drawing: Drawing, path: StepPath): readonly RecipeStep[] {
  const outer = path.slice(0, -1);
  return outer.length === 0 ? drawing.steps : stepsIn(stepAt(drawing, outer)!);
}

/** The path of a step so many places further among the same. */
export function stepPast(path: StepPath, by = 1): StepPath {
  return [...path.slice(0, -1), path[path.length - 1] + by];
}

/** Calls that name or describe, and draw nothing. */
export const NAMES: readonly RecipeStep['call'][] = ['section', 'endSection', 'mark', 'provenance'];
