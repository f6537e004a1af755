import { InputError } from './InputError';
import { likelyWord } from './likelyWord';

/** Every key an options interface has; typed so that a forgotten key doesn't compile. */
export type OptionKeys<T> = Record<keyof Required<T>, true>;

/**
 * Refuses anything but an object whose keys are all known; `undefined` passes.
 *
 * @throws {InputError} `wrong-type` or `unknown-key`
 */
export function checkOptions<T>(options: T | undefined, keys: OptionKeys<T>, argument = 'options'): void {
  if (options === undefined) return;
  if (typeof options !== 'object' || options === null || Array.isArray(options)) {
    throw new InputError({ reason: 'wrong-type', argument, rule: 'an object', value: options });
  }
  for (const key of Object.keys(options)) {
    if (!Object.hasOwn(keys, key)) {
      throw new InputError({
        reason: 'unknown-key',
        argument: `${argument}.${key}`,
        rule: `one of ${Object.keys(keys).join(', ')}`,
        value: key,
        hint: meant(key, Object.keys(keys)),
      });
    }
  }
}

/** The hint for a key that was likely meant otherwise. */
export function meant(key: string, keys: readonly string[]): string | undefined {
  const word = likelyWord(key, keys);
  return word === undefined ? undefined : `Did you mean ${word}?`;
}
