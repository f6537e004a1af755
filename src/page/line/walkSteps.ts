import type { RecipeStep } from 'datumline';
import type { Drawing, StepPath } from './Drawing';
import { stepsIn } from './stepsIn';

/** Every step with its path, in order: laps and ways out and back before what is in them. */
export function* walkSteps(drawing: Drawing): Generator<{ readonly path: StepPath; readonly step: RecipeStep }> {
  yield* walk(drawing.steps, []);
}

function* walk(
  steps: readonly RecipeStep[],
  outer: StepPath,
): Generator<{ readonly path: StepPath; readonly step: RecipeStep }> {
  for (const [i, step] of steps.entries()) {
    const path = [...outer, i];
    yield { path, step };
    yield* walk(stepsIn(step), path);
  }
}
