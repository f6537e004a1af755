import type { GeoJSON, Geometry, Position } from 'geojson';

/** A line of the surroundings that could be followed. */
export interface SurroundingLine {
  readonly name: string;
  readonly line: Position[];
}

/** Every line, and every edge of an area, of the surroundings, with the name of its feature or a number. */
export function surroundingLines(json: GeoJSON | null): SurroundingLine[] {
  const lines: SurroundingLine[] = [];
  const add = (name: unknown, line: Position[]) => {
    if (line.length > 1)
      lines.push({ name: typeof name === 'string' && name ? name : `line ${lines.length + 1}`, line });
  };
  const take = (geometry: Geometry | null, name: unknown) => {
    switch (geometry?.type) {
      case 'LineString':
        add(name, geometry.coordinates);
        break;
      case 'MultiLineString':
      case 'Polygon':
        for (const line of geometry.coordinates) add(name, line);
        break;
      case 'MultiPolygon':
        for (const line of geometry.coordinates.flat()) add(name, line);
        break;
      case 'GeometryCollection':
        for (const one of geometry.geometries) take(one, name);
    }
  };
  const walk = (one: GeoJSON) => {
    if (one.type === 'FeatureCollection') one.features.forEach(walk);
    else if (one.type === 'Feature') take(one.geometry, one.properties?.name);
    else take(one, undefined);
  };
  if (json !== null) walk(json);
  return lines;
}
