import {
  direct,
  joinRoutes,
  offsetRoute,
  type Route,
  type RouteCollection,
  reverseRoute,
  routeBuilder,
  routeFromGeoJson,
  routeFromLine,
  routeFromRecipe,
  routeToGeoJson,
} from 'datumline';
import type { Feature, LineString } from 'geojson';
import { expect, test } from 'vitest';
import { demoRoute } from '../../examples/demo/demoRoute';

const start: [number, number] = [2.1, 61.4];
const on = (metres: number, aside = 0) => direct(direct(start, 90, metres).position, 0, aside).position;

const laps = routeBuilder({ name: 'loops', lateral95: 0.8, halfWidth: 6 })
  .start(start, { azimuth: 90 })
  .provenance({ source: 'orthophoto', date: '2030-06', licence: 'own work' })
  .mark('begin', { time: 1935817200000 })
  .laps(2, (lap) => lap.section('oval').arc({ turn: 'left', radius: 60, sweep: 360 }).mark('half'))
  .provenance({ lateral95: 2 })
  .section('quay', { halfWidth: 3, environment: 'open sky' })
  .lineBy({ azimuth: 90, distance: 300 })
  .section('bridge', { from: 900, to: 950 })
  .build();
const straight = routeBuilder({ name: 'straight' })
  .start(start)
  .section('west', { halfWidth: 5 })
  .lineTo(on(300))
  .section('east', { halfWidth: 4, environment: 'trees' })
  .lineTo(on(300, 200))
  .mark('corner', { near: on(300) })
  .build();

const routes: readonly (readonly [string, Route])[] = [
  ['the demo', demoRoute()],
  ['laps, an arc, sections in one another, marks, sources', laps],
  ['straight legs', straight],
  ['a line alone', routeFromLine([start, on(100)])],
  ['across ±180°', routeBuilder().start([179.9995, -17]).section('strait').lineTo([-179.9995, -17]).build()],
  [
    'made of others',
    joinRoutes(reverseRoute(straight), offsetRoute(straight, { side: 'left', metres: 3 }), { gap: 'line' }),
  ],
];
const throughJson = (route: Route): RouteCollection => JSON.parse(JSON.stringify(routeToGeoJson(route)));

test.each(routes)('%s reads back equal', (_, route) => {
  const again = routeFromGeoJson(throughJson(route));
  expect(again).toEqual(route);
  expect(again.warnings).toEqual(route.warnings);
});

test.each(routes)('%s reads back equal where an editor cut its digits and added properties of its own', (_, route) => {
  const collection = throughJson(route);
  const cut = (value: unknown): unknown =>
    typeof value === 'number' ? Number(value.toFixed(7)) : Array.isArray(value) ? value.map(cut) : value;
  const features = collection.features.map((feature) => ({
    ...feature,
    id: 7,
    properties: { ...feature.properties, stroke: '#f00' },
    geometry: { ...feature.geometry, coordinates: cut((feature.geometry as LineString).coordinates) },
  }));
  expect(routeFromGeoJson({ ...collection, features } as RouteCollection)).toEqual(route);
});

test('it is GeoJSON with a line for each stretch, what it says read as a drawing', () => {
  const { features, name, recipe } = throughJson(straight);
  expect({ name, recipe }).toEqual({ name: 'straight', recipe: straight.recipe });
  expect(features.map(({ geometry, properties }) => [geometry.type, properties])).toEqual([
    ['LineString', { section: 'west', halfWidth: 5 }],
    ['LineString', { section: 'east', halfWidth: 4, environment: 'trees' }],
    ['Point', { name: 'corner' }],
    ...['west', 'east'].flatMap((section) =>
      ['left', 'right'].map((side) => ['LineString', { name: `${section}, ${side} edge`, datumline: 'edge' }]),
    ),
  ]);
  expect((features[0] as Feature<LineString>).geometry.coordinates[0]).toEqual(start);
});

test('without its recipe the drawing is read: sections, half widths, uncertainty, marks where they were', () => {
  for (const route of [straight, demoRoute()]) {
    const { recipe: _, ...drawing } = throughJson(route);
    const again = routeFromGeoJson(drawing);
    expect(again.name).toBe(route.name);
    expect(again.length).toBeCloseTo(route.length, 6);
    expect(again.marks.length).toBe(route.marks.length);
    again.marks.forEach(({ name, alongTrack }, i) => {
      expect(name).toBe(route.marks[i].name);
      expect(alongTrack).toBeCloseTo(route.marks[i].alongTrack, 3);
    });
    expect(again.lateral95[0]).toBe(route.lateral95[0]);
  }
  const { recipe: _, ...drawing } = throughJson(straight);
  const again = routeFromGeoJson(drawing);
  expect(again.sections.map(({ from, to, ...rest }) => rest)).toEqual(
    straight.sections.map(({ from, to, ...rest }) => rest),
  );
});

test.each<[string, (collection: RouteCollection) => void]>([
  ['a point moved by 3 m', ({ features }) => ((features[0].geometry as LineString).coordinates[3] = [...on(9, 3)])],
  ['a half width', ({ features }) => (features[0].properties!.halfWidth = 9)],
  ['a line gone', ({ features }) => (features as Feature[]).splice(1, 1)],
  ['a mark added', ({ features }) => (features as Feature[]).push({ ...features[2], properties: { name: 'new' } })],
])('a drawing changed since is read as it is now: %s', (_, change) => {
  const collection = throughJson(straight);
  change(collection);
  const { recipe: __, ...drawing } = collection;
  const changed = routeFromGeoJson(collection);
  expect(changed).toEqual(routeFromGeoJson(drawing));
  expect({ ...changed, recipe: 0 }).not.toEqual({ ...straight, recipe: 0 });
});

test('a recipe that cannot be read leaves the drawing', () => {
  const collection = { ...throughJson(straight), recipe: { version: 9 } } as never;
  expect(routeFromGeoJson(collection).length).toBeCloseTo(straight.length, 6);
});

test('options win over what it holds', () => {
  expect(routeFromGeoJson(throughJson(straight), { name: 'mine', halfWidth: 2 })).toMatchObject({ name: 'mine' });
  expect(routeFromRecipe(routeFromGeoJson(throughJson(straight), { name: 'mine' }).recipe).name).toBe('mine');
});

// Inside a square of 20 m no place lies farther than 10 m from it: by elementary geometry.
test.each([
  [9, ['court, left edge', 'court, right edge']],
  [11, ['court, left edge']],
])('round a court of 20 m, a corridor of %d m has these edges', (halfWidth, names) => {
  const court = routeBuilder({ lateral95: 0.5 }).start([5, 60]).section('court', { halfWidth });
  for (const azimuth of [0, 90, 180, 270]) court.lineBy({ azimuth, distance: 20 });
  const { features } = routeToGeoJson(court.build());
  const drawn = features.filter(({ properties }) => properties?.datumline === 'edge');
  expect(drawn.map(({ properties }) => properties!.name)).toEqual(names);
});
