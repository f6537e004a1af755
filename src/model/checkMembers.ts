import { meant } from './checkOptions';
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
  for (const key in value) {
    if (!Object.hasOwn(value, key) || Object.hasOwn(keys, key)) continue;
    const rule = `one of ${Object.keys(keys).join(', ')}`;
    throw new InputError({
      reason: 'unknown-key',
      argument: `${argument}${separator}${key}`,
      rule,
      value: key,
      hint: meant(key, Object.keys(keys)),
    });
  }
  for (const key in keys) {
    if (keys[key] !== 'must' || (value as Record<string, unknown>)[key] !== undefined) continue;
    throw new InputError({
      reason: 'missing',
      argument: `${argument}${separator}${key}`,
      rule: 'given',
      value: undefined,
    });
  }
}
