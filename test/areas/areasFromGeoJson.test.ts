import { areasFromGeoJson, assess, InputError, routeFromLine } from 'datumline';
import type { GeoJSON, Position } from 'geojson';
import { expect, test } from 'vitest';
import { recordingOf } from '../assess/recordingOf';

const ring: Position[] = [
  [5, 60],
  [5.001, 60],
  [5.001, 60.001],
  [5, 60],
];
const feature = (properties: object, coordinates: unknown = [ring], type = 'Polygon') => ({
  type: 'Feature',
  properties,
  geometry: { type, coordinates },
});
const collection = (...features: unknown[]) => ({ type: 'FeatureCollection', features }) as unknown as GeoJSON;

test('polygons by name and kind, their doubt as a number or a text', () => {
  const areas = areasFromGeoJson(
    collection(
      feature({ area: 'road', kind: 'allowed', doubt95: '0.5' }),
      feature({ area: 'mill', kind: 'Impossible' }),
      feature({ area: 'road', kind: 'allowed', doubt95: 0.5 }, [[ring]], 'MultiPolygon'),
      feature({ area: 'road', kind: 'allowed' }),
    ),
  );
  expect(areas.map(({ name, kind, doubt95, geometry }) => [name, kind, doubt95, geometry.type])).toEqual([
    ['road', 'allowed', 0.5, 'FeatureCollection'],
    ['road', 'allowed', 0, 'Polygon'],
    ['mill', 'impossible', 0, 'Polygon'],
  ]);
});

test('options speak where a feature doesn’t: a data set of houses', () => {
  const houses = collection(feature({ kind: 'house' }), feature({}));
  const [one, ...others] = areasFromGeoJson(houses, { kind: 'impossible', name: 'houses' });
  expect(others).toEqual([]);
  expect(one).toMatchObject({ name: 'houses', kind: 'impossible', issues: [] });
  expect(areasFromGeoJson(houses, { kind: 'impossible' })[0].name).toBe('impossible');
});

test('what is neither is counted, with its first place', () => {
  const [one] = areasFromGeoJson(
    collection(
      feature({ kind: 'allowed' }),
      feature({ kind: 'house' }),
      feature({ kind: 'allowed' }, [5, 60], 'Point'),
      feature({}),
      { type: 'Feature', properties: null, geometry: null },
    ),
  );
  expect(one.issues!.map(({ reason, count, place }) => [reason, count, place])).toEqual([
    ['no-kind', 2, 'features[1]'],
    ['not-an-area', 2, 'features[2]'],
  ]);
});

const bow: Position[] = [
  [5, 60],
  [5.002, 60.002],
  [5.002, 60],
  [5, 60.002],
  [5, 60],
];
const pole: Position[] = [
  [-120, 80],
  [0, 80],
  [120, 80],
  [-120, 80],
];

test.each<[what: string, json: unknown, reason: string, message: string]>([
  ['no GeoJSON', { type: 'Line' }, 'wrong-type', 'json must be a GeoJSON FeatureCollection, Feature, Polygon or'],
  [
    'no polygon',
    collection(feature({ kind: 'allowed' }, ring, 'LineString')),
    'too-few',
    'json must be at least one polygon',
  ],
  [
    'neither kind',
    collection(feature({})),
    'too-few',
    "json must be at least one polygon that is 'allowed' or 'impossible'",
  ],
  [
    'an open ring',
    collection(feature({ kind: 'allowed' }, [[...ring.slice(0, 3), [5, 60.002]]])),
    'misplaced',
    'features[0].geometry.coordinates[0][3] must be the first position of the ring again',
  ],
  [
    'too short a ring',
    collection(feature({ kind: 'allowed' }, [[ring[0], ring[1], ring[0]]])),
    'too-few',
    'features[0].geometry.coordinates[0] must be a ring of at least 4 positions',
  ],
  [
    'no ring',
    collection(feature({ kind: 'allowed' }, [])),
    'too-few',
    'features[0].geometry.coordinates must be at least one ring',
  ],
  [
    'a ring that crosses itself, with the place',
    collection(feature({ kind: 'allowed' }), feature({ kind: 'allowed' }, [ring, bow])),
    'misplaced',
    'features[1].geometry.coordinates[1] must be a ring that does not cross itself, not [5.001, 60.001]. The edges from its positions 0 and 2 cross there',
  ],
  [
    'a ring around a pole',
    feature({ kind: 'allowed' }, [pole]),
    'misplaced',
    'geometry.coordinates[0] must be a ring that goes around no pole',
  ],
  [
    'swapped',
    collection(
      feature({ kind: 'allowed' }, [
        [
          [60, 105],
          [60, 106],
          [61, 105],
          [60, 105],
        ],
      ]),
    ),
    'swapped',
    'features[0].geometry.coordinates[0][0] latitude must be within [-90, 90], not 105',
  ],
  [
    'no number',
    collection(feature({ kind: 'allowed' }, [[[5, Number.NaN], ...ring]])),
    'not-finite',
    'features[0].geometry.coordinates[0][0] latitude must be',
  ],
  [
    'a doubt below 0',
    collection(feature({ kind: 'allowed', doubt95: '-1' })),
    'out-of-range',
    'features[0].properties.doubt95 must be a number of at least 0, not -1',
  ],
  [
    'no doubt',
    collection(feature({ kind: 'allowed', doubt95: 'much' })),
    'wrong-type',
    'features[0].properties.doubt95 must be a number',
  ],
  [
    'a number for a name that is none',
    collection(feature({ kind: 'allowed', area: Number.NEGATIVE_INFINITY })),
    'not-finite',
    'features[0].properties.area must be a finite number',
  ],
  [
    'both kinds of one name',
    collection(feature({ area: 'x', kind: 'allowed' }), feature({ area: 'x', kind: 'impossible' })),
    'ambiguous',
    "features[1].properties.kind must be 'allowed', as of the other areas called “x”, not 'impossible'",
  ],
  [
    'a kind misspelt',
    collection(feature({ kind: 'imposible' })),
    'wrong-type',
    "features[0].properties.kind must be 'allowed' or 'impossible', not 'imposible'. Did you mean impossible?",
  ],
  [
    'a name that is none',
    collection(feature({ kind: 'allowed', area: {} })),
    'wrong-type',
    'features[0].properties.area must be a string',
  ],
])('refused: %s', (_, json, reason, message) => {
  const fault = (() => {
    try {
      return areasFromGeoJson(json as GeoJSON);
    } catch (error) {
      return error;
    }
  })();
  expect(fault).toBeInstanceOf(InputError);
  expect(fault).toMatchObject({ reason });
  expect((fault as Error).message.slice(0, message.length).replaceAll('"', "'")).toBe(message.replaceAll('"', "'"));
});

const quay = routeFromLine([
  [5, 60],
  [5.01, 60],
]);
const recording = recordingOf([
  [5, 60],
  [5.01, 60],
]);
const square = { type: 'Polygon', coordinates: [ring] };

test.each<[what: string, areas: unknown, reason: string, message: string]>([
  ['none', [], 'too-few', 'options.areas must be at least one area'],
  ['no array', square, 'wrong-type', 'options.areas must be an array'],
  [
    'an unknown key',
    [{ name: 'a', kind: 'allowed', geometry: square, colour: 1 }],
    'unknown-key',
    'options.areas[0].colour must be one of name, kind',
  ],
  [
    'no name',
    [{ name: '', kind: 'allowed', geometry: square }],
    'wrong-type',
    'options.areas[0].name must be a string that is not empty',
  ],
  [
    'no kind',
    [{ name: 'a', kind: 'road', geometry: square }],
    'wrong-type',
    "options.areas[0].kind must be 'allowed' or 'impossible'",
  ],
  [
    'a line',
    [{ name: 'a', kind: 'allowed', geometry: { type: 'LineString', coordinates: ring } }],
    'wrong-type',
    'options.areas[0].geometry must be a Polygon, a MultiPolygon or a FeatureCollection of these',
  ],
  [
    'no polygon',
    [{ name: 'a', kind: 'allowed', geometry: { type: 'MultiPolygon', coordinates: [] } }],
    'too-few',
    'options.areas[0].geometry must be at least one polygon',
  ],
  [
    'both kinds',
    [
      { name: 'a', kind: 'allowed', geometry: square },
      { name: 'a', kind: 'impossible', geometry: square },
    ],
    'ambiguous',
    "options.areas[1].kind must be 'allowed'",
  ],
  [
    'a doubt below 0',
    [{ name: 'a', kind: 'allowed', geometry: square, doubt95: -0.1 }],
    'out-of-range',
    'options.areas[0].doubt95 must be a number of at least 0',
  ],
  [
    'deep in a collection',
    [{ name: 'a', kind: 'allowed', geometry: collection(feature({}), feature({}, [bow])) }],
    'misplaced',
    'options.areas[0].geometry.features[1].geometry.coordinates[0] must be a ring that does not cross itself',
  ],
  // both numbers would do as either: only beside the route it shows
  [
    'all swapped',
    [{ name: 'a', kind: 'allowed', geometry: { type: 'Polygon', coordinates: [ring.map(([x, y]) => [y, x])] } }],
    'swapped',
    'options.areas: a polygon of “a” must be near the route, not [60, 5]. Positions are [longitude, latitude]; these two look swapped',
  ],
])('assess refuses: %s', (_, areas, reason, message) => {
  const fault = (() => {
    try {
      return assess(quay, [recording], { areas: areas as never });
    } catch (error) {
      return error;
    }
  })();
  expect(fault).toBeInstanceOf(InputError);
  expect(fault).toMatchObject({ reason });
  expect((fault as Error).message.slice(0, message.length).replaceAll('"', "'")).toBe(message.replaceAll('"', "'"));
});
