import { InputError } from './InputError';

/**
 * Refuses anything but a string; with `{ min: 1 }` the empty one too.
 *
 * @throws {InputError} `wrong-type`
 */
export function checkString(value: unknown, argument: string, { min = 0 } = {}): asserts value is string {
  if (typeof value === 'string' && value.length >= min) return;
  throw new InputError({
    reason: 'wrong-type',
    argument,
    rule: min > 0 ? 'a string that is not empty' : 'a string',
    value,
  });
}
