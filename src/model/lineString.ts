import type { Position } from 'geojson';

/** The positions of an array, a GeoJSON LineString or a Feature of one, not checked; `undefined` where the value is none. */
export function lineString(value: unknown): readonly Position[] | undefined {
  if (Array.isArray(value)) return value;
  const { geometry = value } = (value ?? {}) as { geometry?: unknown };
  const { type, coordinates } = (geometry ?? {}) as { type?: unknown; coordinates?: unknown };
  return type === 'LineString' && Array.isArray(coordinates) ? coordinates : undefined;
}
