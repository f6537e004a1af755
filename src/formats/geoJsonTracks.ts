import { InputError, type Steps } from '../model';
import type { ReadFile } from './gatherRecordings';
import { IssueLog } from './IssueLog';
import { instantOf } from './instantOf';
import { parseJson } from './parseJson';
import type { Reading } from './ReadOptions';
import { blankFix, RecordingBuilder } from './RecordingBuilder';
import { type ReadTrack, Tracks } from './Tracks';
import type { TimeReader } from './timeReader';

/** A parsed document takes up to 33 times its text. */
const MAX_BYTES = 2 ** 26;

/** Positions from one rest to the next: a millisecond or two. */
const STRIDE = 1000;

/** A lower count of seconds is of a year before satellites told positions; of milliseconds, of the first week. */
const SINCE_1970 = 5e8;

type Json = Record<string, unknown>;

/** The columns of `coordinateProperties` beside the coordinates. */
const qualities = ['hdop', 'satellites', 'accuracy'] as const;
const columns = ['times', ...qualities] as const;
type Column = (typeof columns)[number];

/** Keys of a feature's properties that are no attributes. */
const reserved = new Set(['name', 'coordTimes', 'times', 'coordinateProperties', 'attributes']);

const source = { format: 'geojson' } as const;
const isObject = (value: unknown): value is Json =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const isScalar = (value: unknown): value is string | number | boolean =>
  typeof value === 'string' || typeof value === 'boolean' || known(value);

/** The lines of a GeoJSON document; with none, its points in order as one. */
export function* geoJsonTracks(
  data: string | Uint8Array,
  { readTime, wanted, maxBytes = MAX_BYTES, maxRecordings }: Reading,
): Steps<ReadFile> {
  const root = parseJson(data, 'GeoJSON', maxBytes);
  if (!isObject(root)) throw refuse('data', 'GeoJSON: an object', root);
  if (root.crs !== undefined && root.crs !== null && !/CRS84|EPSG:+4326/.test(JSON.stringify(root.crs))) {
    throw new InputError({
      reason: 'unreadable',
      argument: 'data crs',
      rule: 'absent or CRS84, as RFC 7946 has it',
      value: JSON.stringify(root.crs),
    });
  }
  const tracks = new Tracks(maxRecordings);
  const points: { position: unknown; properties: Json; place: string }[] = [];
  const fileIssues = new IssueLog();
  function* visit(value: unknown, properties: Json, place: string): Steps<void> {
    if (value === null) return;
    if (!isObject(value)) throw refuse(place, 'a GeoJSON object', value);
    const { type } = value;
    if (type === 'FeatureCollection') {
      const features = list(value.features, `${place} features`);
      for (const [i, feature] of features.entries()) {
        yield* visit(feature, {}, `feature ${i + 1}`);
        if (place === 'data') yield { done: i + 1, of: features.length, what: 'read' };
      }
    } else if (type === 'Feature')
      yield* visit(value.geometry, isObject(value.properties) ? value.properties : {}, place);
    else if (type === 'GeometryCollection') {
      for (const [i, geometry] of list(value.geometries, `${place} geometries`).entries()) {
        yield* visit(geometry, properties, `${place} geometry ${i + 1}`);
      }
    } else if (type === 'LineString') {
      const line = [list(value.coordinates, `${place} coordinates`)];
      tracks.add(yield* readLine(line, 'one', properties, place, readTime));
    } else if (type === 'MultiLineString' || (type === 'Polygon' && wanted === 'lines')) {
      const parts = list(value.coordinates, `${place} coordinates`).map((part) => list(part, `${place} coordinates`));
      tracks.add(yield* readLine(parts, 'several', properties, place, readTime));
    } else if (type === 'Point' && wanted === 'recordings') {
      points.push({ position: value.coordinates, properties, place });
    } else if (['Point', 'MultiPoint', 'Polygon', 'MultiPolygon'].includes(type as string)) {
      fileIssues.note('not-a-line', () => place);
    } else throw refuse(`${place} type`, 'a type of GeoJSON', type);
  }
  yield* visit(root, {}, 'data');
  if (tracks.count > 0 && points.length > 0) fileIssues.note('not-recorded', () => points[0].place, points.length);
  if (tracks.count === 0 && points.length > 0) tracks.add(yield* readPoints(points, readTime));
  return { tracks, fileIssues };
}

function* readLine(
  parts: readonly (readonly unknown[])[],
  count: 'one' | 'several',
  properties: Json,
  place: string,
  readTime: TimeReader,
): Steps<ReadTrack> {
  let part = 0;
  let point = 0;
  const where = () => `${place},${count === 'several' ? ` line ${part + 1},` : ''} position ${point + 1}`;
  const builder = new RecordingBuilder(where);
  const beside = sideColumns(parts, properties, builder, where);
  const { counts: given, gaps } = isObject(properties.coordinateProperties) ? properties.coordinateProperties : {};
  if (gaps === 'stated') builder.gaps = 'stated';
  const counts: readonly unknown[] = Array.isArray(given) ? given : [];
  const timeless = (k: number, i: number) => {
    const value = beside.times?.[k]?.[i];
    return value === undefined || value === null || value === '';
  };
  /** Whether the line was cut at the ±180° meridian between two parts: no gap, and the two points there are no fixes. */
  const cut = (k: number) => {
    const [before, after] = [parts[k - 1]?.at(-1), parts[k]?.[0]];
    return (
      Array.isArray(before) &&
      Array.isArray(after) &&
      Math.abs(before[0]) === 180 &&
      after[0] === -before[0] &&
      after[1] === before[1] &&
      timeless(k - 1, parts[k - 1].length - 1) &&
      timeless(k, 0)
    );
  };
  const side = (column: Column) => beside[column]?.[part]?.[point];
  const timeOf = counting(beside.times?.map((times) => times.find(isNumber)).find(isNumber));
  for (part = 0; part < parts.length; part++) {
    const positions = parts[part];
    const from = part > 0 && cut(part) ? 1 : 0;
    let to = part + 1 < parts.length && cut(part + 1) ? positions.length - 1 : positions.length;
    if (from === 0) builder.breakLine();
    // RFC 7946 knows no line of one position: `writeGeoJson` lets one fix alone stand twice
    if (counts[part] === 1 && positions.length === 2 && samePlace(positions[0], positions[1])) to = 1;
    for (point = from; point < to; point++) {
      addPosition(builder, positions[point], timeOf(beside.times?.[part]?.[point]), readTime, where, side);
      if (point % STRIDE === STRIDE - 1) yield;
    }
  }
  return { builder, source, attributes: attributesOf(properties), name: nameOf(properties) };
}

function* readPoints(
  points: readonly { position: unknown; properties: Json }[],
  readTime: TimeReader,
): Steps<ReadTrack> {
  let point = 0;
  const where = () => `feature ${point + 1}`;
  const builder = new RecordingBuilder(where);
  const stated = ({ time, timestamp }: Json) => time ?? timestamp;
  const timeOf = counting(points.map(({ properties }) => stated(properties)).find(isNumber));
  for (point = 0; point < points.length; point++) {
    const { position, properties } = points[point];
    addPosition(builder, position, timeOf(stated(properties)), readTime, where, (column) => properties[column]);
    if (point % STRIDE === STRIDE - 1) yield;
  }
  return { builder, source, attributes: {} };
}

/** Counts since 1970 in milliseconds, whatever their unit; where the first is small, they are milliseconds from the start. */
const counting =
  (first: number | undefined) =>
  (time: unknown): unknown =>
    first !== undefined && Math.abs(first) >= SINCE_1970 && isNumber(time) ? instantOf(time, first) : time;

function addPosition(
  builder: RecordingBuilder,
  position: unknown,
  time: unknown,
  readTime: TimeReader,
  where: () => string,
  side: (column: Column) => unknown,
): void {
  const fix = blankFix();
  if (typeof time === 'string') fix.time = readTime(time, builder.issues, where);
  else if (typeof time === 'number' && Math.abs(time) <= 8.64e15) fix.time = time;
  else if (time !== undefined && time !== null) builder.issues.note('unreadable-time', where);
  if (position === null || (Array.isArray(position) && position.length === 0)) {
    builder.drop('missing-position');
    return;
  }
  if (!Array.isArray(position) || position.length < 2)
    throw refuse(where(), '[longitude, latitude, height?]', position);
  const [lon, lat, height] = position as unknown[];
  if (lon === null || lat === null) {
    builder.drop('missing-position');
    return;
  }
  if (typeof lon !== 'number') throw noNumber(`${where()} longitude`, lon);
  if (typeof lat !== 'number') throw noNumber(`${where()} latitude`, lat);
  fix.lon = lon;
  fix.lat = lat;
  fix.height = known(height) ? height : Number.NaN;
  if (height !== undefined && height !== null && !known(height)) builder.issues.note('unreadable-height', where);
  if (position.length > 3) builder.issues.note('extra-numbers', where);
  for (const column of qualities) {
    const value = side(column);
    if (known(value)) fix[column] = value;
    else if (value !== undefined && value !== null) builder.issues.note('unreadable-quality', where);
  }
  builder.add(fix);
}

const isNumber = (value: unknown): value is number => typeof value === 'number';
const known = (value: unknown): value is number => isNumber(value) && Number.isFinite(value);

/** What stands beside the coordinates, part by part; a column that does not fit them can't be told apart and is left out. */
function sideColumns(
  parts: readonly (readonly unknown[])[],
  properties: Json,
  builder: RecordingBuilder,
  where: () => string,
): Partial<Record<Column, readonly (readonly unknown[])[]>> {
  const beside: Json = isObject(properties.coordinateProperties) ? properties.coordinateProperties : {};
  const out: Partial<Record<Column, readonly (readonly unknown[])[]>> = {};
  for (const column of columns) {
    const given = beside[column] ?? (column === 'times' ? (properties.coordTimes ?? properties.times) : undefined);
    if (!Array.isArray(given)) continue;
    const nested = given.length > 0 && given.every(Array.isArray) ? given : undefined;
    let at = 0;
    const total = parts.reduce((sum, part) => sum + part.length, 0);
    const fitted = nested ?? (given.length === total ? parts.map((part) => given.slice(at, (at += part.length))) : []);
    if (fitted.length === parts.length && fitted.every((times, k) => times.length === parts[k].length)) {
      out[column] = fitted;
    } else builder.issues.note('unmatched-column', where);
  }
  return out;
}

const samePlace = (a: unknown, b: unknown) =>
  Array.isArray(a) && Array.isArray(b) && a.length === b.length && a.every((value, i) => value === b[i]);

const nameOf = ({ name }: Json) => (typeof name === 'string' && name !== '' ? name : undefined);

function attributesOf(properties: Json): Record<string, string | number | boolean> {
  const own = isObject(properties.attributes) ? properties.attributes : {};
  return Object.fromEntries(
    [...Object.entries(properties).filter(([key]) => !reserved.has(key)), ...Object.entries(own)].filter(
      (entry): entry is [string, string | number | boolean] => isScalar(entry[1]),
    ),
  );
}

function list(value: unknown, argument: string): unknown[] {
  if (!Array.isArray(value)) throw refuse(argument, 'an array', value);
  return value;
}

const noNumber = (argument: string, value: unknown) =>
  new InputError({ reason: 'wrong-type', argument, rule: 'a number', value });

const refuse = (argument: string, rule: string, value: unknown) =>
  new InputError({ reason: 'unreadable', argument, rule, value });
