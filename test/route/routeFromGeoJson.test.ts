import { readFileSync } from 'node:fs';
import { direct } from 'datumline/geodesy';
import { offsetRoute, routeBuilder, routeFromGeoJson, routeFromLine, routeFromRecipe } from 'datumline/route';
import type { Feature, FeatureCollection, Geometry, LineString, Position } from 'geojson';
import { describe, expect, test } from 'vitest';

const a: Position = [8.1234567, 47.7654321];
const b = direct(a, 90, 300).position;
const c = direct(b, 0, 200).position;

const feature = (geometry: Geometry, properties: object = {}): Feature => ({
  type: 'Feature',
  geometry,
  properties: { ...properties },
});
const line = (coordinates: Position[], properties = {}) => feature({ type: 'LineString', coordinates }, properties);
const collection = (...features: Feature[]): FeatureCollection => ({ type: 'FeatureCollection', features });
const box = (at: Position, half: number): Position[][] => {
  const [w, s] = [direct(at, 270, half).position[0], direct(at, 180, half).position[1]];
  const [e, n] = [direct(at, 90, half).position[0], direct(at, 0, half).position[1]];
  return [
    [
      [w, s],
      [e, s],
      [e, n],
      [w, n],
      [w, s],
    ],
  ];
};

test('lines are legs in order, with their sections, offsets and provenance', () => {
  const route = routeFromGeoJson(
    collection(
      line([a, b], {
        section: 'quay',
        halfWidth: '5',
        environment: 'open',
        lateral95: 0.5,
        source: 'orthophoto',
        stroke: '#f00',
      }),
      line([b, c], { offset: '2', side: 'right', lateral95: 2 }),
    ),
    { name: 'loop' },
  );
  const built = routeBuilder({ name: 'loop' })
    .provenance({ lateral95: 0.5, source: 'orthophoto' })
    .section('quay', { halfWidth: 5, environment: 'open' })
    .follow([a, b])
    .provenance({ lateral95: 2 })
    .endSection()
    .follow([b, c], { side: 'right', metres: 2 })
    .build();
  expect({ ...route, recipe: 0 }).toEqual({ ...built, recipe: 0 });
  expect(routeFromRecipe(JSON.parse(JSON.stringify(route.recipe)))).toEqual(route);
  expect(route.sections.map(({ name, from, to }) => [name, from, Math.round(to)])).toEqual([['quay', 0, 300]]);
  expect(route.lateral95[0]).toBe(0.5);
  expect(route.lateral95[route.lateral95.length - 1]).toBe(2);
});

test('neighbours of one section name are one section, a name used again is numbered', () => {
  const { sections } = routeFromGeoJson(
    collection(
      line([a, b], { section: 'x' }),
      line([b, c], { section: 'x' }),
      line([c, b], { section: 'y' }),
      line([b, a], { section: 'x' }),
    ),
  );
  expect(sections.map(({ name, from, to }) => [name, Math.round(from), Math.round(to)])).toEqual([
    ['x', 0, 500],
    ['y', 500, 700],
    ['x (2)', 700, 1000],
  ]);
});

test('an area is the section of what lies inside, each passage one', () => {
  const middle = direct(a, 90, 150).position;
  const area = feature({ type: 'Polygon', coordinates: box(middle, 50) }, { name: 'bridge', halfWidth: 4 });
  const once = routeFromGeoJson(collection(line([a, b]), area)).sections;
  expect(once).toMatchObject([{ name: 'bridge', halfWidth: 4 }]);
  expect(Math.abs(once[0].from - 100)).toBeLessThan(0.01);
  expect(Math.abs(once[0].to - 200)).toBeLessThan(0.01);
  const twice = routeFromGeoJson(collection(line([a, b, a]), area)).sections;
  expect(twice.map(({ name, from }) => [name, Math.round(from)])).toEqual([
    ['bridge', 100],
    ['bridge (2)', 400],
  ]);
  const never = routeFromGeoJson(collection(line([b, c]), area));
  expect(never.sections).toEqual([]);
  expect(never.warnings.map(({ reason }) => reason)).toContain('empty-section');
});

test('a closed line is run in laps, and an area in it gets the lap', () => {
  const ring = routeBuilder().start(a, { azimuth: 0 }).arc({ turn: 'left', radius: 50, sweep: 360 }).build();
  const coordinates = Array.from(ring.lon, (lon, i) => [lon, ring.lat[i]]);
  const gate = feature(
    { type: 'Polygon', coordinates: box(coordinates[coordinates.length >> 1], 20) },
    { section: 'gate' },
  );
  const route = routeFromGeoJson(collection(line(coordinates, { laps: 3, section: 'ring' }), gate));
  expect(route.sections.filter(({ name }) => name === 'ring').map(({ lap }) => lap)).toEqual([1, 2, 3]);
  expect(route.sections.filter(({ name }) => name === 'gate').map(({ lap }) => lap)).toEqual([1, 2, 3]);
  expect(Math.abs(route.length - 3 * ring.length)).toBeLessThan(0.01);
});

test('points are marks at the nearest place', () => {
  const { marks } = routeFromGeoJson(
    collection(
      line([a, b]),
      feature(
        { type: 'Point', coordinates: direct(direct(a, 90, 120).position, 0, 3).position },
        { name: 'crane', time: '2025-05-04T08:01:30Z' },
      ),
    ),
  );
  expect(marks).toMatchObject([{ name: 'crane', time: Date.UTC(2025, 4, 4, 8, 1, 30) }]);
  expect(Math.abs(marks[0].alongTrack - 120)).toBeLessThan(1e-3);
});

test('a MultiLineString is its lines in order', () => {
  const multi = routeFromGeoJson(
    collection(
      feature({
        type: 'MultiLineString',
        coordinates: [
          [a, b],
          [b, c],
        ],
      }),
    ),
  );
  expect(multi.length).toBe(routeFromGeoJson(collection(line([a, b]), line([b, c]))).length);
  expect(Math.abs(multi.length - routeFromLine([a, b, c]).length)).toBeLessThan(1e-6);
});

test('the documented sample reads without a warning that calls for drawing again', () => {
  const sample = JSON.parse(
    readFileSync(new URL('../../examples/first-line/first-line.geojson', import.meta.url), 'utf8'),
  );
  const route = routeFromGeoJson(sample);
  expect(route.name).toBe('Invented harbour loop');
  expect(route.sections.map(({ name, lap }) => [name, lap])).toEqual([
    ['quay', undefined],
    ['market street', undefined],
    ['ring', 1],
    ['ring', 2],
    ['under the gantry', undefined],
  ]);
  const laps = ['repeated-stretch', 'self-crossing'];
  expect(route.warnings.filter(({ reason }) => !laps.includes(reason))).toEqual([]);
  expect(offsetRoute(route, { side: 'left', metres: 1 }).length).toBeGreaterThan(0);
});

test('a Feature or a line alone is a collection of one, with what it says of itself', () => {
  const drawn = line([a, b], { section: 'quay', halfWidth: 4 });
  const whole = routeFromGeoJson(collection(drawn), { name: 'R' });
  expect(routeFromGeoJson(drawn, { name: 'R' })).toEqual(whole);
  expect(whole.sections).toMatchObject([{ name: 'quay', halfWidth: 4 }]);
  const bare = routeFromGeoJson(drawn.geometry as LineString, { name: 'R' });
  expect(bare.recipe).toEqual(routeFromGeoJson(collection(line([a, b])), { name: 'R' }).recipe);
  const parts = { type: 'MultiLineString', coordinates: [[a, b], [b, [5.002, 60.001]]] } as const; // biome-ignore format: one line
  expect(routeFromGeoJson(parts as never).lon.length).toBeGreaterThan(whole.lon.length);
});

test.each<[string, unknown, string, string]>([
  ['no collection', { type: 'Topology' }, 'wrong-type', 'featureCollection must be a GeoJSON FeatureCollection'],
  ['a Feature of nothing', { type: 'Feature', geometry: null }, 'wrong-type', 'features[0] geometry'],
  [
    'another frame',
    { ...collection(line([a, b])), crs: { properties: { name: 'urn:ogc:def:crs:EPSG::25832' } } },
    'unreadable',
    'featureCollection crs',
  ],
  ['no line', collection(), 'too-few', 'features must be at least one LineString'],
  [
    'a collection of geometries',
    collection(feature({ type: 'GeometryCollection', geometries: [] })),
    'wrong-type',
    'features[0] geometry',
  ],
  [
    'no geometry',
    collection(line([a, b]), { type: 'Feature', geometry: null, properties: null } as never),
    'wrong-type',
    'features[1] geometry',
  ],
  ['a short line', collection(line([a])), 'too-few', 'features[0] geometry.coordinates'],
  [
    'a place off the globe',
    collection(line([a, [200, 99]])),
    'out-of-range',
    'features[0] geometry.coordinates[1] latitude',
  ],
  ['an offset without side', collection(line([a, b], { offset: 3 })), 'missing', 'features[0] properties.side'],
  [
    'a negative offset',
    collection(line([a, b], { offset: -3, side: 'left' })),
    'out-of-range',
    'features[0] properties.offset',
  ],
  [
    'a word for a number',
    collection(line([a, b], { halfWidth: 'wide' })),
    'wrong-type',
    'features[0] properties.halfWidth',
  ],
  [
    'a time without zone',
    collection(line([a, b]), feature({ type: 'Point', coordinates: a }, { time: '2025-05-04T08:01:30' })),
    'wrong-type',
    'features[1] properties.time',
  ],
])('%s is refused, naming the feature', (_, document, reason, message) => {
  const read = () => routeFromGeoJson(document as FeatureCollection);
  expect(read).toThrow(expect.objectContaining({ name: 'InputError', reason }));
  expect(read).toThrow(message);
});

describe('what was likely meant otherwise is told, naming the feature and the word', () => {
  const told = (properties: object, geometry: 'line' | 'area' = 'line') => {
    const area = feature({ type: 'Polygon', coordinates: box(a, 5) }, properties);
    const route = routeFromGeoJson(
      geometry === 'line' ? collection(line([c, a]), line([a, b], properties)) : collection(line([a, b]), area),
    );
    const reasons = ['misspelt-property', 'half-given', 'unnamed-area'];
    return route.warnings
      .filter(({ reason }) => reasons.includes(reason))
      .map(({ reason, message }) => [reason, message]);
  };

  test.each([
    ['halfwidth', 'halfWidth'],
    ['half_width', 'halfWidth'],
    ['width', 'halfWidth'],
    ['Section', 'section'],
    ['sectoin', 'section'],
    ['license', 'licence'],
    ['ofset', 'offset'],
    ['lap', 'laps'],
    ['lateral_95', 'lateral95'],
  ])('%s: %s', (key, word) => {
    expect(told({ [key]: 4 })).toEqual([
      ['misspelt-property', `Feature 2 has a property “${key}”: is “${word}” meant?`],
    ]);
    expect(
      told({ [key]: 4, section: 'quay', side: 'left', offset: 2, halfWidth: 3, laps: 1, licence: 'x', lateral95: 1 }),
    ).toEqual([]);
  });

  test.each([
    'stroke',
    'stroke-width',
    'fill',
    'marker-color',
    'id',
    'title',
    'description',
    'colour',
    'osm_id',
    'state',
  ])('%s is left alone', (key) => expect(told({ [key]: 'x' })).toEqual([]));

  test('a feature with a name is told by it', () => {
    expect(told({ section: 'quay', halfwidth: 4 })[0][1]).toBe(
      'Feature 2 (“quay”) has a property “halfwidth”: is “halfWidth” meant?',
    );
  });

  test('a side without offset; an area without name, of which no section is made', () => {
    expect(told({ side: 'left' })).toEqual([
      ['half-given', 'Feature 2 states a side but no offset: the line itself is taken.'],
    ]);
    expect(told({}, 'area')).toEqual([
      ['unnamed-area', 'Feature 2 is an area without a name: no section is made of it. Give it a “section”.'],
    ]);
  });

  test('a side is taken in any case', () => {
    const beside = (side: string) => routeFromGeoJson(collection(line([a, b], { offset: 2, side })));
    expect(beside('Left')).toEqual(beside('left'));
    expect(() => beside('port')).toThrow("features[0] properties.side must be 'left' or 'right', not 'port'");
  });
});

test('sections in one another are no warning, those that overlap are', () => {
  const reasons = (second: { from: number; to: number }) =>
    routeBuilder({ lateral95: 1 })
      .start(a)
      .section('outer', { from: 0, to: 200 })
      .section('inner', second)
      .lineTo(b)
      .build()
      .warnings.map(({ reason }) => reason);
  for (const inside of [
    { from: 50, to: 100 },
    { from: 0, to: 50 },
    { from: 150, to: 200 },
  ])
    expect(reasons(inside)).toEqual([]);
  expect(reasons({ from: 150, to: 250 })).toEqual(['overlapping-sections']);
});
