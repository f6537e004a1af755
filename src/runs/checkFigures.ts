import { checkShape, InputError } from '../model';
import type { AssessedFigures } from './AssessedFigures';
import { runFiguresShapes } from './runFiguresShapes';

/**
 * Refuses what has not, to the last member, what is read of an assessment. Linear in its size.
 *
 * @throws {InputError} naming the place: `assessments[1].rows[3].bias`
 */
export function checkFigures(value: unknown, argument: string): asserts value is AssessedFigures {
  if (typeof value !== 'object' || value === null || (value as Partial<AssessedFigures>).schema !== 1) {
    throw new InputError({ reason: 'wrong-type', argument, rule: 'what assess or runFigures returned', value });
  }
  checkShape(value, '#', runFiguresShapes, argument);
}
