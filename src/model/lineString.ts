import type { Position } from 'geojson';

/** The positions of an array, a GeoJSON LineString or a Feature of one, not checked; `undefined` where the value is none. */
export function lineString(value: unknown): readonly Position[] | undefined {
  if (Array.isArray(value)) return value;
  if (typeof value !== 'object' || value === null) return undefined;
  const geometry: unknown = 'geometry' in value ? value.geometry : value;
  if (typeof geometry !== 'object' || geometry === null) return undefined;
  if (!('type' in geometry && geometry.type === 'LineString' && 'coordinates' in geometry)) return undefined;
  return Array.isArray(geometry.coordinates) ? geometry.coordinates : undefined;
}
