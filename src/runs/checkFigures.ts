import { checkShape, InputError } from '../model';
import type { AssessedFigures } from './AssessedFigures';
import { figuresShapes } from './figuresShapes';

/**
 * Refuses what has not all that is read of an assessment, by its interface, to the last member. Linear in its size.
 *
 * @throws {InputError} naming the place: `assessment.rows[3].bias`
 */
export function checkFigures(value: unknown, argument: string): asserts value is AssessedFigures {
  if (typeof value !== 'object' || value === null || (value as Partial<AssessedFigures>).schema !== 1) {
    throw new InputError({ reason: 'wrong-type', argument, rule: 'what assess or runFigures returned', value });
  }
  checkShape(value, '#', figuresShapes, argument);
}
