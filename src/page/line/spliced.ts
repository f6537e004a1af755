/** A copy of a list with so many of its members from an index on taken out, and others put in their place. */
export function spliced<T>(list: readonly T[], index: number, remove: number, ...insert: readonly T[]): T[] {
  return [...list.slice(0, index), ...insert, ...list.slice(index + remove)];
}
