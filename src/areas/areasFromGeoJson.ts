import type { Feature, FeatureCollection, GeoJSON, MultiPolygon, Polygon } from 'geojson';
import {
  checkArray,
  checkChoice,
  checkNumber,
  checkOptions,
  checkString,
  InputError,
  issueSentences,
  likelyWord,
  type OptionKeys,
  type ReadIssue,
} from '../model';
import type { Area, AreaKind } from './Area';
import { AREA_KINDS, checkPolygon } from './checkAreas';

/** Options of {@link areasFromGeoJson}. */
export interface AreasFromGeoJsonOptions {
  /** Of polygons that state neither kind. @defaultValue none: they are left out */
  readonly kind?: AreaKind;
  /** Of polygons that state no name. @defaultValue their kind */
  readonly name?: string;
}

const keys: OptionKeys<AreasFromGeoJsonOptions> = { kind: true, name: true };

/**
 * The areas drawn in a map editor, or cut from an open data set: the polygons of a GeoJSON document, those of one name together.
 *
 * Properties of a feature: `area` (its name), `kind` (`allowed` or `impossible`; any other word is left to the option) and
 * `doubt95` (metres its edges are known to; a number, or one written as text). Features that are no polygon, or of neither
 * kind, are counted in `issues`, which every area carries. Rings are checked as {@link assess} does.
 *
 * @example
 * const house = { type: 'Polygon', coordinates: [[[5, 60], [5.001, 60], [5.001, 60.001], [5, 60]]] };
 * areasFromGeoJson(house, { kind: 'impossible', name: 'mill' })[0] // → { name: 'mill', kind: 'impossible', doubt95: 0 }
 *
 * @throws {InputError} naming the path: `features[2].geometry.coordinates[0]`; `too-few` where no polygon is of either kind,
 * `ambiguous` where both kinds claim one name
 * @remarks n log n, and of the edges of a ring with the square of those that overlap in longitude.
 */
export function areasFromGeoJson(json: GeoJSON, options: AreasFromGeoJsonOptions = {}): Area[] {
  checkOptions(options, keys);
  if (options.kind !== undefined) checkChoice(options.kind, 'options.kind', AREA_KINDS);
  if (options.name !== undefined) checkString(options.name, 'options.name', { min: 1 });
  const found = new Map<string, { kind: AreaKind; doubt95: number; features: Feature<Polygon | MultiPolygon>[] }[]>();
  const left = new Map<'not-an-area' | 'no-kind', { count: number; place: string }>();
  const leave = (reason: 'not-an-area' | 'no-kind', place: string) => {
    const entry = left.get(reason);
    if (entry) entry.count++;
    else left.set(reason, { count: 1, place });
  };
  for (const { feature, path, coordinates } of featuresOf(json)) {
    const { geometry } = feature;
    if (geometry?.type !== 'Polygon' && geometry?.type !== 'MultiPolygon') {
      leave('not-an-area', path.slice(0, -1) || 'json');
      continue;
    }
    const properties = `${path}properties`;
    const kind = kindOf(feature.properties?.kind, properties) ?? options.kind;
    if (kind === undefined) {
      leave('no-kind', path.slice(0, -1) || 'json');
      continue;
    }
    const name = nameOf(feature.properties?.area, properties) ?? options.name ?? kind;
    const doubt95 = doubtOf(feature.properties?.doubt95, properties);
    if (geometry.type === 'Polygon') checkPolygon(geometry.coordinates, coordinates);
    else {
      checkArray(geometry.coordinates, coordinates);
      geometry.coordinates.forEach((rings, i) => {
        checkPolygon(rings, `${coordinates}[${i}]`);
      });
    }
    const mine = found.get(name) ?? [];
    if (mine.length > 0 && mine[0].kind !== kind) {
      throw new InputError({
        reason: 'ambiguous',
        argument: `${properties}.kind`,
        rule: `'${mine[0].kind}', as of the other areas called “${name}”`,
        value: kind,
      });
    }
    found.set(name, mine);
    const plain: Feature<Polygon | MultiPolygon> = { type: 'Feature', properties: {}, geometry };
    const same = mine.find((one) => one.doubt95 === doubt95);
    if (same) same.features.push(plain);
    else mine.push({ kind, doubt95, features: [plain] });
  }
  const issues = [...left].map(
    ([reason, { count, place }]): ReadIssue => ({ reason, count, place, message: issueSentences[reason] }),
  );
  if (found.size === 0) {
    throw new InputError({
      reason: 'too-few',
      argument: 'json',
      rule: "at least one polygon that is 'allowed' or 'impossible'",
      value: json,
      hint:
        issues.map(({ message, count, place }) => `${message}: ${count}, the first at ${place}`).join('. ') ||
        undefined,
    });
  }
  return [...found].flatMap(([name, mine]) =>
    mine.map(
      ({ kind, doubt95, features }): Area => ({
        name,
        kind,
        geometry: features.length === 1 ? features[0].geometry : { type: 'FeatureCollection', features },
        doubt95,
        issues,
      }),
    ),
  );
}

/** The features of a document one by one, each with what its path begins with, and the path of its coordinates. */
function* featuresOf(json: GeoJSON): Iterable<{ feature: Feature; path: string; coordinates: string }> {
  switch (json?.type) {
    case 'FeatureCollection': {
      const features: unknown = (json as FeatureCollection).features;
      checkArray(features, 'features');
      for (let i = 0; i < features.length; i++) {
        const path = `features[${i}].`;
        yield { feature: (features[i] ?? {}) as Feature, path, coordinates: `${path}geometry.coordinates` };
      }
      break;
    }
    case 'Feature':
      yield { feature: json, path: '', coordinates: 'geometry.coordinates' };
      break;
    case 'Polygon':
    case 'MultiPolygon':
      yield { feature: { type: 'Feature', properties: {}, geometry: json }, path: '', coordinates: 'coordinates' };
      break;
    default:
      throw new InputError({
        reason: 'wrong-type',
        argument: 'json',
        rule: 'a GeoJSON FeatureCollection, Feature, Polygon or MultiPolygon',
        value: json?.type ?? json,
      });
  }
}

/** Undefined for another word, but for one that is likely misspelt. */
function kindOf(value: unknown, properties: string): AreaKind | undefined {
  const word = typeof value === 'string' ? value.trim().toLowerCase() : undefined;
  if (word === 'allowed' || word === 'impossible') return word;
  const meant = word === undefined ? undefined : likelyWord(word, AREA_KINDS);
  if (meant === undefined) return undefined;
  throw new InputError({
    reason: 'wrong-type',
    argument: `${properties}.kind`,
    rule: "'allowed' or 'impossible'",
    value,
    hint: `Did you mean ${meant}?`,
  });
}

function nameOf(value: unknown, properties: string): string | undefined {
  if (value === undefined || value === null || value === '') return undefined;
  const argument = `${properties}.area`;
  if (typeof value === 'number') return String(checkNumber(value, argument));
  checkString(value, argument);
  return value;
}

function doubtOf(value: unknown, properties: string): number {
  if (value === undefined || value === null || value === '') return 0;
  const argument = `${properties}.doubt95`;
  const number = typeof value === 'string' && value.trim() !== '' ? Number(value) : value;
  if (Number.isNaN(number)) throw new InputError({ reason: 'wrong-type', argument, rule: 'a number', value });
  return checkNumber(number, argument, { min: 0 });
}
