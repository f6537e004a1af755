import { InputError } from '../errors';
import { checkPosition } from './checkPosition';

/**
 * Refuses anything but an array of positions, naming the first bad one. Names are made for bad ones only: a line of a
 * million positions is checked in a few milliseconds.
 *
 * @throws {InputError} `wrong-type`, or as {@link checkPosition}
 */
export function checkPositions(value: unknown, argument: string): asserts value is readonly (readonly number[])[] {
  if (!Array.isArray(value))
    throw new InputError({ reason: 'wrong-type', argument, rule: 'an array of positions', value });
  for (let i = 0; i < value.length; i++) {
    const position = value[i];
    const good =
      Array.isArray(position) &&
      typeof position[0] === 'number' &&
      typeof position[1] === 'number' &&
      Math.abs(position[0]) <= 540 &&
      Math.abs(position[1]) <= 90;
    if (!good) checkPosition(position, `${argument}[${i}]`);
  }
}
