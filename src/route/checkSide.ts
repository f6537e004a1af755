import { InputError, type Side } from '../model';

/**
 * Refuses anything but `'left'` or `'right'`.
 *
 * @throws {InputError} `wrong-type`
 */
export function checkSide(value: unknown, argument: string): asserts value is Side {
  if (value !== 'left' && value !== 'right') {
    throw new InputError({ reason: 'wrong-type', argument, rule: "'left' or 'right'", value });
  }
}
