import type { RecipeStep } from 'datumline';
import type { Drawing, StepOf, StepPath } from './Drawing';
import { spliceSteps } from './spliceSteps';
import { siblingsOf, stepAt } from './stepsIn';

/** So many steps from a path on made the inside of laps, or of a way out and back. */
export function wrapLegs(
  drawing: Drawing,
  path: StepPath,
  count: number,
  around: Omit<StepOf<'laps'>, 'steps'> | Omit<StepOf<'outAndBack'>, 'steps'>,
): Drawing {
  const index = path[path.length - 1];
  const steps = siblingsOf(drawing, path).slice(index, index + count);
  if (steps.length === 0) return drawing;
  return spliceSteps(drawing, path, steps.length, { ...around, steps } as RecipeStep);
}

/** Laps, or a way out and back, undone: what was in them once, and on one way. */
export function unwrapLegs(drawing: Drawing, path: StepPath): Drawing {
  const step = stepAt(drawing, path);
  return step?.call === 'laps' || step?.call === 'outAndBack' ? spliceSteps(drawing, path, 1, ...step.steps) : drawing;
}
