/** A deep copy of a JSON value, undefined members left out and −0 made 0 as JSON would. What JSON can't hold stays, to be refused by name. */
export function plainCopy<T>(value: T): T {
  if (typeof value === 'number') return (value + 0) as T;
  if (Array.isArray(value)) return value.map(plainCopy) as T;
  if (typeof value !== 'object' || value === null) return value;
  const copy: Record<string, unknown> = {};
  for (const [key, member] of Object.entries(value)) if (member !== undefined) copy[key] = plainCopy(member);
  return copy as T;
}
