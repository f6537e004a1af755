import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { simplify } from '@turf/turf';
import fc from 'fast-check';
import type { Position } from 'geojson';
import { describe, expect, test } from 'vitest';
import { type Recording, readGpx } from '../../src/subpaths/formats';
import { inverse, localPlane } from '../../src/subpaths/geodesy';
import { type Route, reverseRoute, routeFromLine } from '../../src/subpaths/route';
import { indexRoute, type Snapped, snap } from '../../src/subpaths/snap';
import { plainRuns, recordRun } from '../support/plainRuns';
import { figureOfEight, lapsThenOutAndBack, parallelStreets } from '../support/planeRoute';
import { type RunOptions, type SimulatedRecording, simulateRun } from '../support/simulateRun';

// never used while the constants of the matching were chosen
const seeds = [901, 902, 903, 904, 905, 906, 907, 908];
const laps = lapsThenOutAndBack([5, 52]);

function shareRight({ alongTrack }: Snapped, truth: Float64Array): number {
  return alongTrack.filter((s, i) => Math.abs(s - truth[i]) <= 30).length / truth.length;
}

function runs(route: Route, options: Omit<RunOptions, 'seed'>): { run: SimulatedRecording; snapped: Snapped }[] {
  return seeds.map((seed) => {
    const [run] = simulateRun(route, { ...options, seed });
    return { run, snapped: snap(route, run.recording) };
  });
}

const mean = (values: ArrayLike<number>) => Array.from(values).reduce((a, b) => a + b, 0) / values.length;

describe('fixes within 30 m of the true place along the route, 8 seeds', () => {
  test.each(plainRuns.map((run) => [run.name, run] as const))('%s', (_, run) => {
    for (const sigma of run.sigmas) {
      const all = seeds.map((seed) => {
        const recorded = recordRun(run, sigma, seed);
        return { recorded, snapped: snap(run.route, recorded.recording) };
      });
      const shares = all.map(({ recorded, snapped }) => shareRight(snapped, recorded.alongTrack));
      expect(mean(shares), `sigma ${sigma}, mean`).toBeGreaterThanOrEqual(0.998);
      expect(Math.min(...shares), `sigma ${sigma}, worst`).toBeGreaterThanOrEqual(0.995);
      // none of them ever left the route
      for (const { snapped } of all) expect(new Set(snapped.state)).toEqual(new Set(['on']));
    }
  });
});

describe('offset and side', () => {
  /** The foot of each fix on the stretch where the body truly was. */
  function trueCrossTrack(route: Route, { recording, alongTrack }: SimulatedRecording): Float64Array {
    const index = indexRoute(route);
    return alongTrack.map((s, i) => {
      const between = { from: Math.max(s - 25, 0), to: Math.min(s + 25, route.length) };
      return index.nearest([recording.lon[i], recording.lat[i]], { between })!.crossTrack;
    });
  }

  test.each([5, 10])('a bias of 5 m to the right comes back, sigma %d', (sigma) => {
    const all = runs(laps, { receivers: [{ sigma, bias: 5 }] });
    for (const { run, snapped } of all) {
      expect(Math.abs(mean(snapped.crossTrack) - mean(trueCrossTrack(laps, run)))).toBeLessThanOrEqual(0.3);
    }
  });

  test.each([1, 5, 10])(
    'carried 5 m further to the right, the same errors, sigma %d: so much further right',
    (sigma) => {
      const meansOf = (bias: number) =>
        runs(laps, { receivers: [{ sigma, bias }] }).map(({ snapped }) => mean(snapped.crossTrack));
      const there = meansOf(0);
      meansOf(5).forEach((offset, i) => {
        expect(Math.abs(offset - there[i] - 5)).toBeLessThanOrEqual(0.3);
      });
    },
  );

  test.each([
    ['right', 1],
    ['left', -1],
  ])('%s is told from the other side where the offset exceeds 2 sigma', (_, side) => {
    const sides = runs(laps, { receivers: [{ sigma: 3, bias: 7 * side }] }).flatMap(({ snapped }) =>
      Array.from(snapped.crossTrack, (offset) => Math.sign(offset) === side),
    );
    // the noise itself crosses the line in 1 % of fixes at 7/3 sigma
    expect(mean(sides.map(Number))).toBeGreaterThanOrEqual(0.985);
    for (const { run, snapped } of runs(laps, { receivers: [{ sigma: 5, bias: 12 * side }] })) {
      const truth = trueCrossTrack(laps, run);
      const clear = Array.from(truth, (offset, i) =>
        Math.abs(offset) > 10 ? [Math.sign(offset) === Math.sign(snapped.crossTrack[i])] : [],
      ).flat();
      expect(mean(clear.map(Number))).toBeGreaterThanOrEqual(0.99);
    }
  });

  test('without noise every fix lies where the body was', () => {
    const [run] = simulateRun(laps, { seed: 1, receivers: [{ sigma: 0, bias: 3 }] });
    const { alongTrack, crossTrack, distance } = snap(laps, run.recording);
    alongTrack.forEach((s, i) => {
      const tip = Math.abs(run.alongTrack[i] - (laps.length - 450)) < 6;
      if (!tip) expect(Math.abs(s - run.alongTrack[i])).toBeLessThan(4);
      expect(distance[i]).toBeLessThanOrEqual(3 + 1e-6);
      if (!tip) expect(Math.abs(crossTrack[i] - 3)).toBeLessThan(0.5);
    });
  });
});

describe('what can not be told is said', () => {
  test.each(seeds)('a lap missing while the clock stood still is ambiguous, seed %d', (seed) => {
    const gaps = [{ from: 234, to: 402 }];
    const [run] = simulateRun(laps, { seed, receivers: [{ sigma: 8, clock: 'collapsed', gaps }] });
    const { alongTrack, ambiguous, confidence } = snap(laps, run.recording);
    const gap = run.recording.gapBefore.indexOf(1, 1);
    const around = ambiguous.find(({ firstFix, lastFix }) => firstFix < gap && lastFix >= gap);
    expect(around).toMatchObject({ reason: 'repeated-pass', message: expect.stringContaining('more than once') });
    expect(Math.abs(Math.abs(around!.shift) - 503)).toBeLessThan(40);
    for (let i = 0; i < alongTrack.length; i++) {
      if (Math.abs(alongTrack[i] - run.alongTrack[i]) > 60) expect(confidence[i]).toBeLessThan(0.9);
    }
  });

  test('nothing is ambiguous while the clock is kept', () => {
    const gaps = [{ from: 234, to: 402 }];
    for (const { snapped } of runs(laps, { receivers: [{ sigma: 8, gaps }] })) {
      expect(snapped.ambiguous).toEqual([]);
      expect(Math.min(...snapped.confidence)).toBeGreaterThan(0.9);
    }
  });

  test('a mark with a time pins the place: the lap after it is no longer open', () => {
    const gaps = [{ from: 234, to: 402 }];
    // seeds whose open lap is guessed wrong without the mark
    for (const seed of [101, 104, 107]) {
      const [run] = simulateRun(laps, { seed, receivers: [{ sigma: 8, clock: 'collapsed', gaps }] });
      const marks = [{ name: 'press', alongTrack: run.alongTrack[240], time: run.recording.time![240] }];
      const [open, pinned] = [laps, { ...laps, marks }].map((route) => snap(route, run.recording));
      expect(shareRight(open, run.alongTrack)).toBeLessThan(0.9);
      for (let i = 240; i < run.alongTrack.length; i++) {
        expect(Math.abs(pinned.alongTrack[i] - run.alongTrack[i])).toBeLessThan(30);
        expect(pinned.confidence[i]).toBeGreaterThan(0.9);
      }
    }
  });
});

test('times that are missing here and there, stand still or run back do no harm', () => {
  for (const seed of seeds) {
    const [{ recording, alongTrack }] = simulateRun(laps, { seed, receivers: [{ sigma: 8 }] });
    const time = recording.time!.map((instant, i) => {
      if (i % 3 === 1 || (i > 400 && i < 440)) return Number.NaN;
      return i % 50 === 0 ? instant - 4000 : i % 70 === 0 ? recording.time![i - 1] : instant;
    });
    const snapped = snap(laps, { ...recording, time });
    expect(shareRight(snapped, alongTrack)).toBeGreaterThanOrEqual(0.995);
    expect(snapped.ambiguous).toEqual([]);
  }
});

test('whatever is recorded, the columns hold what they promise', () => {
  const routes = [laps, figureOfEight([180, 80]), parallelStreets([0, 0])];
  const fix = fc.record({
    east: fc.integer({ min: -400, max: 900 }),
    north: fc.integer({ min: -300, max: 500 }),
    wait: fc.oneof(fc.integer({ min: -5, max: 20 }), fc.constant(Number.NaN), fc.constant(0), fc.constant(4000)),
    gap: fc.integer({ min: 0, max: 1 }),
  });
  const origins: Position[] = [
    [5, 52],
    [180, 80],
    [0, 0],
  ];
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 2 }), fc.array(fix, { maxLength: 40 }), fc.boolean(), (at, fixes, timed) => {
      const { toPosition } = localPlane(origins[at]);
      const positions = fixes.map(({ east, north }) => toPosition([east, north]));
      let clock = 1e12;
      const recording: Recording = {
        name: 'anything',
        lon: Float64Array.from(positions, ([lon]) => lon),
        lat: Float64Array.from(positions, ([, lat]) => lat),
        ...(timed && {
          time: Float64Array.from(fixes, ({ wait }) => (wait > 0 ? (clock += 1000 * wait) : clock + wait)),
        }),
        gapBefore: Uint8Array.from(fixes, ({ gap }) => gap),
        issues: [],
        source: { format: 'csv' },
        attributes: {},
      };
      const route = routes[at];
      const { alongTrack, crossTrack, distance, footAlongTrack, segment, state, confidence, ambiguous } = snap(
        route,
        recording,
      );
      for (const column of [alongTrack, crossTrack, distance, footAlongTrack, segment, state, confidence]) {
        expect(column.length).toBe(fixes.length);
      }
      state.forEach((word, i) => {
        for (const column of [alongTrack, crossTrack, distance, footAlongTrack])
          expect(Number.isNaN(column[i])).toBe(word !== 'on');
        expect(segment[i] >= 0).toBe(word === 'on');
        expect(confidence[i]).toBeGreaterThanOrEqual(0);
        expect(confidence[i]).toBeLessThanOrEqual(1);
        if (word !== 'on') return;
        expect(alongTrack[i]).toBeGreaterThanOrEqual(0);
        expect(alongTrack[i]).toBeLessThanOrEqual(route.length);
        expect(Math.abs(crossTrack[i])).toBe(distance[i]);
        expect(footAlongTrack[i]).toBeGreaterThanOrEqual(route.alongTrack[segment[i]]);
        expect(footAlongTrack[i]).toBeLessThanOrEqual(route.alongTrack[segment[i] + 1]);
      });
      for (const { from, to, shift } of ambiguous) {
        expect(from).toBeLessThanOrEqual(to);
        expect(Number.isFinite(shift)).toBe(true);
      }
    }),
    { seed: 52, numRuns: 300 },
  );
});

test('reversing route and recording mirrors the places', () => {
  const [{ recording }] = simulateRun(laps, { seed: 6 });
  const there = snap(laps, recording);
  const back = snap(reverseRoute(laps), {
    ...recording,
    lon: recording.lon.slice().reverse(),
    lat: recording.lat.slice().reverse(),
    time: recording.time!.map((time) => -time).reverse(),
  });
  const n = recording.lon.length;
  const same = there.footAlongTrack.filter(
    (s, i) => Math.abs(s + back.footAlongTrack[n - 1 - i] - laps.length) < 1e-3,
  ).length;
  expect(same / n).toBeGreaterThan(0.97); // the turning point and the corners leave a choice
});

test.each([
  [{ sigma: 0 }, 'out-of-range', 'options.sigma must be'],
  [{ maxDistance: Number.NaN }, 'not-finite', 'options.maxDistance must be'],
  [{ sigm: 4 } as object, 'unknown-key', 'options.sigm must be'],
])('options %o are refused', (options, reason, message) => {
  const [{ recording }] = simulateRun(laps, { seed: 1, to: 50 });
  expect(() => snap(laps, recording, options)).toThrow(
    expect.objectContaining({ reason, message: expect.stringContaining(message) }),
  );
});

test.each([
  [Number.NaN, 'not-finite'],
  [null, 'wrong-type'],
  ['52', 'wrong-type'],
  [90.5, 'swapped'],
])('a latitude %o is refused by the number of its fix', (value, reason) => {
  const [{ recording }] = simulateRun(laps, { seed: 1, to: 50 });
  const lat: unknown[] = Array.from(recording.lat);
  lat[3] = value;
  expect(() => snap(laps, { ...recording, lat: lat as unknown as Float64Array })).toThrow(
    expect.objectContaining({ reason, argument: 'recording fixes[3] latitude' }),
  );
});

// npm gpx-parse 0.10.4, tests/integration/data/route-1.1.gpx, MIT: a real recording of 7 745 fixes; no place of it is shown.
test('a real recording moves on along its own thinned line and never jumps where it did not', () => {
  const folder = dirname(createRequire(import.meta.url).resolve('gpx-parse/package.json'));
  const [recording] = readGpx(readFileSync(join(folder, 'tests/integration/data/route-1.1.gpx'), 'utf8'), {
    name: 'real',
  });
  const coordinates = Array.from(recording.lon, (lon, i) => [lon, recording.lat[i]]);
  const line = simplify({ type: 'LineString', coordinates }, { tolerance: 10 / 111_195, highQuality: true });
  const route = routeFromLine(line);
  const { alongTrack, state } = snap(route, recording);
  expect(state.filter((word) => word === 'on').length / state.length).toBeGreaterThan(0.999);
  let furthest = 0;
  let last = -1;
  for (let i = 0; i < alongTrack.length; i++) {
    if (state[i] !== 'on') continue;
    if (last >= 0) {
      const moved = Math.abs(alongTrack[i] - alongTrack[last]);
      expect(moved).toBeLessThan(inverse(coordinates[last], coordinates[i]).distance + 100);
    }
    // it never went back; where it stood, it may waver
    expect(alongTrack[i]).toBeGreaterThan(furthest - 1);
    furthest = Math.max(furthest, alongTrack[i]);
    last = i;
  }
  expect(alongTrack[last]).toBeGreaterThan(0.99 * route.length);
});
