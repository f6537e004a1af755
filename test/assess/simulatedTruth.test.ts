import { type Assessment, assess, combine, direct, routeBuilder, rowOf } from 'datumline';
import { describe, expect, test } from 'vitest';
import { besideRoute, steadyFixes } from '../support/besideRoute';
import { correlatedOffsets, normals } from '../support/correlatedOffsets';
import { simulateRun } from '../support/simulateRun';

// Seeded simulations with a truth that the figures must find again.

const start: [number, number] = [2.1, 61.4];
const corner = direct(start, 90, 600).position as [number, number];
const straight = routeBuilder().start(start).section('quay', { halfWidth: 8 }).lineTo(corner).build();
const bend = routeBuilder()
  .start(start)
  .section('quay', { halfWidth: 8 })
  .lineTo(corner)
  .section('lane', { halfWidth: 8 })
  .lineTo(direct(corner, 0, 600).position)
  .build();
const whole = (assessment: Assessment, recording: string) => rowOf(assessment, { recording });
const middle = (values: readonly number[]) => [...values].sort((a, b) => a - b)[values.length >> 1];

/** A recording of a street with correlated errors, `seconds` long at 3 m/s. */
const noisy = (seed: number, seconds: number, correlation: number, right: (along: number) => number = () => 0) => {
  const normal = normals(seed);
  const error = correlatedOffsets(normal, { seconds, correlation, sigma: 3 });
  const route = routeBuilder()
    .start(start)
    .lineTo(direct(start, 90, 3 * (seconds - 1)).position)
    .build();
  const fixes = steadyFixes({ from: 0, to: route.length }, (s) => right(s) + error[Math.round(s / 3)]);
  return { route, recording: besideRoute(route, 'a', fixes) };
};

test('how long an error lasts: the correlation time of the simulation, in seconds and in metres', () => {
  for (const correlation of [10, 30]) {
    const found = Array.from({ length: 15 }, (_, i) => {
      const { route, recording } = noisy(300 + i, 1200, correlation);
      const { correlationTime, correlationLength } = whole(assess(route, [recording]), 'a');
      expect(correlationLength! / correlationTime!).toBeCloseTo(3, 1);
      return correlationTime!;
    });
    // 1/e after `correlation` seconds; estimates from 40 of them scatter by a third, their median by a tenth, and fall short
    expect(middle(found) / correlation, `${correlation} s`).toBeGreaterThan(0.75);
    expect(middle(found) / correlation, `${correlation} s`).toBeLessThan(1.2);
  }
});

test('a clock that is ahead is found again through the noise of three receivers', () => {
  const lags = [11, 12, 13].map((seed) => {
    const runs = simulateRun(bend, {
      seed,
      receivers: [
        { name: 'a', sigma: 3 },
        { name: 'b', sigma: 3, clockAhead: 6 },
        { name: 'c', sigma: 3 },
      ],
    });
    const { recordings } = assess(
      bend,
      runs.map(({ recording }) => recording),
    );
    return recordings.map(({ lag }) => lag!.median);
  });
  for (const [a, b, c] of lags) {
    // 3 m of error along the way are a second at 3 m/s
    expect(Math.abs(b - 6)).toBeLessThan(1.2);
    expect(Math.abs(a)).toBeLessThan(1.2);
    expect(Math.abs(c)).toBeLessThan(1.2);
  }
});

test('standing for two minutes with σ 2 m: how far the fixes wander, within what the correlation leaves open', () => {
  const radii = Array.from({ length: 8 }, (_, i) => {
    const [{ recording }] = simulateRun(straight, {
      seed: 40 + i,
      correlation: 4,
      stops: [{ at: 300, seconds: 120 }],
      receivers: [{ name: 'a', sigma: 2 }],
    });
    const { stops } = assess(straight, [recording]).recordings[0];
    expect(stops).toHaveLength(1);
    return stops[0];
  });
  // Circular normal: 50 % within 1.1774 σ, 95 % within 2.4477 σ (test/published/positionalAccuracy.ts)
  expect(middle(radii.map(({ r50 }) => r50)) / (1.1774 * 2)).toBeGreaterThan(0.8);
  expect(middle(radii.map(({ r50 }) => r50)) / (1.1774 * 2)).toBeLessThan(1.25);
  expect(middle(radii.map(({ r95 }) => r95)) / (2.4477 * 2)).toBeGreaterThan(0.8);
  expect(middle(radii.map(({ r95 }) => r95)) / (2.4477 * 2)).toBeLessThan(1.25);
});

describe('joining and leaving', () => {
  test('recorded 90 m before the start and 60 m beyond the end: left out, with its length and time', () => {
    const [before, after] = [
      Array.from({ length: 30 }, (_, i) => direct(start, 270, 90 - 3 * i).position as [number, number]),
      Array.from({ length: 20 }, (_, i) => direct(corner, 90, 3 * (i + 1)).position as [number, number]),
    ];
    const on = besideRoute(
      straight,
      'a',
      steadyFixes({ from: 0, to: 600 }, () => 2),
    );
    const lon = [...before.map(([x]) => x), ...on.lon, ...after.map(([x]) => x)];
    const lat = [...before.map(([, y]) => y), ...on.lat, ...after.map(([, y]) => y)];
    const recording = {
      ...on,
      lon: Float64Array.from(lon),
      lat: Float64Array.from(lat),
      time: Float64Array.from(lon, (_, i) => on.time![0] + 1000 * i),
      gapBefore: Uint8Array.from(lon, (_, i) => (i === 0 ? 1 : 0)),
    };
    const assessment = assess(straight, [recording]);
    const [one] = assessment.recordings;
    expect(Math.abs(one.before.length - 90)).toBeLessThan(1);
    expect(one.before.seconds).toBe(30);
    expect(Math.abs(one.after.length - 60)).toBeLessThan(1);
    expect(one.joined).toBeCloseTo(0, 2);
    expect(one.left).toBeCloseTo(600, 2);
    const row = whole(assessment, 'a');
    expect(row.meanAbsolute).toBeCloseTo(2, 2);
    expect(row.coverage).toBeCloseTo(1, 6);
    // none of the metres outside are charged to the route
    expect(row.lengthError).toBeCloseTo(0, 2);
    expect(row.seconds).toBeCloseTo(200, 3);
  });

  test('fixes that fall beside the ends: the time and the line between start and finish, by interpolation', () => {
    const fixes = steadyFixes({ from: 2, to: 596 }, () => 2).map((fix) => ({ ...fix, seconds: fix.seconds + 1 }));
    const on = besideRoute(straight, 'a', fixes);
    const outside = (from: [number, number], azimuth: number, metres: number) =>
      direct(direct(from, azimuth, metres).position, 180, 2).position as [number, number];
    // 1 m before the start, 2 m and 5 m beyond the finish, 2 m aside
    const ends = [outside(start, 270, 1), outside(corner, 90, 2), outside(corner, 90, 5)];
    const column = (values: Float64Array, k: 0 | 1) =>
      Float64Array.from([ends[0][k], ...values, ends[1][k], ends[2][k]]);
    const lon = column(on.lon, 0);
    const time = Float64Array.from(lon, (_, i) => on.time![0] + 1000 * i);
    // 596 m, then 602 m, 605 m: 2 s for the first of the two steps
    time[lon.length - 2] += 1000;
    time[lon.length - 1] += 1000;
    const gapBefore = Uint8Array.from(lon, (_, i) => (i === 0 ? 1 : 0));
    const assessment = assess(straight, [{ ...on, lon, lat: column(on.lat, 1), time, gapBefore }]);
    const row = whole(assessment, 'a');
    expect(row.seconds).toBeCloseTo(200, 3);
    expect(row.recordedLength).toBeCloseTo(600, 3);
    expect(row.meanAbsolute).toBeCloseTo(2, 3);
    expect(assessment.distances.at(-1)!.recorded).toBeCloseTo(600, 3);
    expect(assessment.recordings[0].recordedLength).toBeCloseTo(600, 3);
  });

  test('one lap of three missing, the clock kept: two seen, the missing one named by its coverage', () => {
    const oval = routeBuilder()
      .start(start)
      .lineBy({ azimuth: 90, distance: 60 })
      .laps(3, (lap) => lap.section('oval', { halfWidth: 6 }).arc({ turn: 'left', radius: 60, sweep: 360 }))
      .build();
    const each = 2 * Math.PI * 60;
    const missing = (along: number) => along > 60 + each + 15 && along < 60 + 2 * each - 15;
    const fixes = steadyFixes({ from: 0, to: oval.length }, (s) => Math.sin(s / 17)).filter(
      ({ along }) => !missing(along),
    );
    const recording = besideRoute(oval, 'a', fixes);
    const { laps } = assess(oval, [recording]).recordings[0];
    expect(laps).toMatchObject({ planned: 3, seen: 2 });
    expect(laps!.laps[1].coverage).toBeLessThan(0.3);
    expect(laps!.laps[0].coverage).toBeGreaterThan(0.9);
    expect(laps!.laps[2].coverage).toBeGreaterThan(0.9);
  });
});

describe('settling', () => {
  const along = (s: number) => (s < 120 ? 12 : 2);
  const settled = (fixes: ReturnType<typeof steadyFixes>) =>
    assess(straight, [besideRoute(straight, 'a', fixes)]).recordings[0].settled;

  test('where the offset first stays within the corridor for a minute; never, where it does not', () => {
    expect(settled(steadyFixes({ from: 0, to: 600 }, along))!.alongTrack).toBeCloseTo(120, 0);
    expect(settled(steadyFixes({ from: 0, to: 600 }, (s) => (s % 150 < 30 ? 12 : 2)))).toBeNull();
  });

  test('a minute without fixes settles nothing', () => {
    const fixes = steadyFixes({ from: 0, to: 600 }, (s) => (s < 420 ? 12 : 2));
    // one fix within the corridor at 150 m, then nothing until 420 m: 90 s later
    const gap = fixes
      .filter(({ along }) => along <= 150 || along >= 420)
      .map((fix) => (fix.along === 150 ? { ...fix, right: 2 } : fix));
    expect(settled(gap)!.alongTrack).toBeCloseTo(420, 0);
  });
});

describe('map attraction', () => {
  // a mapped line that winds about the one run, 6 m to both sides, 150 m a bend
  const weave = (s: number) => 6 * Math.sin((2 * Math.PI * s) / 300);
  const trial = (pull: number, seed: number) => {
    const { route, recording } = noisy(seed, 600, 20, (s) => pull * weave(s));
    const decoy = besideRoute(route, 'decoy', steadyFixes({ from: 0, to: route.length }, weave));
    return whole(assess(route, [recording], { decoy }), 'a').mapAttraction!;
  };
  const found = (pull: number) => Array.from({ length: 20 }, (_, i) => trial(pull, 500 + i));

  test('a pull of 0.7 under errors of σ 3 m: the interval holds it, and it is called attracted', () => {
    const seen = found(0.7);
    const held = seen.filter(({ interval95 }) => interval95![0] <= 0.7 && 0.7 <= interval95![1]);
    expect(held.length).toBeGreaterThanOrEqual(17);
    expect(Math.abs(middle(seen.map(({ index }) => index!)) - 0.7)).toBeLessThan(0.07);
    expect(seen.filter(({ verdict }) => verdict === 'attracted').length).toBeGreaterThanOrEqual(18);
  });

  test('no pull: not called attracted more than one time in ten', () => {
    expect(found(0).filter(({ verdict }) => verdict === 'attracted').length).toBeLessThanOrEqual(2);
  });

  test.each([
    ['on the reference itself', (s: number) => 0.5 * Math.sin(s / 40), 'decoy-too-near'],
    ['at a steady distance', () => 6, 'steady-decoy'],
  ])('a decoy %s cannot tell', (_, right, reason) => {
    const { route, recording } = noisy(1, 300, 20);
    const decoy = besideRoute(route, 'decoy', steadyFixes({ from: 0, to: route.length }, right));
    const attraction = whole(assess(route, [recording], { decoy }), 'a').mapAttraction!;
    expect(attraction).toMatchObject({ verdict: 'cannot tell', index: null, reason });
  });

  test('errors far greater than the decoy’s bends cannot tell: the interval says how little is known', () => {
    const normal = normals(9);
    const error = correlatedOffsets(normal, { seconds: 301, correlation: 60, sigma: 25 });
    const route = routeBuilder()
      .start(start)
      .lineTo(direct(start, 90, 900).position)
      .build();
    const recording = besideRoute(
      route,
      'a',
      steadyFixes({ from: 0, to: 900 }, (s) => error[Math.round(s / 3)]),
    );
    const decoy = besideRoute(
      route,
      'decoy',
      steadyFixes({ from: 0, to: 900 }, (s) => weave(s) / 2.5),
    );
    const { verdict, index, interval95 } = whole(assess(route, [recording], { decoy }), 'a').mapAttraction!;
    expect([verdict, index]).toEqual(['cannot tell', null]);
    expect(interval95![1] - interval95![0]).toBeGreaterThan(0.5);
  });
});

test('a shift of 1 m east and 3 m north under errors of σ 2 m: found, with an error that holds it', () => {
  const square = routeBuilder()
    .start(start)
    .lineBy({ azimuth: 90, distance: 600 })
    .lineBy({ azimuth: 0, distance: 600 })
    .lineBy({ azimuth: 270, distance: 600 })
    .build();
  const metre = { east: 1 / (111_320 * Math.cos((61.4 * Math.PI) / 180)), north: 1 / 111_400 };
  const runs = simulateRun(square, {
    seed: 6,
    receivers: Array.from({ length: 5 }, (_, i) => ({ name: `${i}`, sigma: 2 })),
  });
  const { commonShift, warnings, rows } = assess(
    square,
    runs.map(({ recording }) => ({
      ...recording,
      lon: recording.lon.map((lon) => lon + 1 * metre.east),
      lat: recording.lat.map((lat) => lat + 3 * metre.north),
    })),
  );
  const { east, north } = commonShift!.standardError!;
  // 5 recordings: t of 4 degrees of freedom leaves 1 % beyond 4.6
  expect(Math.abs(commonShift!.east - 1)).toBeLessThan(4.6 * east);
  expect(Math.abs(commonShift!.north - 3)).toBeLessThan(4.6 * north);
  expect(Math.max(east, north)).toBeLessThan(0.6);
  expect(commonShift!.distance).toBeCloseTo(Math.hypot(commonShift!.east, commonShift!.north), 9);
  expect(warnings.map(({ reason }) => reason)).toContain('common-shift');
  // reported, not removed
  expect(rows[0].meanAbsolute).toBeGreaterThan(1);
});

test('day-to-day spread: beside what the blocks within the runs lead to expect, and above it where days differ', () => {
  const summary = (dayToDay: number) =>
    combine(
      Array.from({ length: 8 }, (_, day) => {
        const bias = 15 + dayToDay * Math.sin(2.4 * day);
        const runs = simulateRun(straight, {
          seed: 700 + day,
          correlation: 15,
          receivers: [{ name: 'a', sigma: 2, bias }],
        });
        return assess(
          straight,
          runs.map(({ recording }) => recording),
        );
      }),
    ).rows.find(({ section }) => section === null)!;
  // far from the line its mean distance is its mean offset: σ √(2τ/T) within a run of 200 s
  const expected = 2 * Math.sqrt((2 * 15) / 200);
  const calm = summary(0);
  expect(calm.betweenRunSd! / expected).toBeGreaterThan(0.45);
  expect(calm.betweenRunSd! / expected).toBeLessThan(1.6);
  expect(calm.withinRunSd! / expected).toBeGreaterThan(0.7);
  expect(calm.withinRunSd! / expected).toBeLessThan(2.2);
  expect(calm.bias).toBeCloseTo(15, -0.5);
  const restless = summary(6);
  expect(restless.betweenRunSd).toBeGreaterThan(2 * restless.withinRunSd!);
});
