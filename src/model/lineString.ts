import type { GivenPosition } from './Line';

/**
 * The positions of an array or of anything else that can be gone through, of a GeoJSON LineString or a Feature of one, not checked;
 * `undefined` where the value is none.
 */
export function lineString(value: unknown): readonly GivenPosition[] | undefined {
  if (Array.isArray(value)) return value;
  if (typeof value === 'object' && value !== null && Symbol.iterator in value) {
    return Array.from(value as Iterable<GivenPosition>);
  }
  const { geometry = value } = (value ?? {}) as { geometry?: unknown };
  const { type, coordinates } = (geometry ?? {}) as { type?: unknown; coordinates?: unknown };
  return type === 'LineString' && Array.isArray(coordinates) ? coordinates : undefined;
}
