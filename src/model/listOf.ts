import { InputError } from './InputError';

/**
 * The members of an array, or of anything else that can be gone through, in order; one that an array lacks is `undefined`.
 *
 * @throws {InputError} `wrong-type`
 */
export function listOf<T>(value: Iterable<T>, argument: string): readonly T[] {
  if (typeof value === 'object' && value !== null && Symbol.iterator in value) return Array.from(value);
  throw new InputError({ reason: 'wrong-type', argument, rule: 'an array', value });
}
