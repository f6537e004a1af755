import type { GeoJSON, Position } from 'geojson';
import { checkArray, checkPosition, InputError } from '../model';

/** A line or polygon to be drawn under a plan. */
export interface SurroundingShape {
  readonly kind: 'line' | 'polygon';
  readonly lines: readonly (readonly Position[])[];
  readonly properties: Readonly<Record<string, unknown>>;
}

/**
 * The lines and polygons of a GeoJSON document; points and features without a place are passed over, as there is nothing to draw of them.
 *
 * @throws {InputError} what is no GeoJSON, or a position that isn't one, naming its path
 */
export function checkSurroundings(value: unknown, argument: string): asserts value is GeoJSON {
  surroundingShapes(value, argument);
}

/** As {@link checkSurroundings}, handing over what there is. */
export function surroundingShapes(value: unknown, argument: string): SurroundingShape[] {
  const shapes: SurroundingShape[] = [];
  gather(value, argument, {}, shapes);
  return shapes;
}

function gather(
  value: unknown,
  path: string,
  properties: SurroundingShape['properties'],
  shapes: SurroundingShape[],
): void {
  const { type, ...members } = (value ?? {}) as Record<string, unknown>;
  const each = (list: unknown, name: string, take: (item: unknown, at: string) => void) => {
    checkArray(list, `${path}.${name}`);
    list.forEach((item, i) => {
      take(item, `${path}.${name}[${i}]`);
    });
  };
  const add = (kind: SurroundingShape['kind'], lines: readonly unknown[], at: string) => {
    lines.forEach((line, i) => {
      const own = kind === 'polygon' ? `${at}[${i}]` : at;
      checkArray(line, own);
      line.forEach((position, k) => {
        checkPosition(position, own, k);
      });
    });
    shapes.push({ kind, lines: lines as Position[][], properties });
  };
  switch (type) {
    case 'FeatureCollection':
      each(members.features, 'features', (feature, at) => gather(feature, at, {}, shapes));
      return;
    case 'Feature': {
      const own = members.properties;
      if (members.geometry === null || members.geometry === undefined) return;
      const stated = typeof own === 'object' && own !== null ? (own as SurroundingShape['properties']) : {};
      gather(members.geometry, `${path}.geometry`, stated, shapes);
      return;
    }
    case 'GeometryCollection':
      each(members.geometries, 'geometries', (geometry, at) => gather(geometry, at, properties, shapes));
      return;
    case 'LineString':
      add('line', [members.coordinates], `${path}.coordinates`);
      return;
    case 'MultiLineString':
      each(members.coordinates, 'coordinates', (line, at) => add('line', [line], at));
      return;
    case 'Polygon':
      checkArray(members.coordinates, `${path}.coordinates`);
      add('polygon', members.coordinates, `${path}.coordinates`);
      return;
    case 'MultiPolygon':
      each(members.coordinates, 'coordinates', (rings, at) => {
        checkArray(rings, at);
        add('polygon', rings, at);
      });
      return;
    case 'Point':
    case 'MultiPoint':
      return;
    default:
      throw new InputError({ reason: 'wrong-type', argument: path, rule: 'a GeoJSON document', value: type ?? value });
  }
}
