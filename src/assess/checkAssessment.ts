import { checkShape, InputError } from '../model';
import type { Assessment } from './Assessment';
import { assessmentShapes } from './assessmentShapes';
import { checkGround } from './checkGround';

/**
 * Refuses anything but what {@link assess} returned, or what was read back from its JSON: by its interface, to the last member,
 * and by the names that its parts go by. Members that this version does not know are passed by. Linear in its size.
 *
 * @throws {InputError} naming the place: `assessment.rows[3].bias`
 */
export function checkAssessment(value: unknown, argument: string): asserts value is Assessment {
  if (typeof value !== 'object' || value === null || (value as Partial<Assessment>).schema !== 1) {
    throw new InputError({ reason: 'wrong-type', argument, rule: 'what assess returned', value });
  }
  checkShape(value, '#', assessmentShapes, argument);
  checkGround(value as Assessment, argument);
}
