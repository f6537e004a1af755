import {
  type AreaKind,
  type Assessment,
  areasFromGeoJson,
  assess,
  assessAsync,
  checkTestFile,
  combine,
  combineAsync,
  combineByTime,
  errorsByTime,
  guessTest,
  judgeByTime,
  planTest,
  type Recording,
  type Route,
  rowOf,
  runFigures,
} from 'datumline';
import type { GrowthCase } from './GrowthCase';
import { along, at, kindOf, recordingOf, ride, shapes, squareLaps, told } from './inputs';

/** So many recordings of one ride. */
export function manyOf(count: number, fixes: number): [Route, Recording[]] {
  const [route] = ride('wandering', fixes);
  const line = shapes.wandering(fixes);
  return [route, Array.from({ length: count }, (_, i) => recordingOf(told(line, i + 1), `r${i}`))];
}
/** So many recordings of 60 fixes, judged. */
export function judgedMany(count: number): Assessment {
  return assess(...manyOf(count, 60));
}
const runs = (count: number): Assessment[] => {
  const [route, recordings] = manyOf(3, 60);
  const once = assess(
    route,
    recordings.map((recording) => ({ recording, receiver: recording.name, run: 'run' })),
  );
  return Array.from({ length: count }, (_, i) =>
    JSON.parse(JSON.stringify(once).replaceAll('"run":"run"', `"run":"run ${i}"`)),
  );
};
const timedRuns = (count: number) => {
  const [, [truth, ...recordings]] = manyOf(3, 60);
  const once = judgeByTime(
    truth,
    recordings.map((recording) => ({ recording, receiver: recording.name, run: 'run' })),
  );
  return Array.from({ length: count }, (_, i): typeof once =>
    JSON.parse(JSON.stringify(once).replaceAll('"run":"run"', `"run":"run ${i}"`)),
  );
};

export const assessCases: readonly GrowthCase[] = [
  ...(['wandering', 'zigzag', 'spiral', 'back and forth', 'standing still'] as const).map(
    (shape): GrowthCase => ({
      of: 'assess',
      input: `${shape}, n fixes on n vertices`,
      kind: kindOf(shape),
      least: 100,
      ...(shape === 'standing still' && {
        stated: { exponent: 2, says: 'the warnings of a route grow with the square of its crossings' },
      }),
      make: (n) => {
        const [route, recording] = ride(shape, n);
        return () => assess(route, [recording]);
      },
    }),
  ),
  {
    of: 'assess',
    input: 'n receivers compared, 60 fixes each',
    kind: 'hostile',
    least: 2,
    stated: { exponent: 2, says: 'pairs grow with the square of the receivers' },
    make: (n) => {
      const [route, recordings] = manyOf(n, 60);
      return () => assess(route, recordings);
    },
  },
  {
    of: 'assess',
    input: 'n runs of one receiver, 60 fixes each',
    kind: 'hostile',
    least: 2,
    make: (n) => {
      const [route, recordings] = manyOf(n, 60);
      const carried = recordings.map((recording, i) => ({ recording, receiver: 'r', run: `${i}` }));
      return () => assess(route, carried);
    },
  },
  {
    of: 'assess',
    input: 'n laps of four sections of 8 m',
    kind: 'hostile',
    least: 8,
    make: (n) => {
      const route = squareLaps(n, 8, 'sections');
      const recording = along(route);
      return () => assess(route, [recording]);
    },
  },
  {
    of: 'assess',
    input: 'n laps of 1 m',
    kind: 'hostile',
    least: 80,
    stated: { exponent: 2, says: 'in the metres of the route within reach of a fix, up to 6 km' },
    make: (n) => {
      const route = squareLaps(n, 0.25);
      const recording = along(route);
      return () => assess(route, [recording]);
    },
  },
  {
    of: 'assess',
    input: 'n areas beside 1 km',
    kind: 'hostile',
    least: 20,
    make: (n) => {
      const [route, recording] = ride('wandering', 200);
      const kind: AreaKind = 'impossible';
      const features = Array.from({ length: n }, (_, i) => {
        const [east, north] = [20 * (i % 100), 20 * Math.floor(i / 100)];
        const coordinates = [
          [at(east, north), at(east + 10, north), at(east + 10, north + 10), at(east, north + 10), at(east, north)],
        ];
        return {
          type: 'Feature' as const,
          properties: { area: `a${i}`, kind },
          geometry: { type: 'Polygon' as const, coordinates },
        };
      });
      const areas = areasFromGeoJson({ type: 'FeatureCollection', features });
      return () => assess(route, [recording], { areas });
    },
  },
  {
    of: 'assess',
    input: 'n exclusions on 1 km',
    kind: 'hostile',
    least: 20,
    make: (n) => {
      const [route, recording] = ride('wandering', 200);
      const exclude = Array.from({ length: n }, (_, i) => ({
        from: (i * 900) / n,
        to: ((i + 0.5) * 900) / n,
        reason: 'works',
      }));
      return () => assess(route, [recording], { exclude });
    },
  },
  {
    of: 'assessAsync',
    input: 'wandering, n fixes on n vertices',
    kind: 'easy',
    least: 100,
    make: (n) => {
      const [route, recording] = ride('wandering', n);
      return () => assessAsync(route, [recording]);
    },
  },
  {
    of: 'rowOf',
    input: 'the last of n rows',
    kind: 'easy',
    least: 1000,
    make: (n) => {
      const { rows } = judgedMany(1);
      const many = [...Array(n - 1).fill({ ...rows[0], recording: 'another' }), rows[0]];
      return () => rowOf({ rows: many }, { recording: 'r0' });
    },
  },
  {
    of: 'runFigures',
    input: 'n receivers compared',
    kind: 'hostile',
    least: 2,
    stated: { exponent: 2, says: 'with the pairs of recordings of a run' },
    make: (n) => {
      const judged = judgedMany(n);
      return () => runFigures(judged);
    },
  },
  ...([combine, combineAsync] as const).map(
    (call): GrowthCase => ({
      of: call.name,
      input: 'n runs of three receivers',
      kind: 'easy',
      least: 5,
      make: (n) => {
        const all = runs(n);
        return () => call(all);
      },
    }),
  ),
  {
    of: 'combine',
    input: 'one run of n receivers',
    kind: 'hostile',
    least: 2,
    stated: { exponent: 2, says: 'with the square of the receivers' },
    make: (n) => {
      const judged = judgedMany(n);
      return () => combine([judged]);
    },
  },
  {
    of: 'combineByTime',
    input: 'n runs of two receivers',
    kind: 'easy',
    least: 5,
    make: (n) => {
      const all = timedRuns(n);
      return () => combineByTime(all);
    },
  },
  {
    of: 'guessTest',
    input: 'n recordings in runs of three',
    kind: 'easy',
    least: 30,
    stated: { exponent: 2, says: 'with the square of the recordings' },
    make: (n) => {
      const found = Array.from({ length: n }, (_, i) => ({
        file: `run ${Math.floor(i / 3)}/r${i % 3}.gpx`,
        name: `receiver ${'abc'[i % 3]}`,
        span: [1e7 * Math.floor(i / 3), 1e7 * Math.floor(i / 3) + 1e6] as const,
      }));
      return () => guessTest(found);
    },
  },
  {
    of: 'guessTest',
    input: 'n recordings of one run, names that begin alike',
    kind: 'hostile',
    least: 10,
    stated: { exponent: 2, says: 'with the square of the recordings' },
    make: (n) => {
      const found = Array.from({ length: n }, (_, i) => ({
        file: `alder ${'x'.repeat(i % 50)}${i}y.gpx`,
        name: `alder ${'x'.repeat(i % 50)}${i}y`,
      }));
      return () => guessTest(found);
    },
  },
  {
    of: 'checkTestFile',
    input: 'n runs of three recordings',
    kind: 'easy',
    least: 100,
    make: (n) => {
      const recordings = ['a', 'b', 'c'].map((receiver) => ({ file: `${receiver}.gpx`, receiver }));
      const test = {
        version: 1,
        route: 'route.json',
        runs: Array.from({ length: n }, (_, i) => ({ name: `${i}`, recordings })),
      };
      return () => checkTestFile(test);
    },
  },
  {
    of: 'planTest',
    input: 'two receivers, n runs',
    kind: 'easy',
    least: 1,
    make: (n) => () =>
      planTest({ sigma: 5, correlationTime: 30, seconds: 600, difference: 4, runs: n, betweenRuns: 0.3 }),
  },
  {
    of: 'planTest',
    input: 'two receivers, n × 60 s',
    kind: 'easy',
    least: 4,
    make: (n) => () => planTest({ sigma: 5, correlationTime: 30, seconds: 60 * n, difference: 4 }),
  },
  ...(['wandering', 'standing still'] as const).flatMap((shape): GrowthCase[] => [
    {
      of: 'errorsByTime',
      input: `${shape}, n fixes, a truth of as many`,
      kind: kindOf(shape),
      least: 500,
      make: (n) => {
        const [truth, recording] = [recordingOf(shapes[shape](n)), recordingOf(told(shapes[shape](n)))];
        return () => errorsByTime(truth, recording);
      },
    },
    {
      of: 'judgeByTime',
      input: `${shape}, n fixes, a truth of as many`,
      kind: kindOf(shape),
      least: 300,
      make: (n) => {
        const [truth, recording] = [recordingOf(shapes[shape](n)), recordingOf(told(shapes[shape](n)))];
        return () => judgeByTime(truth, [recording]);
      },
    },
  ]),
  {
    of: 'judgeByTime',
    input: 'n receivers compared, 60 fixes each',
    kind: 'hostile',
    least: 2,
    stated: { exponent: 2, says: 'grows with the square of their number' },
    make: (n) => {
      const [, [truth, ...recordings]] = manyOf(n + 1, 60);
      return () => judgeByTime(truth, recordings);
    },
  },
];
