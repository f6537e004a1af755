import { InputError } from '../model';

/** How deep arrays and objects may nest: a quarter of what a usual stack holds. Joined routes take 4 levels each. */
const MAX_DEPTH = 1000;

/**
 * A deep copy of a JSON value, undefined members left out and −0 made 0 as JSON would. What JSON can't hold stays, to be
 * refused by name.
 *
 * @throws {InputError} `too-large` for a value nested too deep, or one that holds itself
 */
export function plainCopy<T>(value: T, depth = 0): T {
  if (typeof value === 'number') return (value + 0) as T;
  if (typeof value !== 'object' || value === null) return value;
  if (depth > MAX_DEPTH) {
    const rule = `nested up to ${MAX_DEPTH} levels deep`;
    throw new InputError({ reason: 'too-large', argument: 'recipe', rule, value: depth });
  }
  // Loops, since a callback would take as much of the stack again at every level.
  if (Array.isArray(value)) {
    const copy: unknown[] = [];
    for (let i = 0; i < value.length; i++) copy.push(plainCopy(value[i], depth + 1));
    return copy as T;
  }
  const copy: Record<string, unknown> = {};
  for (const key of Object.keys(value)) {
    const member = (value as Record<string, unknown>)[key];
    if (member === undefined) continue;
    const kept = plainCopy(member, depth + 1);
    if (key !== '__proto__') copy[key] = kept;
    // by assignment it would become the prototype
    else Object.defineProperty(copy, key, { value: kept, configurable: true, enumerable: true, writable: true });
  }
  return copy as T;
}
