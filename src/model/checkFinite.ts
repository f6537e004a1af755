import { InputError } from './InputError';

/**
 * Refuses anything but a finite number; returns it.
 *
 * @throws {InputError} `wrong-type` or `not-finite`
 */
export function checkFinite(value: unknown, argument: string): number {
  const number = typeof value === 'number';
  if (number && Number.isFinite(value)) return value;
  throw new InputError({
    reason: number ? 'not-finite' : 'wrong-type',
    argument,
    rule: number ? 'a finite number' : 'a number',
    value,
  });
}
