import { InputError } from './InputError';

/**
 * Refuses anything but one of the words; returns it.
 *
 * @throws {InputError} `wrong-type`
 */
export function checkChoice<T extends string>(value: unknown, argument: string, words: readonly T[]): T {
  if (words.includes(value as T)) return value as T;
  const quoted = words.map((word) => `'${word}'`);
  const rule = [quoted.slice(0, -1).join(', '), quoted[quoted.length - 1]].filter(Boolean).join(' or ');
  throw new InputError({ reason: 'wrong-type', argument, rule, value });
}
