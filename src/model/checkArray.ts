import { InputError } from './InputError';

/**
 * Refuses anything but an array.
 *
 * @throws {InputError} `wrong-type`
 */
export function checkArray(value: unknown, argument: string): asserts value is readonly unknown[] {
  if (!Array.isArray(value)) throw new InputError({ reason: 'wrong-type', argument, rule: 'an array', value });
}
