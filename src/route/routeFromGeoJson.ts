import type { Feature, FeatureCollection, LineString, MultiLineString, MultiPolygon, Polygon, Position } from 'geojson';
import {
  checkChoice,
  checkPosition,
  InputError,
  type Provenance,
  type RecipeStep,
  type Route,
  type RouteOptions,
  type RouteWarning,
  SIDES,
  type Side,
} from '../model';
import { compileRecipe } from './compileRecipe';
import { drawingWarnings } from './drawingWarnings';
import { type LegProperties, propertiesOf, timeOf } from './legProperties';
import { plainCopy } from './plainCopy';
import { isEdge, unchangedRoute } from './unchangedRoute';
import { uniqueNames } from './uniqueNames';
import { withDrawingWarnings } from './withWarnings';

const provenanceKeys = ['lateral95', 'source', 'date', 'licence', 'frame', 'epoch', 'drafted'] as const;

/** What a route is read from: all that was drawn, or one Feature or line alone. */
export type DrawnRoute = FeatureCollection | Feature | LineString | MultiLineString;

/**
 * The route drawn in a map editor: the LineStrings of a FeatureCollection are its legs, in order; Points are marks, at the
 * nearest place of the route; Polygons are sections, wherever the route runs inside. A Feature or a LineString alone is
 * taken for a collection of one.
 *
 * Properties of a LineString, all optional: `section` (name of the section that it is, with `halfWidth` and `environment`;
 * neighbours of one name are one section), `offset` in metres and `side` (where the line run lies beside the one drawn),
 * `laps` (how often it is run), and for its quality `lateral95`, `source`, `date`, `licence`, `frame`, `epoch`. A Polygon
 * has `section` or `name`, `halfWidth`, `environment`; a Point `name` and `time` (ISO 8601, or milliseconds since the Unix
 * epoch). Numbers may be written as text, as map editors do. Other properties are left alone; one that is likely misspelt, or
 * says nothing without another, and an area without a name are told in `warnings`. A name used again is numbered.
 * `examples/first-line/first-line.geojson` is a sample with one of each.
 *
 * What {@link routeToGeoJson} wrote is the same route again.
 *
 * @param options - Of the route; those given here win over a member `properties` of the collection with the same keys, for
 * authors who don't write code.
 *
 * @example
 * const quay = { type: 'Feature', properties: { section: 'quay', halfWidth: '5', offset: 2, side: 'right' }, geometry: { type: 'LineString', coordinates: [[5, 60], [5.01, 60]] } };
 * routeFromGeoJson({ type: 'FeatureCollection', features: [quay] }).sections // → [{ name: 'quay', from: 0, to: 558.00…, halfWidth: 5 }]
 * routeFromGeoJson(quay.geometry).length // → 558.00…
 *
 * @throws {InputError} naming the feature by its number, counted from 0: `features[2] properties.offset`
 */
export function routeFromGeoJson(drawn: DrawnRoute, options: RouteOptions = {}): Route {
  const collection = collectionOf(drawn);
  const unchanged = unchangedRoute(collection, options);
  if (unchanged) return unchanged;
  const legs: RecipeStep[] = [];
  const areas: RecipeStep[] = [];
  const marks: RecipeStep[] = [];
  const told: Pick<RouteWarning, 'reason' | 'message'>[] = [];
  const name = uniqueNames();
  let open: string | undefined;
  let stated = '{}';
  collection.features.forEach((feature, i) => {
    if (isEdge(feature?.properties)) return;
    const argument = `features[${i}]`;
    const geometry = feature?.geometry;
    const properties = propertiesOf(feature, argument);
    if (geometry) told.push(...drawingWarnings(feature, properties, i + 1));
    switch (geometry?.type) {
      case 'LineString':
      case 'MultiLineString': {
        const lines = geometry.type === 'LineString' ? [geometry.coordinates] : geometry.coordinates;
        const provenance: Provenance = pick(properties, provenanceKeys);
        if (JSON.stringify(provenance) !== stated) legs.push({ call: 'provenance', ...provenance });
        stated = JSON.stringify(provenance);
        const { section, halfWidth, environment, laps } = properties;
        if (section === undefined && open !== undefined) legs.push({ call: 'endSection' });
        const follow = lines.map((line, k) =>
          followStep(line, properties, lines.length > 1 ? `${argument} line ${k}` : argument),
        );
        const opening: RecipeStep[] =
          section !== undefined && (section !== open || laps !== undefined)
            ? [{ call: 'section', name: name(section), ...defined({ halfWidth, environment }) }]
            : [];
        open = section;
        if (laps === undefined) legs.push(...opening, ...follow);
        else {
          legs.push({ call: 'laps', count: laps, steps: [...opening, ...follow] });
          open = undefined;
        }
        break;
      }
      case 'Polygon':
      case 'MultiPolygon':
        areas.push(...areaSteps(geometry, properties, name));
        break;
      case 'Point':
        checkPosition(geometry.coordinates, `${argument} geometry.coordinates`);
        marks.push({
          call: 'mark',
          name: properties.name ?? `mark ${marks.length + 1}`,
          near: geometry.coordinates,
          ...timeOf(feature, argument),
        });
        break;
      default:
        throw new InputError({
          reason: 'wrong-type',
          argument: `${argument} geometry`,
          rule: 'a LineString, Point or Polygon, or a MultiLineString or MultiPolygon',
          value: geometry?.type ?? geometry,
        });
    }
  });
  if (legs.length === 0) {
    throw new InputError({
      reason: 'too-few',
      argument: 'features',
      rule: 'at least one LineString',
      value: collection.features.length,
    });
  }
  const outer = (collection as { properties?: RouteOptions; name?: unknown }).properties ?? {};
  const title = (collection as { name?: unknown }).name;
  const route = compileRecipe({
    version: 1,
    options: plainCopy({ ...(typeof title === 'string' ? { name: title } : {}), ...outer, ...options }),
    steps: plainCopy([...legs, ...areas, ...marks]),
  });
  return withDrawingWarnings(
    route,
    told.map((one) => ({ ...one, from: 0, to: route.length })),
  );
}

function collectionOf(drawn: DrawnRoute): FeatureCollection {
  if (drawn?.type === 'Feature') return { type: 'FeatureCollection', features: [drawn] };
  if (drawn?.type === 'LineString' || drawn?.type === 'MultiLineString') {
    return { type: 'FeatureCollection', features: [{ type: 'Feature', properties: {}, geometry: drawn }] };
  }
  const collection: FeatureCollection = drawn;
  if (collection?.type !== 'FeatureCollection' || !Array.isArray(collection.features)) {
    throw new InputError({
      reason: 'wrong-type',
      argument: 'featureCollection',
      rule: 'a GeoJSON FeatureCollection, Feature or LineString',
      value: collection?.type ?? collection,
    });
  }
  const frame = (collection as { crs?: { properties?: { name?: unknown } } }).crs?.properties?.name;
  // RFC 7946 section 4 removed "crs"; what older tools still write there for WGS 84 is harmless.
  if (frame !== undefined && !/CRS84|EPSG:+4326$/.test(String(frame))) {
    throw new InputError({
      reason: 'unreadable',
      argument: 'featureCollection crs',
      rule: 'WGS 84, as RFC 7946 has it',
      value: frame,
    });
  }
  return collection;
}

function followStep(line: readonly Position[], { offset = 0, side }: LegProperties, argument: string): RecipeStep {
  if (!Array.isArray(line) || line.length < 2) {
    const rule = 'a line of at least 2 positions';
    throw new InputError({ reason: 'too-few', argument: `${argument} geometry.coordinates`, rule, value: line });
  }
  line.forEach((position, k) => {
    checkPosition(position, `${argument} geometry.coordinates[${k}]`);
  });
  const word = side?.trim().toLowerCase();
  if (word !== undefined) checkChoice(word, `${argument} properties.side`, SIDES);
  else if (offset > 0) {
    const rule = "'left' or 'right' where there is an offset";
    throw new InputError({ reason: 'missing', argument: `${argument} properties.side`, rule, value: side });
  }
  return { call: 'follow', line, ...(offset > 0 ? { side: word as Side, metres: offset } : {}) };
}

/** The section that an area is; none where it has no name. */
function areaSteps(
  inside: Polygon | MultiPolygon,
  { section, name, halfWidth, environment }: LegProperties,
  unique: (name: string) => string,
): RecipeStep[] {
  const title = section ?? name;
  if (title === undefined) return [];
  return [{ call: 'section', name: unique(title), inside, ...defined({ halfWidth, environment }) }];
}

function pick<T extends object, K extends keyof T>(from: T, keys: readonly K[]): Pick<T, K> {
  return defined(Object.fromEntries(keys.map((key) => [key, from[key]]))) as Pick<T, K>;
}

function defined<T extends object>(value: T): T {
  return Object.fromEntries(Object.entries(value).filter(([, member]) => member !== undefined)) as T;
}
