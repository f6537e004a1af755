import { checkPosition } from './checkPosition';
import { InputError } from './InputError';

/**
 * Refuses anything but an array of positions, naming the first bad one.
 *
 * @throws {InputError} `wrong-type`, or as {@link checkPosition}
 */
export function checkPositions(value: unknown, argument: string): asserts value is readonly (readonly number[])[] {
  if (!Array.isArray(value))
    throw new InputError({ reason: 'wrong-type', argument, rule: 'an array of positions', value });
  for (let i = 0; i < value.length; i++) checkPosition(value[i], argument, i);
}
