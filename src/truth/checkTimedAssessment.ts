import { checkShape, InputError } from '../model';
import type { TimedAssessment } from './TimedAssessment';
import { timedAssessmentShapes } from './timedAssessmentShapes';

/**
 * Refuses anything but what {@link judgeByTime} returned, or what was read back from its JSON, to the last member. Linear in its size.
 *
 * @throws {InputError} naming the place: `timed[0].rows[3].delay`
 */
export function checkTimedAssessment(value: unknown, argument: string): asserts value is TimedAssessment {
  if (typeof value !== 'object' || value === null || (value as Partial<TimedAssessment>).schema !== 1) {
    throw new InputError({ reason: 'wrong-type', argument, rule: 'what judgeByTime returned', value });
  }
  checkShape(value, '#', timedAssessmentShapes, argument);
}
