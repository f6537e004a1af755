import { readGeoJson } from 'datumline';
import { expect, test } from 'vitest';

const feature = (geometry: object, properties: object = {}) =>
  JSON.stringify({ type: 'Feature', properties, geometry });
const line = (coordinates: unknown) => ({ type: 'LineString', coordinates });
const iso = (second: number) => new Date(Date.UTC(2026, 4, 1, 8, 0, second)).toISOString();
const two = [
  [5, 60],
  [5.00001, 60],
];
const issues = (text: string) =>
  readGeoJson(text)[0].issues.map(({ reason, count, place }) => `${reason} ${count} ${place}`);

test.each([
  ['a geometry', JSON.stringify(line(two))],
  ['a feature', feature(line(two))],
  ['a collection', JSON.stringify({ type: 'FeatureCollection', features: [JSON.parse(feature(line(two)))] })],
  ['geometries', JSON.stringify({ type: 'GeometryCollection', geometries: [line(two)] })],
])('%s', (_, text) => {
  expect(readGeoJson(text).map(({ lon }) => [...lon])).toEqual([[5, 5.00001]]);
});

test.each([
  ['coordTimes', { coordTimes: [iso(0), iso(1)] }],
  ['coordinateProperties.times', { coordinateProperties: { times: [iso(0), iso(1)] } }],
  ['times', { times: [iso(0), iso(1)] }],
  ['milliseconds', { coordTimes: [Date.parse(iso(0)), Date.parse(iso(1))] }],
  ['seconds', { coordTimes: [Date.parse(iso(0)) / 1e3, Date.parse(iso(1)) / 1e3] }],
  ['microseconds', { coordTimes: [Date.parse(iso(0)) * 1e3, Date.parse(iso(1)) * 1e3] }],
])('times as %s', (_, properties) => {
  expect([...readGeoJson(feature(line(two), properties))[0].time!]).toEqual([Date.parse(iso(0)), Date.parse(iso(1))]);
});

test('counts that begin small are milliseconds; points are counted alike', () => {
  const times = (coordTimes: unknown[]) => [...readGeoJson(feature(line(two), { coordTimes }))[0].time!];
  expect(times([0, 250])).toEqual([0, 250]);
  expect(times([null, 1_800_000_000])).toEqual([Number.NaN, 1_800_000_000_000]);
  const points = two.map((coordinates, i) => ({
    type: 'Feature',
    properties: { timestamp: 1_800_000_000 + i },
    geometry: { type: 'Point', coordinates },
  }));
  const [{ time }] = readGeoJson(JSON.stringify({ type: 'FeatureCollection', features: points }));
  expect([...time!]).toEqual([1_800_000_000_000, 1_800_000_001_000]);
});

test('times of a MultiLineString, nested or flat; its lines kept apart', () => {
  const lines = {
    type: 'MultiLineString',
    coordinates: [
      two,
      [
        [5.1, 60],
        [5.10001, 60],
      ],
    ],
  };
  for (const coordTimes of [
    [
      [iso(0), iso(1)],
      [iso(2), iso(3)],
    ],
    [iso(0), iso(1), iso(2), iso(3)],
  ]) {
    const [{ time, gapBefore }] = readGeoJson(feature(lines, { coordTimes }));
    expect([...time!]).toEqual([0, 1, 2, 3].map((second) => Date.parse(iso(second))));
    expect([...gapBefore]).toEqual([1, 0, 1, 0]);
  }
});

test('as many times as positions, or none can be matched', () => {
  expect(readGeoJson(feature(line(two), { coordTimes: [iso(0)] }))[0].time).toBeUndefined();
  expect(issues(feature(line(two), { coordTimes: [iso(0)] }))).toEqual(['unmatched-column 1 data, position 1']);
});

test('a line cut at the ±180° meridian is put together', () => {
  const cut = {
    type: 'MultiLineString',
    coordinates: [
      [
        [179.9, 10],
        [180, 10.5],
      ],
      [
        [-180, 10.5],
        [-179.9, 11],
      ],
    ],
  };
  const [{ lon, gapBefore }] = readGeoJson(feature(cut));
  expect([...lon]).toEqual([179.9, -179.9]);
  expect([...gapBefore]).toEqual([1, 0]);
  // two fixes there that have times are fixes
  const [timed] = readGeoJson(
    feature(cut, {
      coordTimes: [
        [iso(0), iso(1)],
        [iso(2), iso(3)],
      ],
    }),
  );
  expect([...timed.lon]).toEqual([179.9, -180, -180, -179.9]);
});

test('nothing but points are one recording, in order', () => {
  const features = two.map((coordinates, i) => ({
    type: 'Feature',
    properties: { time: iso(i) },
    geometry: { type: 'Point', coordinates },
  }));
  const [{ lon, time }] = readGeoJson(JSON.stringify({ type: 'FeatureCollection', features }));
  expect([...lon]).toEqual([5, 5.00001]);
  expect(time![1] - time![0]).toBe(1000);
});

test('what is left out is told', () => {
  expect(
    issues(
      feature(
        line([
          [5, 60, 1, 2],
          [6, 60],
        ]),
      ),
    ),
  ).toEqual(['extra-numbers 1 data, position 1']);
  expect(issues(feature(line([[5, 60], null, [6, 60], [null, 1], [7, 60]])))).toEqual([
    'missing-position 2 data, position 2',
  ]);
  expect(
    issues(
      feature(
        line([
          [190, 60],
          [6, 60],
        ]),
      ),
    ),
  ).toEqual(['wrapped-longitude 1 data, position 1']);
});

test('properties that are plain values are attributes', () => {
  const [{ name, attributes }] = readGeoJson(feature(line(two), { name: 'quay', width: 3, wet: true, tags: { a: 1 } }));
  expect([name, attributes]).toEqual(['quay', { width: 3, wet: true }]);
});

test.each([
  ['{', 'unreadable', 'data must be GeoJSON: a JSON document'],
  ['[]', 'unreadable', 'data must be GeoJSON: an object'],
  [
    JSON.stringify({ ...line(two), crs: { type: 'name', properties: { name: 'EPSG:3857' } } }),
    'unreadable',
    'data crs must be absent or CRS84',
  ],
  [
    feature(
      line([
        [5, 95],
        [6, 60],
      ]),
    ),
    'swapped',
    'data, position 1 latitude must be within [-90, 90], not 95. Positions are',
  ],
  [
    feature(
      line([
        [5, '60'],
        [6, 60],
      ]),
    ),
    'wrong-type',
    "data, position 1 latitude must be a number, not '60'",
  ],
  [
    '{"type":"LineString","coordinates":[[1e999,1],[2,2]]}',
    'not-finite',
    'position 1 longitude must be a finite number',
  ],
  [feature(line(5)), 'unreadable', 'data coordinates must be an array, not 5'],
  [feature(line([5, 60])), 'unreadable', 'data, position 1 must be [longitude, latitude, height?], not 5'],
  [feature({ type: 'Circle' }), 'unreadable', "data type must be a type of GeoJSON, not 'Circle'"],
  [feature(line([[5, 60]])), 'too-few', 'data must be a recording of at least 2 points'],
])('%j is refused', (text, reason, message) => {
  expect(() => readGeoJson(text)).toThrow(
    expect.objectContaining({ reason, message: expect.stringContaining(message) }),
  );
});

test('a reference system that says what RFC 7946 has anyway is taken', () => {
  const crs = { type: 'name', properties: { name: 'urn:ogc:def:crs:OGC:1.3:CRS84' } };
  expect(readGeoJson(JSON.stringify({ ...line(two), crs })).length).toBe(1);
});
