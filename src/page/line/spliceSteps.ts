import type { RecipeStep } from 'datumline';
import type { Drawing, StepPath } from './Drawing';
import { spliced } from './spliced';
import { stepsIn } from './stepsIn';

/** The drawing with so many steps from a path on taken out, and others put in their place. */
export function spliceSteps(
  drawing: Drawing,
  path: StepPath,
  remove: number,
  ...insert: readonly RecipeStep[]
): Drawing {
  return { ...drawing, steps: within(drawing.steps, path, remove, insert) };
}

function within(
  steps: readonly RecipeStep[],
  [index, ...inner]: StepPath,
  remove: number,
  insert: readonly RecipeStep[],
): readonly RecipeStep[] {
  if (inner.length === 0) return spliced(steps, index, remove, ...insert);
  const outer = steps[index];
  const step = { ...outer, steps: within(stepsIn(outer), inner, remove, insert) } as RecipeStep;
  return spliced(steps, index, 1, step);
}
