import type { RecipeStep } from '../model';

export type StepOf<C extends RecipeStep['call']> = Extract<RecipeStep, { call: C }>;

/** The calls that make a route of others. */
export type DerivedCall = 'offset' | 'slice' | 'reverse' | 'join';

/** Whether a step makes a route of others, and so must be its recipe's only one. */
export function isDerived(step: RecipeStep | null | undefined): step is StepOf<DerivedCall> {
  return ['offset', 'slice', 'reverse', 'join'].includes(step?.call as string);
}
