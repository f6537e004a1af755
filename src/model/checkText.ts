import { InputError } from './InputError';

/**
 * Refuses anything but a text; with `{ min: 1 }` the empty one too.
 *
 * @throws {InputError} `wrong-type`
 */
export function checkText(value: unknown, argument: string, { min = 0 } = {}): asserts value is string {
  if (typeof value === 'string' && value.length >= min) return;
  throw new InputError({ reason: 'wrong-type', argument, rule: min > 0 ? 'a text, not empty' : 'a text', value });
}
