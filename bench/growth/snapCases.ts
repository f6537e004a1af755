import {
  followRoute,
  indexRoute,
  places,
  type Recording,
  type Route,
  resumeFollowing,
  routeFromLine,
  snap,
  snapTogether,
} from 'datumline';
import type { GrowthCase } from './GrowthCase';
import { along, at, kindOf, recordingOf, ride, type Shape, shapeNames, shapes, squareLaps, told } from './inputs';

const push = (route: Route, { lon, lat, time }: Recording) => {
  const follower = followRoute(route);
  for (let i = 0; i < lon.length; i++) {
    follower.push({ position: [lon[i], lat[i]], time: time![i] });
    if (i % 1000 === 0) follower.settled();
  }
  return follower;
};
/** A thousand places about a route, asked of an index. */
const asked = (
  of: string,
  shape: Shape,
  ask: (index: ReturnType<typeof indexRoute>) => (position: [number, number]) => unknown,
): GrowthCase => ({
  of,
  input: `${shape}, n vertices, 1000 places`,
  kind: kindOf(shape),
  least: shape === 'zigzag' ? 300 : 1000,
  make: (n) => {
    const positions = shapes[shape](n);
    const places = told(Array.from({ length: 1000 }, (_, i) => positions[Math.floor((i * n) / 1000)]));
    const call = ask(indexRoute(routeFromLine([...positions, at(-100, -100)])));
    return () => {
      for (const place of places) call(place as [number, number]);
    };
  },
});
/** Where all of a route lies at one place, as much more of it is near each fix, until no skip leads to the rest. */
const reached = { exponent: 2, says: 'metres of the route within reach of a fix, up to 6 km' };
const rides: readonly Shape[] = ['wandering', 'zigzag', 'spiral', 'back and forth', 'standing still'];

export const snapCases: readonly GrowthCase[] = [
  ...shapeNames.map(
    (shape): GrowthCase => ({
      of: 'indexRoute',
      input: `${shape}, n vertices`,
      kind: kindOf(shape),
      least: shape === 'zigzag' ? 300 : 3000,
      make: (n) => {
        const route = routeFromLine([...shapes[shape](n), at(-100, -100)]);
        return () => indexRoute(route);
      },
    }),
  ),
  ...(['wandering', 'zigzag', 'spiral', 'back and forth'] as const).map((shape) =>
    asked('indexRoute.nearest', shape, (index) => (position) => index.nearest(position)),
  ),
  {
    of: 'indexRoute.nearest',
    input: 'from the middle of a circle of n vertices, 100 times',
    kind: 'hostile',
    least: 100,
    make: (n) => {
      const angle = (i: number) => (2 * Math.PI * i) / n;
      const circle = Array.from({ length: n }, (_, i) => at(500 * Math.sin(angle(i)), 500 * Math.cos(angle(i))));
      const index = indexRoute(routeFromLine(circle, { maxSpacing: 1000 }));
      return () => {
        for (let i = 0; i < 100; i++) index.nearest(at(i * 1e-6, 0));
      };
    },
  },
  ...(['wandering', 'spiral'] as const).map((shape) =>
    asked('indexRoute.candidates', shape, (index) => (position) => index.candidates(position, { maxDistance: 20 })),
  ),
  ...(['wandering', 'spiral'] as const).map((shape) =>
    asked('indexRoute.segmentsWithin', shape, (index) => (position) => index.segmentsWithin(position, 20)),
  ),
  ...(['candidates', 'segmentsWithin'] as const).map(
    (method): GrowthCase => ({
      of: `indexRoute.${method}`,
      input: 'n laps of 100 m, all passes of 10 places',
      kind: 'hostile',
      least: 20,
      make: (n) => {
        const index = indexRoute(squareLaps(n, 25));
        return () => {
          for (let i = 0; i < 10; i++) {
            if (method === 'candidates') index.candidates(at(2 * i, 1), { maxDistance: 5 });
            else index.segmentsWithin(at(2 * i, 1), 5);
          }
        };
      },
    }),
  ),
  ...rides.map(
    (shape): GrowthCase => ({
      of: 'snap',
      input: `${shape}, n fixes on n vertices`,
      kind: kindOf(shape),
      least: 100,
      make: (n) => {
        const [route, recording] = ride(shape, n);
        return () => snap(route, recording);
      },
    }),
  ),
  {
    of: 'snap',
    input: 'n laps of 400 m',
    kind: 'hostile',
    least: 4,
    make: (n) => {
      const route = squareLaps(n, 100);
      const recording = along(route);
      return () => snap(route, recording);
    },
  },
  {
    of: 'snap',
    input: 'n laps of 1 m',
    kind: 'hostile',
    least: 80,
    stated: reached,
    make: (n) => {
      const route = squareLaps(n, 0.25);
      const recording = along(route);
      return () => snap(route, recording);
    },
  },
  {
    of: 'snap',
    input: 'n fixes at one place of 1 km of route',
    kind: 'hostile',
    least: 100,
    make: (n) => {
      const route = routeFromLine(shapes.wandering(200));
      const recording = recordingOf(told(shapes['all at one place'](n)));
      return () => snap(route, recording);
    },
  },
  {
    of: 'snap',
    input: 'n fixes 300 m beside a route of as many vertices',
    kind: 'hostile',
    least: 100,
    make: (n) => {
      const positions = shapes.wandering(n);
      const route = routeFromLine(positions);
      const recording = recordingOf(told(positions).map(([lon, lat]) => [lon, lat + 300 / 111_400]));
      return () => snap(route, recording);
    },
  },
  {
    of: 'snap',
    input: '100 fixes on a route of n vertices',
    kind: 'easy',
    least: 1000,
    make: (n) => {
      const [route, { name }] = ride('wandering', n);
      const recording = recordingOf(told(shapes.wandering(100)), name);
      return () => snap(route, recording);
    },
  },
  ...(['wandering', 'standing still'] as const).map(
    (shape): GrowthCase => ({
      of: 'snapTogether',
      input: `${shape}, two recordings of n fixes`,
      kind: kindOf(shape),
      least: 100,
      ...(shape === 'standing still' && { stated: reached }),
      make: (n) => {
        const [route, recording] = ride(shape, n);
        const other = recordingOf(told(shapes[shape](n), 5), 'B');
        return () => snapTogether(route, [recording, other]);
      },
    }),
  ),
  {
    of: 'snapTogether',
    input: 'n recordings of 200 fixes',
    kind: 'hostile',
    least: 2,
    make: (n) => {
      const [route] = ride('wandering', 200);
      const list = Array.from({ length: n }, (_, i) => recordingOf(told(shapes.wandering(200), i), `${i}`));
      return () => snapTogether(route, list);
    },
  },
  ...rides.map(
    (shape): GrowthCase => ({
      of: 'followRoute',
      input: `${shape}, n fixes on n vertices`,
      kind: kindOf(shape),
      least: 100,
      ...(shape === 'standing still' && { stated: reached }),
      make: (n) => {
        const [route, recording] = ride(shape, n);
        return () => push(route, recording);
      },
    }),
  ),
  {
    of: 'followRoute',
    input: 'n laps of 400 m',
    kind: 'hostile',
    least: 4,
    make: (n) => {
      const route = squareLaps(n, 100);
      const recording = along(route);
      return () => push(route, recording);
    },
  },
  {
    of: 'resumeFollowing',
    input: 'saved after n fixes on n vertices',
    kind: 'easy',
    least: 100,
    make: (n) => {
      const [route, recording] = ride('wandering', n);
      const saved = push(route, recording).save();
      return () => resumeFollowing(route, saved);
    },
  },
  {
    of: 'places',
    input: 'wandering, n fixes on n vertices',
    kind: 'easy',
    least: 100,
    make: (n) => {
      const [route, recording] = ride('wandering', n);
      const snapped = snap(route, recording);
      // one after the other, none held
      return () => {
        let on = 0;
        for (const { state } of places(snapped)) if (state === 'on') on++;
        return on;
      };
    },
  },
];
