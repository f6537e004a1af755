import { InputError } from './InputError';

/** Which members of an interface must be there; typed so that it cannot say otherwise than the interface. */
export type MemberKeys<T> = { readonly [K in keyof Required<T>]: undefined extends T[K] ? 'may' : 'must' };

/**
 * Refuses anything but an object that has every required member and no unknown one.
 *
 * @param separator between the object and its member, for errors
 * @throws {InputError} `wrong-type`, `unknown-key` or `missing`
 */
export function checkMembers<T>(
  value: unknown,
  keys: MemberKeys<T>,
  argument: string,
  separator = '.',
): asserts value is Record<keyof T, unknown> {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    throw new InputError({ reason: 'wrong-type', argument, rule: 'an object', value });
  }
  const refuse = (reason: 'unknown-key' | 'missing', key: string, rule: string, found: unknown) =>
    new InputError({ reason, argument: `${argument}${separator}${key}`, rule, value: found });
  for (const key of Object.keys(value)) {
    if (!Object.hasOwn(keys, key)) throw refuse('unknown-key', key, `one of ${Object.keys(keys).join(', ')}`, key);
  }
  for (const [key, presence] of Object.entries(keys)) {
    if (presence === 'must' && (value as Record<string, unknown>)[key] === undefined) {
      throw refuse('missing', key, 'given', undefined);
    }
  }
}
