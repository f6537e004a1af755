import {
  areasFromGeoJson,
  direct,
  draftRoute,
  InputError,
  joinRoutes,
  offsetRoute,
  pointAt,
  prepareRoute,
  type Route,
  repeatedStretches,
  reverseRoute,
  routeBuilder,
  routeFromGeoJson,
  routeFromLine,
  routeFromRecipe,
  routeFromTruth,
  routeToGeoJson,
  sliceRoute,
  snap,
} from 'datumline';
import type { Polygon, Position } from 'geojson';
import { seeded } from '../../test/support/randomLine';
import type { GrowthCase } from './GrowthCase';
import { at, kindOf, recordingOf, type Shape, START, shapes, squareLaps, told } from './inputs';

const each = (
  of: string,
  least: number,
  of1: readonly Shape[],
  make: (positions: Position[]) => () => unknown,
  more: Partial<Record<Shape, Partial<GrowthCase>>> = {},
): GrowthCase[] =>
  of1.map((shape) => ({
    of,
    input: `${shape}, n vertices`,
    kind: kindOf(shape),
    least,
    make: (n) => make(shapes[shape](n)),
    ...more[shape],
  }));
const routeJob =
  (call: (route: Route) => unknown) =>
  (positions: Position[]): (() => unknown) => {
    const route = routeFromLine(positions);
    return () => call(route);
  };
/** A line of legs across one another, as a star is drawn without lifting the pen. */
const star = (legs: number): Position[] =>
  Array.from({ length: legs + 1 }, (_, i) => direct(START, i * (180 - 180 / legs), 250 * (1 + (i % 7) / 7)).position);
const streets: readonly Shape[] = ['wandering', 'zigzag', 'spiral', 'back and forth', 'standing still'];
/** One called function of a route of n vertices, at a thousand places. */
const places = (route: Route) => {
  const random = seeded(4);
  return Float64Array.from({ length: 1000 }, () => random() * route.length);
};
const legs = (n: number) => Array.from({ length: n }, (_, i) => [at(20 * i, 0), at(20 * i + 20, 0)]);
const collection = (n: number) => ({
  type: 'FeatureCollection' as const,
  features: legs(n).map((coordinates, i) => ({
    type: 'Feature' as const,
    properties: { section: `s${i}` },
    geometry: { type: 'LineString' as const, coordinates },
  })),
});
const sectioned = (n: number): Route => {
  const builder = routeBuilder().start(START);
  for (let i = 0; i < n; i++) builder.section(`s${i}`).lineBy({ azimuth: i % 2 ? 80 : 100, distance: 20 });
  return builder.build();
};
const polygon = (coordinates: Position[][], i: number) => ({
  type: 'Feature' as const,
  properties: { area: `a${i}`, kind: 'allowed' },
  geometry: { type: 'Polygon', coordinates } satisfies Polygon,
});
const square = (i: number): Position[] => {
  const [east, north] = [30 * (i % 300), 30 * Math.floor(i / 300)];
  return [at(east, north), at(east + 20, north), at(east + 20, north + 20), at(east, north + 20), at(east, north)];
};
/** A ring with n teeth, each a vertex out and one in. */
const comb = (n: number): Position[] => {
  const ring = Array.from({ length: n }, (_, i) => at(i, i % 2 ? 50 : 10));
  return [...ring, at(n, 0), at(0, 0), ring[0]];
};

export const routeCases: readonly GrowthCase[] = [
  ...each('routeFromLine', 200, streets, (positions) => () => routeFromLine(positions)),
  {
    of: 'routeFromLine',
    input: 'wandering, n corners, each rounded',
    kind: 'easy',
    least: 100,
    make: (n) => {
      const positions = shapes.wandering(n);
      return () => routeFromLine(positions, { cornerRadius: 1 });
    },
  },
  {
    of: 'routeFromLine',
    input: 'zigzag, n corners that leave no room to be rounded',
    kind: 'hostile',
    least: 100,
    make: (n) => {
      const positions = shapes.zigzag(n);
      return () => routeFromLine(positions, { cornerRadius: 1 });
    },
  },
  {
    of: 'routeBuilder.build',
    input: 'n laps of 1 m',
    kind: 'hostile',
    least: 80,
    make: (n) => () => squareLaps(n, 0.25),
  },
  {
    of: 'routeBuilder.build',
    input: 'n sections, each with its mark',
    kind: 'hostile',
    least: 50,
    make: (n) => () => {
      const builder = routeBuilder().start(START);
      for (let i = 0; i < n; i++) builder.section(`s${i}`).mark(`m${i}`).lineBy({ azimuth: i, distance: 20 });
      return builder.build();
    },
  },
  {
    of: 'routeBuilder.build',
    input: 'n arcs',
    kind: 'easy',
    least: 20,
    make: (n) => () => {
      const builder = routeBuilder().start(START, { azimuth: 0 });
      for (let i = 0; i < n; i++) builder.arc({ turn: i % 2 ? 'left' : 'right', radius: 20, sweep: 90 });
      return builder.build();
    },
  },
  {
    of: 'routeBuilder.build',
    input: 'a line of n vertices followed 2 m beside it',
    kind: 'easy',
    least: 100,
    make: (n) => {
      const line = shapes.wandering(n);
      return () => routeBuilder().start(line[0]).follow(line, { side: 'left', metres: 2 }).build();
    },
  },
  {
    of: 'routeFromRecipe',
    input: 'n legs in sections',
    kind: 'easy',
    least: 100,
    make: (n) => {
      const { recipe } = sectioned(n);
      return () => routeFromRecipe(recipe);
    },
  },
  {
    of: 'routeFromRecipe',
    input: 'n laps of four sections',
    kind: 'hostile',
    least: 20,
    make: (n) => {
      const { recipe } = squareLaps(n, 8, 'sections');
      return () => routeFromRecipe(recipe);
    },
  },
  ...(
    [
      ['n laps of 400 m', 'hostile', 4, (n) => squareLaps(n, 100)],
      ['a star of n legs, n²/2 crossings', 'hostile', 20, (n) => routeFromLine(star(n), { maxSpacing: 2000 })],
      ['standing still, n vertices', 'hostile', 40, (n) => routeFromLine(shapes['standing still'](n))],
      ['wandering, n vertices', 'easy', 100, (n) => routeFromLine(shapes.wandering(n))],
    ] as const satisfies readonly (readonly [string, GrowthCase['kind'], number, (n: number) => Route])[]
  ).map(
    ([input, kind, least, make]): GrowthCase => ({
      of: 'Route.warnings',
      input: `${input}, the route built as well`,
      kind,
      least,
      ...(kind === 'hostile' && {
        stated: { exponent: 2, says: 'meets itself everywhere with the square' },
      }),
      make: (n) => () => make(n).warnings.length,
    }),
  ),
  {
    of: 'routeFromGeoJson',
    input: 'n legs, each a section',
    kind: 'easy',
    least: 50,
    make: (n) => {
      const drawn = collection(n);
      return () => routeFromGeoJson(drawn);
    },
  },
  {
    of: 'routeFromGeoJson',
    input: 'one leg, n marks and n/10 areas on it',
    kind: 'hostile',
    least: 50,
    make: (n) => {
      const [line] = legs(1);
      const point = (i: number) => ({
        type: 'Feature' as const,
        properties: { name: `m${i}` },
        geometry: { type: 'Point' as const, coordinates: at((19 * i) / n, 1) },
      });
      const area = (i: number) => ({
        type: 'Feature' as const,
        properties: { name: `a${i}` },
        geometry: polygon([square(0)], 0).geometry,
      });
      const features = [
        { type: 'Feature' as const, properties: {}, geometry: { type: 'LineString' as const, coordinates: line } },
        ...Array.from({ length: n }, (_, i) => point(i)),
        ...Array.from({ length: Math.ceil(n / 10) }, (_, i) => area(i)),
      ];
      return () => routeFromGeoJson({ type: 'FeatureCollection', features });
    },
  },
  ...each(
    'routeToGeoJson',
    3000,
    ['wandering'],
    routeJob((route) => routeToGeoJson(route)),
  ),
  {
    of: 'routeToGeoJson',
    input: 'n sections',
    kind: 'hostile',
    least: 50,
    make: (n) => {
      const route = sectioned(n);
      return () => routeToGeoJson(route);
    },
  },
  ...each('pointAt', 1000, ['wandering', 'all at one place'], (positions) => {
    const route = routeFromLine([...positions, at(1000, 0)]);
    const wanted = places(route);
    return () => wanted.reduce((sum, place) => sum + pointAt(route, place).azimuth, 0);
  }).map((one) => ({ ...one, input: `${one.input}, 1000 places` })),
  // columns are copied as fast as memory is: up to about the longest route there may be, so that the last two sizes lie outside the cache
  ...each(
    'sliceRoute',
    7000,
    ['wandering', 'back and forth'],
    routeJob((route) => sliceRoute(route, route.length / 4, route.length / 2)),
  ),
  ...each(
    'reverseRoute',
    7000,
    ['wandering', 'back and forth'],
    routeJob((route) => reverseRoute(route)),
  ),
  ...each('joinRoutes', 4000, ['wandering'], (positions) => {
    const middle = positions.length >> 1;
    const [first, second] = [
      routeFromLine(positions.slice(0, middle + 1)),
      routeFromLine(positions.slice(middle), { name: 'b' }),
    ];
    return () => joinRoutes(first, second);
  }),
  ...each('prepareRoute', 300, ['wandering', 'spiral', 'back and forth'], (positions) => {
    const route = routeFromLine(positions);
    const recording = recordingOf(positions.slice(0, 2));
    return () => snap(prepareRoute(route), recording);
  }).map((one) => ({ ...one, input: `${one.input}, and the first snap on it` })),
  ...each(
    'offsetRoute',
    100,
    streets,
    routeJob((route) => offsetRoute(route, { side: 'left', metres: 3 })),
  ),
  ...each(
    'repeatedStretches',
    100,
    ['wandering', 'zigzag', 'spiral'],
    routeJob((route) => repeatedStretches(route, { maxDistance: 5 })),
  ),
  ...(['every', 'next'] as const).map(
    (pairs): GrowthCase => ({
      of: 'repeatedStretches',
      input: `n laps of 400 m, \`pairs: '${pairs}'\``,
      kind: 'hostile',
      least: pairs === 'every' ? 2 : 4,
      ...(pairs === 'every' && {
        stated: { exponent: 2, says: 'grow with the square of the number of laps' },
      }),
      make: (n) => {
        const route = squareLaps(n, 100);
        return () => repeatedStretches(route, { maxDistance: 5, pairs });
      },
    }),
  ),
  {
    of: 'areasFromGeoJson',
    input: 'n polygons of 4 corners',
    kind: 'easy',
    least: 300,
    make: (n) => {
      const features = Array.from({ length: n }, (_, i) => polygon([square(i)], i));
      return () => areasFromGeoJson({ type: 'FeatureCollection', features });
    },
  },
  {
    of: 'areasFromGeoJson',
    input: 'one polygon of n teeth',
    kind: 'hostile',
    least: 300,
    stated: { exponent: 2, says: 'with the square of those that overlap in longitude' },
    make: (n) => {
      const whole = polygon([comb(n)], 0);
      return () => areasFromGeoJson(whole);
    },
  },
  {
    of: 'areasFromGeoJson',
    input: 'one polygon of n holes',
    kind: 'hostile',
    least: 300,
    make: (n) => {
      const outer = [at(-1e4, -1e4), at(1e5, -1e4), at(1e5, 1e5), at(-1e4, 1e5), at(-1e4, -1e4)];
      const whole = polygon([outer, ...Array.from({ length: n }, (_, i) => square(i))], 0);
      return () => areasFromGeoJson(whole);
    },
  },
  ...(['wandering', 'spiral', 'back and forth', 'standing still'] as const).map(
    (shape): GrowthCase => ({
      of: 'draftRoute',
      input: `${shape}, three recordings of n fixes, drafted or refused`,
      kind: kindOf(shape),
      least: 120,
      ...(shape === 'standing still' && { stated: { exponent: 2, says: 'grows with the square at the worst' } }),
      make: (n) => {
        const line = shapes[shape](n);
        const recordings = [1, 2, 3].map((seed) => recordingOf(told(line, seed), `${seed}`));
        return () => {
          try {
            return draftRoute(recordings);
          } catch (error) {
            if (error instanceof InputError) return undefined;
            throw error;
          }
        };
      },
    }),
  ),
  {
    of: 'draftRoute',
    input: 'n recordings of 200 fixes',
    kind: 'hostile',
    least: 2,
    make: (n) => {
      const line = shapes.wandering(200);
      const recordings = Array.from({ length: n }, (_, i) => recordingOf(told(line, i), `${i}`));
      return () => draftRoute(recordings);
    },
  },
  ...(['wandering', 'zigzag', 'spiral', 'back and forth', 'standing still'] as const).map(
    (shape): GrowthCase => ({
      of: 'routeFromTruth',
      input: `${shape}, n fixes`,
      kind: kindOf(shape),
      least: 300,
      make: (n) => {
        const truth = recordingOf(shapes[shape](n));
        return () => routeFromTruth(truth);
      },
    }),
  ),
];
