import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Recording, Route } from '../../src/model';
import { localPlane } from '../../src/subpaths/geodesy';
import { routeFromLine } from '../../src/subpaths/route';
import {
  type FollowedFix,
  type FollowedPlace,
  type Follower,
  type FollowRouteOptions,
  followRoute,
  places,
  resumeFollowing,
  type SavedFollower,
  type SettledPlace,
  snap,
} from '../../src/subpaths/snap';
import { cutAcross, hardRides, lapsRide, skippedLoop } from '../support/hardRides';
import { plainRuns, recordRun } from '../support/plainRuns';
import { lapsThenOutAndBack, type PlanePoint } from '../support/planeRoute';
import { type RideOptions, simulateRide } from '../support/simulateRide';

/** Never used while the constants of the following were chosen; those were 3, 5 and 11 to 18. */
const HELD_BACK = 41;

interface Ride {
  readonly route: Route;
  readonly recording: Recording;
  readonly alongTrack: Float64Array;
}

function fixesOf({ lon, lat, time, gapBefore }: Recording): FollowedFix[] {
  return Array.from(lon, (_, i) => ({
    position: [lon[i], lat[i]],
    ...(time && !Number.isNaN(time[i]) && { time: time[i] }),
    gapBefore: gapBefore[i] === 1 ? 1 : 0,
  }));
}

/** What a ride answers at once, and what has settled; the latter as it comes, then the rest. */
function follow(route: Route, fixes: readonly FollowedFix[], options?: FollowRouteOptions) {
  const follower = followRoute(route, options);
  const settled: SettledPlace[] = [];
  const atOnce = fixes.map((fix) => {
    const place = follower.push(fix);
    if (options?.lag !== Infinity) settled.push(...follower.settled());
    return place;
  });
  const before = settled.length;
  settled.push(...follower.end());
  return { follower, atOnce, settled, before };
}

const every: readonly { readonly name: string; readonly rides: readonly Ride[] }[] = [
  ...plainRuns.map((run) => ({
    name: run.name,
    rides: run.sigmas.flatMap((sigma) =>
      [HELD_BACK].map((seed) => ({ route: run.route, ...recordRun(run, sigma, seed) })),
    ),
  })),
  ...Object.entries(hardRides).map(([name, make]) => ({ name, rides: make(12, HELD_BACK) })),
];

describe('the right pass', () => {
  const near = (place: number, truth: number) => Math.abs(place - truth) <= 60;
  const judged = every.map(({ name, rides }) => {
    const count = { name, atOnce: 0, placedAtOnce: 0, settled: 0, placedSettled: 0 };
    for (const { route, recording, alongTrack } of rides) {
      const { atOnce, settled } = follow(route, fixesOf(recording));
      atOnce.forEach(({ located }, i) => {
        if (located === undefined || Number.isNaN(alongTrack[i])) return;
        count.placedAtOnce++;
        if (near(located.alongTrack, alongTrack[i])) count.atOnce++;
      });
      for (const { index, alongTrack: place } of settled) {
        if (place === undefined || Number.isNaN(alongTrack[index])) continue;
        count.placedSettled++;
        if (near(place, alongTrack[index])) count.settled++;
      }
    }
    return count;
  });
  const sum = (key: 'atOnce' | 'placedAtOnce' | 'settled' | 'placedSettled', of = judged) =>
    of.reduce((total, count) => total + count[key], 0);

  test('of all scenarios: at once 98 %, settled 99.8 %', () => {
    expect(sum('placedSettled')).toBeGreaterThan(30_000);
    expect(sum('atOnce') / sum('placedAtOnce')).toBeGreaterThanOrEqual(0.98);
    expect(sum('settled') / sum('placedSettled')).toBeGreaterThanOrEqual(0.998);
  });

  test.each(plainRuns.map(({ name }) => name))('%s: at once 98 %%, settled 99.8 %%', (name) => {
    const one = judged.filter((count) => count.name === name);
    expect(sum('atOnce', one) / sum('placedAtOnce', one)).toBeGreaterThanOrEqual(0.98);
    expect(sum('settled', one) / sum('placedSettled', one)).toBeGreaterThanOrEqual(0.998);
  });
});

// 2026-11-29: a lap not ridden yet was held to scatter more, as nothing was known of it, and so to fit better, fix after fix
test.each([
  [1, 4],
  [1.4, 2],
])('walked at %d m/s with errors of %d m, laps that are sections of their own are told apart', (pace, sigma) => {
  const lap: PlanePoint[] = [
    [0, 0],
    [400, 0],
    [400, 200],
    [0, 200],
  ];
  const points = [...lap, ...lap, ...lap, lap[0]];
  for (let seed = 0; seed < 6; seed++) {
    const { route, recording, alongTrack } = simulateRide(points, { seed: HELD_BACK + seed, pace, sigma });
    const third = route.length / 3;
    const sections = [0, 1, 2].map((k) => ({ name: `lap ${k + 1}`, from: k * third, to: (k + 1) * third }));
    const { settled } = follow({ ...route, sections }, fixesOf(recording));
    const elsewhere = settled.filter(
      ({ index, alongTrack: place }) => place === undefined || Math.abs(place - alongTrack[index]) > 60,
    );
    expect(elsewhere).toEqual([]);
  }
});

test.each([
  [30, 0.992],
  [120, 0.995],
])('a loop left out is left at its crossing, settled after %d s: %f of the fixes, on seeds held back', (lag, least) => {
  let all = 0;
  let right = 0;
  for (const { route, recording, alongTrack } of hardRides['a loop left out at its crossing'](60, 9301)) {
    for (const { index, alongTrack: place } of follow(route, fixesOf(recording), { lag }).settled) {
      if (place === undefined || Number.isNaN(alongTrack[index])) continue;
      all++;
      if (Math.abs(place - alongTrack[index]) <= 60) right++;
    }
  }
  expect(all).toBeGreaterThan(9_000);
  // an error along the route of 0.8 σ at the crossing, at 3 m a second, is 1.5 fixes a ride: 0.9965 at best
  expect(right / all).toBeGreaterThanOrEqual(least);
});

describe('with a lag that never ends the settled places are those of snap', () => {
  const same = ({ route, recording }: Ride) => {
    const { settled } = follow(route, fixesOf(recording), { lag: Infinity });
    const expected = [...places(snap(route, recording))];
    expect(settled.map(({ lag: _, ...place }) => place)).toEqual(expected);
    expect(settled.map(({ lag }) => lag)).toEqual(settled.map((_, i) => settled.length - 1 - i));
  };

  test.each(every.map(({ name, rides }) => [name, rides] as const))('%s', (_, rides) => {
    same(rides[0]);
  });

  const square: PlanePoint[] = [
    [0, 0],
    [400, 0],
    [400, 300],
    [0, 300],
    [0, 20],
  ];
  test.each(['minutes', 'one', 'back', 'none'] as const)('a clock that can not be trusted: %s', (clock) => {
    same(simulateRide(square, { seed: 77, sigma: 5, clock }));
  });

  test('ridden against the line, marks with times, options of its own', () => {
    const { route } = simulateRide(square, { seed: 1 });
    const { recording, alongTrack } = simulateRide([...square].reverse(), { seed: 2 });
    same({ route, recording, alongTrack });
    const marks = [{ name: 'press', alongTrack: 100, time: recording.time![100] }];
    same({ route: { ...route, marks }, recording, alongTrack });
    const { settled } = follow(route, fixesOf(recording), { lag: Infinity, sigma: 4, maxDistance: 30 });
    const expected = [...places(snap(route, recording, { sigma: 4, maxDistance: 30 }))];
    expect(settled.map(({ lag: _, ...place }) => place)).toEqual(expected);
  });

  test('asked for in the middle, those of the fixes so far; what is answered at once is that of any lag', () => {
    const { route, recording } = simulateRide(square, { seed: 3 });
    const fixes = fixesOf(recording);
    const [endless, usual] = [followRoute(route, { lag: Infinity }), followRoute(route)];
    fixes.slice(0, 200).forEach((fix) => {
      expect(endless.push(fix)).toEqual(usual.push(fix));
    });
    const { lon, lat, time, gapBefore } = recording;
    const columns = { lon: lon.slice(0, 200), lat: lat.slice(0, 200), time: time!.slice(0, 200) };
    const part = { ...recording, ...columns, gapBefore: gapBefore.slice(0, 200) };
    const expected = [...places(snap(route, part))];
    expect(endless.settled().map(({ lag: _, ...place }) => place)).toEqual(expected);
  });
});

const laps = lapsThenOutAndBack([5, 52]);
const { toPosition } = localPlane([5, 52]);

/** Fixes anywhere, at any time. */
const anyFixes = fc.array(
  fc.record({
    east: fc.integer({ min: -400, max: 900 }),
    north: fc.integer({ min: -300, max: 500 }),
    wait: fc.oneof(
      fc.integer({ min: -5, max: 20 }),
      fc.constantFrom(0, 3600, 1e9, -4000),
      fc.constant<number | undefined>(undefined),
    ),
    accuracy: fc.option(fc.constantFrom(3, 40, 200, 2000), { nil: undefined }),
    gapBefore: fc.constantFrom<0 | 1>(0, 1),
    again: fc.boolean(),
  }),
  { maxLength: 60 },
);

function written(drawn: typeof anyFixes extends fc.Arbitrary<infer T> ? T : never): FollowedFix[] {
  let clock = 1e12;
  let last: FollowedFix | undefined;
  return drawn.map(({ east, north, wait, accuracy, gapBefore, again }) => {
    if (again && last) return last;
    if (wait !== undefined) clock += 1000 * wait;
    last = {
      position: toPosition([east, north]),
      ...(wait !== undefined && { time: clock }),
      ...(accuracy !== undefined && { accuracy }),
      gapBefore,
    };
    return last;
  });
}

/** That what it answered is what its types say, and nothing is NaN. */
function sound(route: Route, { state, located, confidence, alternatives }: FollowedPlace): void {
  expect(located !== undefined).toBe(state === 'on');
  expect(confidence >= 0 && confidence <= 1).toBe(true);
  expect(alternatives.length).toBeLessThanOrEqual(3);
  let rest = 1 - confidence + 1e-9;
  for (const one of alternatives) rest -= one.confidence;
  // a time that is not believed takes from the first alone
  expect(rest).toBeGreaterThanOrEqual(-0.051);
  for (const place of [located, ...alternatives.map((one) => one.located)]) {
    if (place === undefined) continue;
    expect(place.alongTrack >= 0 && place.alongTrack <= route.length).toBe(true);
    expect(Math.abs(place.crossTrack)).toBe(place.distance);
  }
}

describe('whatever is pushed', () => {
  test('answers hold what they promise, and every fix settles once, in order, the lag after it', () => {
    fc.assert(
      fc.property(anyFixes, fc.constantFrom(0, 10, 30, 300), (drawn, lag) => {
        const fixes = written(drawn);
        const { atOnce, settled } = follow(laps, fixes, { lag });
        for (const place of atOnce) sound(laps, place);
        expect(settled.map(({ index }) => index)).toEqual(fixes.map((_, i) => i));
        for (const { state, alongTrack, crossTrack, distance, confidence } of settled) {
          expect(alongTrack !== undefined).toBe(state === 'on');
          expect(confidence >= 0 && confidence <= 1).toBe(true);
          if (state !== 'on') continue;
          expect(alongTrack! >= 0 && alongTrack! <= laps.length).toBe(true);
          expect(Math.abs(crossTrack!)).toBe(distance);
        }
      }),
      { seed: 52, numRuns: 200 },
    );
  });

  test('stopped anywhere and gone on from plain JSON, it answers as without stopping', () => {
    fc.assert(
      fc.property(
        anyFixes,
        fc.array(fc.nat(60), { maxLength: 3 }),
        fc.constantFrom(0, 20, Infinity),
        (drawn, at, lag) => {
          const fixes = written(drawn);
          const whole = followRoute(laps, { lag });
          let stopped: Follower = followRoute(laps, { lag });
          fixes.forEach((fix, i) => {
            if (at.includes(i)) stopped = resumeFollowing(laps, JSON.parse(JSON.stringify(stopped.save())));
            expect(stopped.push(fix)).toEqual(whole.push(fix));
            if (i % 7 === 0) expect(stopped.settled()).toEqual(whole.settled());
          });
          expect(stopped.save()).toEqual(whole.save());
          expect(stopped.end()).toEqual(whole.end());
        },
      ),
      { seed: 53, numRuns: 100 },
    );
  });

  test('stopped again and again on rides with all that a receiver learns of itself', () => {
    for (const ride of [cutAcross(60, { seed: 9 }), lapsRide(3, 2, { seed: 10, sigma: 12, tail: 600 })]) {
      const whole = followRoute(ride.route);
      let stopped: Follower = followRoute(ride.route);
      fixesOf(ride.recording).forEach((fix, i) => {
        if (i % 23 === 0) stopped = resumeFollowing(ride.route, JSON.parse(JSON.stringify(stopped.save())));
        expect(stopped.push(fix)).toEqual(whole.push(fix));
        expect(stopped.settled()).toEqual(whole.settled());
      });
    }
  });
});

/** A street of so many metres east, on foot. */
const street = (metres: number, options: RideOptions) =>
  simulateRide(
    [
      [0, 0],
      [metres, 0],
    ],
    options,
  );

describe('the lag', () => {
  test('of 30 s: each place settles with the first fix that is 30 s later', () => {
    const { route, recording } = street(900, { seed: 4 });
    const { settled, before } = follow(route, fixesOf(recording));
    expect(settled.slice(0, before).map(({ lag }) => lag)).toEqual(new Array(before).fill(30));
    expect(before).toBe(settled.length - 30);
  });

  test('none: each place settles with its own fix', () => {
    const { route, recording } = street(300, { seed: 4 });
    const { settled } = follow(route, fixesOf(recording), { lag: 0 });
    expect(new Set(settled.map(({ lag }) => lag))).toEqual(new Set([0]));
  });

  test('the places settled at the end are those that go on from there; settled ones are told once', () => {
    const { route, recording } = street(300, { seed: 4 });
    const fixes = fixesOf(recording);
    const follower = followRoute(route);
    for (const fix of fixes.slice(0, 50)) follower.push(fix);
    expect(follower.end().map(({ index }) => index)).toEqual(Array.from({ length: 50 }, (_, i) => i));
    expect([...follower.settled(), ...follower.end()]).toEqual([]);
    expect(follower.push(fixes[50]).state).toBe('on');
    expect(follower.end().map(({ index }) => index)).toEqual([50]);
  });
});

describe('times', () => {
  const place = (answers: readonly FollowedPlace[]) => answers.map(({ located }) => located?.alongTrack ?? Number.NaN);

  test.each(['minutes', 'one', 'back'] as const)('%s: by order and displacement, 0.95 at most', (clock) => {
    const { route, recording, alongTrack } = street(1_200, { seed: 5, sigma: 3, clock });
    const { atOnce } = follow(route, fixesOf(recording));
    place(atOnce).forEach((s, i) => {
      expect(Math.abs(s - alongTrack[i])).toBeLessThan(25);
    });
    const mistrusted = atOnce.filter(({ confidence }) => confidence <= 0.95).length;
    expect(mistrusted / atOnce.length).toBeGreaterThan(0.9);
  });

  test('a clock set back by an hour is believed again from the third fix on', () => {
    const { route, recording } = street(900, { seed: 6, sigma: 2 });
    const fixes = fixesOf(recording).map((fix, i) => (i < 100 ? fix : { ...fix, time: fix.time! - 3_600_000 }));
    const { atOnce } = follow(route, fixes);
    const unsure = atOnce.flatMap(({ confidence }, i) => (confidence <= 0.95 ? [i] : []));
    expect(unsure).toEqual([100, 101, 102]);
    const { atOnce: usual } = follow(route, fixesOf(recording));
    place(atOnce).forEach((s, i) => {
      expect(Math.abs(s - place(usual)[i])).toBeLessThan(15);
    });
  });

  test('one time years ahead costs three fixes their trust, and no place', () => {
    const { route, recording, alongTrack } = street(900, { seed: 7, sigma: 2 });
    const fixes = fixesOf(recording).map((fix, i) => (i === 100 ? { ...fix, time: fix.time! + 1e11 } : fix));
    const { atOnce } = follow(route, fixes);
    expect(atOnce.flatMap(({ confidence }, i) => (confidence <= 0.95 ? [i] : []))).toEqual([101, 102, 103]);
    place(atOnce).forEach((s, i) => {
      expect(Math.abs(s - alongTrack[i])).toBeLessThan(20);
    });
  });

  test('a fix pushed twice changes nothing that comes after', () => {
    const { route, recording } = street(900, { seed: 8 });
    const fixes = fixesOf(recording);
    const once = place(follow(route, fixes).atOnce);
    const twice = place(
      follow(
        route,
        fixes.flatMap((fix) => [fix, { ...fix, gapBefore: 0 as const }]),
      ).atOnce,
    );
    expect(twice.filter((_, i) => i % 2 === 0)).toEqual(once);
    expect(twice.filter((_, i) => i % 2 === 1)).toEqual(once);
  });

  test('after an hour without a fix it is where the fix is, wherever that is on the route', () => {
    const { route, recording, alongTrack } = street(4_000, { seed: 9, sigma: 3 });
    const all = fixesOf(recording);
    const fixes = [...all.slice(0, 100), ...all.slice(900).map((fix) => ({ ...fix, time: fix.time! + 3_600_000 }))];
    const truth = [...alongTrack.slice(0, 100), ...alongTrack.slice(900)];
    const { atOnce, settled } = follow(route, fixes);
    place(atOnce).forEach((s, i) => {
      expect(Math.abs(s - truth[i]), `${i}`).toBeLessThan(20);
    });
    expect(settled[99].lag).toBe(1);
  });
});

describe('jumps and stretches left out', () => {
  test('thrown 100 m across for 10 s, it stays on its pass', () => {
    const push = { at: 100, seconds: 10, ramp: 0, by: [0, 100] as const };
    const { route, recording, alongTrack } = street(900, { seed: 10, sigma: 3, pushes: [push] });
    const { atOnce, settled } = follow(route, fixesOf(recording));
    atOnce.forEach(({ state, located }, i) => {
      const thrown = i >= 100 && i < 110;
      expect(state).toBe(thrown ? 'off' : 'on');
      if (!thrown) expect(Math.abs(located!.alongTrack - alongTrack[i])).toBeLessThan(25);
    });
    expect(settled.filter(({ state }) => state === 'off').map(({ index }) => index)).toEqual(
      Array.from({ length: 10 }, (_, k) => 100 + k),
    );
  });

  test('on a way 45 m beside for two minutes, it is off: at once after a while, settled from further back', () => {
    const push = { at: 100, seconds: 120, ramp: 0, by: [0, 45] as const };
    const { route, recording } = street(1_200, { seed: 11, sigma: 3, pushes: [push] });
    const { atOnce, settled } = follow(route, fixesOf(recording));
    const first = atOnce.findIndex(({ state }) => state === 'off');
    const firstSettled = settled.findIndex(({ state }) => state === 'off');
    expect(first).toBeGreaterThan(105);
    expect(first).toBeLessThan(150);
    expect(firstSettled).toBe(Math.max(first - 30, 100));
    expect(settled.slice(firstSettled, 220).every(({ state }) => state === 'off')).toBe(true);
    expect(settled.slice(225).every(({ state }) => state === 'on')).toBe(true);
  });

  test.each([
    ['a loop left out', skippedLoop(600, { seed: 12, sigma: 3 })],
    ['cut across to the way back', cutAcross(100, { seed: 13, sigma: 3 })],
  ])('%s: found within a minute, and no fix is lost', (_, { route, recording, alongTrack }) => {
    const { atOnce, settled } = follow(route, fixesOf(recording));
    expect(settled.length).toBe(atOnce.length);
    const wrong = atOnce.filter(
      ({ located }, i) => located !== undefined && Math.abs(located.alongTrack - alongTrack[i]) > 60,
    );
    expect(wrong.length).toBeLessThan(60);
    const tail = atOnce.slice(-60).map(({ located }, k) => located!.alongTrack - alongTrack[atOnce.length - 60 + k]);
    expect(Math.max(...tail.map(Math.abs))).toBeLessThan(30);
  });

  test('one of three laps skipped: on the tail in the end, and the laps are alternatives of each other', () => {
    const { route, recording, alongTrack } = lapsRide(3, 2, { seed: 14, sigma: 3, tail: 600 });
    const { atOnce } = follow(route, fixesOf(recording));
    const n = atOnce.length;
    expect(Math.abs(atOnce[n - 1].located!.alongTrack - alongTrack[n - 1])).toBeLessThan(30);
    // the first fix that has left the laps lies near all three ends of them
    const shares = atOnce.flatMap(({ alternatives }) => alternatives.map(({ confidence }) => confidence));
    expect(Math.max(...shares)).toBeGreaterThan(0.05);
  });
});

describe('accuracy', () => {
  test('too coarse, the fix is not placed; coarse, it moves the place less', () => {
    const { route, recording, alongTrack } = street(900, { seed: 15, sigma: 2 });
    const aside = (accuracy: number | undefined) =>
      fixesOf(recording).map((fix, i) => {
        if (i !== 120) return fix;
        const position = [fix.position[0] + 0.0012, fix.position[1]];
        return { ...fix, position, ...(accuracy !== undefined && { accuracy }) };
      });
    const { atOnce, settled } = follow(route, aside(1000));
    expect([atOnce[120], settled[120].state]).toEqual([
      { state: 'unplaced', confidence: 0, alternatives: [] },
      'unplaced',
    ]);
    expect(atOnce.filter(({ state }) => state !== 'on').length).toBe(1);
    // thrown 80 m ahead: the fix after it is where it was by either, and with a coarse one no less
    const error = (accuracy: number | undefined) => {
      const { located } = follow(route, aside(accuracy)).atOnce[125];
      return Math.abs(located!.alongTrack - alongTrack[125]);
    };
    expect(error(200)).toBeLessThanOrEqual(error(undefined) + 1e-9);
    expect(error(200)).toBeLessThan(20);
  });
});

describe('memory stays bounded, whatever is pushed', () => {
  const { route } = street(900, { seed: 1 });
  const at = (i: number, east: number, north: number): FollowedFix => ({
    position: toPosition([east, north]),
    time: 1000 * i,
  });
  const position = toPosition([100, 3]);
  test.each<[string, (i: number) => FollowedFix]>([
    ['standing', (i) => at(i, 200 + (i % 3), 5)],
    ['standing without a time', () => ({ position })],
    ['standing with one time', () => ({ position, time: 5 })],
    ['nowhere near the route', (i) => at(i, 5_000 + (i % 7), 9_000)],
    ['a hundred metres from it', (i) => at(i, 300, 100)],
    ['to and fro without a time', (i) => ({ position: toPosition([100 + 400 * (i % 2), 0]) })],
    ['a hundred a second, each in another place', (i) => ({ ...at(i, (37 * i) % 900, 10), time: 10 * i })],
    ['too coarse', () => ({ position, accuracy: 5_000, time: 5 })],
  ])('%s', (name, fix) => {
    const follower = followRoute(route);
    const sizes = (saved: SavedFollower) => ({
      open: saved.open.length,
      states: saved.knots.list.reduce((sum, { bin }) => sum + bin.length, saved.states.bin.length),
      remembered: saved.pace.speeds.length + saved.pace.around.length + saved.sigma.bin.length,
      settled: saved.settled.length,
    });
    const count = name === 'standing' ? 21_000 : 2_500;
    for (let i = 0; i < count; i++) follower.push(fix(i));
    const { open, states, remembered, settled } = sizes(follower.save());
    // 20 a second of the lag, and what waits to be thrown away together
    expect(open).toBeLessThanOrEqual(600 + 64);
    expect(states).toBeLessThanOrEqual((600 + 64) * 120);
    expect(remembered).toBeLessThanOrEqual(255 + 15 + 300);
    expect(settled).toBeLessThanOrEqual(18_000 * 1.125);
    const told = follower.settled();
    expect(told.at(-1)!.index).toBe(count - 1 - open);
    expect(told.length).toBe(settled);
    expect(told.every(({ index }, k) => k === 0 || index === told[k - 1].index + 1)).toBe(true);
  });
});

describe('what is refused', () => {
  const { route, recording } = street(300, { seed: 1 });
  const fixes = fixesOf(recording);

  test.each([
    [{ lag: -1 }, 'out-of-range', 'options.lag'],
    [{ lag: Number.NaN }, 'not-finite', 'options.lag'],
    [{ sigma: 0 }, 'out-of-range', 'options.sigma'],
    [{ maxDistance: Infinity }, 'not-finite', 'options.maxDistance'],
    [{ lags: 3 } as object, 'unknown-key', 'options.lags'],
  ])('options %o', (options, reason, argument) => {
    expect(() => followRoute(route, options)).toThrow(
      expect.objectContaining({ name: 'InputError', reason, argument }),
    );
  });

  test.each<[unknown, string, string]>([
    [undefined, 'wrong-type', 'fix'],
    [{}, 'missing', 'fix.position'],
    [{ position: [5] }, 'wrong-type', 'fix.position'],
    [{ position: [5, Number.NaN] }, 'not-finite', 'fix.position latitude'],
    [{ position: [60, 95] }, 'swapped', 'fix.position latitude'],
    [{ position: [5, 52], time: Number.NaN }, 'not-finite', 'fix.time'],
    [{ position: [5, 52], time: 1e300 }, 'out-of-range', 'fix.time'],
    [{ position: [5, 52], time: '2031' }, 'wrong-type', 'fix.time'],
    [{ position: [5, 52], accuracy: -1 }, 'out-of-range', 'fix.accuracy'],
    [{ position: [5, 52], gapBefore: true }, 'wrong-type', 'fix.gapBefore'],
    [{ position: [5, 52], at: 3 }, 'unknown-key', 'fix.at'],
  ])('the fix %o, and nothing is taken of it', (fix, reason, argument) => {
    const [asked, other] = [followRoute(route), followRoute(route)];
    for (const one of fixes.slice(0, 40)) expect(asked.push(one)).toEqual(other.push(one));
    expect(() => asked.push(fix as FollowedFix)).toThrow(
      expect.objectContaining({ name: 'InputError', reason, argument }),
    );
    expect(asked.save()).toEqual(other.save());
  });

  test('what was saved of another route, of another version, or is nothing of the kind', () => {
    const follower = followRoute(route);
    for (const fix of fixes.slice(0, 60)) follower.push(fix);
    const saved = follower.save();
    const refused = (value: unknown, on: Route, reason: string, argument: string) => {
      expect(() => resumeFollowing(on, value as SavedFollower)).toThrow(
        expect.objectContaining({ name: 'InputError', reason, argument }),
      );
    };
    const other = routeFromLine([
      [5, 52],
      [5.01, 52],
    ]);
    refused(saved, other, 'misplaced', 'saved.route');
    refused({ ...saved, version: 2 }, route, 'wrong-type', 'saved.version');
    refused(null, route, 'wrong-type', 'saved');
    refused({}, route, 'wrong-type', 'saved.version');
    refused({ ...saved, clock: null }, route, 'wrong-type', 'saved.clock');
    refused({ ...saved, count: 1.5 }, route, 'out-of-range', 'saved.count');
    const bin = [...saved.states.bin.slice(0, -1), 1e6];
    const { length } = bin;
    refused({ ...saved, states: { ...saved.states, bin } }, route, 'out-of-range', `saved.states.bin[${length - 1}]`);
  });

  /** Every place of a document, by its path. */
  function paths(value: unknown, path: readonly (string | number)[] = []): (readonly (string | number)[])[] {
    if (typeof value !== 'object' || value === null) return [path];
    return [path, ...Object.entries(value).flatMap(([key, one]) => paths(one, [...path, key]))];
  }

  test('whatever is changed in what was saved, it is refused by name or answers soundly', () => {
    const follower = followRoute(route, { lag: 20 });
    for (const fix of fixes.slice(0, 60)) follower.push(fix);
    const text = JSON.stringify(follower.save());
    const all = paths(JSON.parse(text)).filter((path) => path.length > 0);
    let refused = 0;
    let resumed = 0;
    fc.assert(
      fc.property(
        fc.nat(all.length - 1),
        fc.constantFrom<unknown>(null, -1, 0, 1, 1.5, 7, 1e6, 1e300, -1e300, '', 'on', [], {}, undefined, [[]]),
        (at, value) => {
          const document = JSON.parse(text);
          const path = all[at];
          const owner = path.slice(0, -1).reduce((node, key) => node[key], document);
          owner[path[path.length - 1]] = value;
          let later: Follower;
          try {
            later = resumeFollowing(route, document);
          } catch (error) {
            expect((error as Error).name).toBe('InputError');
            expect((error as { argument: string }).argument).toMatch(/^saved/);
            refused++;
            return;
          }
          resumed++;
          for (const fix of fixes.slice(60, 90)) sound(route, later.push(fix));
          for (const { alongTrack, confidence } of later.end()) {
            expect(Number.isFinite(confidence)).toBe(true);
            if (alongTrack !== undefined) expect(Number.isFinite(alongTrack)).toBe(true);
          }
        },
      ),
      { seed: 54, numRuns: 600 },
    );
    expect(refused).toBeGreaterThan(100);
    expect(resumed).toBeGreaterThan(20);
  });
});
