import { hashesAlong } from './hashesAlong';

/** The last of {@link hashesAlong}: the hash of at least one column or text, one after the other. */
export function hashNumbers(parts: readonly (ArrayLike<number> | string)[]): string {
  return hashesAlong(parts)[parts.length - 1];
}
