import { type Schema, Validator } from '@cfworker/json-schema';
import { InputError } from './InputError';

/**
 * Refuses a document that its JSON Schema refuses, naming the path of the first fault, deepest first.
 *
 * @throws {InputError} `unreadable`, or `unknown-key` for a key the schema doesn't have
 */
export function checkDocument(document: unknown, schema: object, argument: string): void {
  // A value that JSON cannot hold (undefined, NaN) would pass the validator or make it throw.
  const { valid, errors } = new Validator(schema as Schema, '2020-12', true).validate(document);
  if (valid) return;
  const fault = errors.reduce((deepest, error) =>
    error.instanceLocation.split('/').length >= deepest.instanceLocation.split('/').length ? error : deepest,
  );
  const path = fault.instanceLocation.split('/').slice(1).map(decodeURIComponent);
  const value = path.reduce<unknown>((at, key) => (at as Record<string, unknown> | undefined)?.[key], document);
  const where = path.map((key) => (/^\d+$/.test(key) ? `[${key}]` : `.${key}`)).join('');
  // A key that the schema doesn't have is judged by the schema `false`.
  const unknown = fault.keyword === 'false';
  throw new InputError({
    reason: unknown ? 'unknown-key' : 'unreadable',
    argument: `${argument}${where}`,
    rule: unknown ? 'left out' : 'as its schema says',
    value,
    hint: unknown ? 'Its schema has no such key' : fault.error,
  });
}
