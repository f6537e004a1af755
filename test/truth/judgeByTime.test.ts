import { assess, errorsByTime, judgeByTime, type Recording, routeFromLine, routeFromRecipe } from 'datumline';
import { expect, test } from 'vitest';
import { Geodesic, WGS84 } from '../../src/geodesy/ellipsoid';
import { TimedFigures } from '../../src/truth/TimedFigures';
import { asprsFivePoints, circularNormal } from '../published/positionalAccuracy';
import { correlatedOffsets, normals } from '../support/correlatedOffsets';
import { seeded } from '../support/randomLine';
import { schemaJudge } from '../support/schemaJudge';
import { every, RIDE_BEGUN, TimedRide } from '../support/timedRide';

/** Laps of 400 m at a pace that wanders, with a stop of 20 s in each minute and a half. */
const stands = (t: number) => t % 90 >= 70;
const pace = (t: number) => (stands(t) ? 0 : 3 + 0.6 * Math.sin(t / 17));
const travelled = (t: number) => {
  let metres = 0;
  for (let s = 0; s < t; s += 0.25) metres += 0.25 * pace(s + 0.125);
  return metres;
};
const table = Array.from({ length: 4 * 1300 }, (_, i) => travelled(i / 4));
const metresAt = (t: number) => {
  const at = 4 * t;
  const i = Math.max(0, Math.min(table.length - 2, Math.floor(at)));
  return table[i] + (at - i) * (table[i + 1] - table[i]);
};
/** Straights of 100 m between half turns of 100 m. */
const ovalAzimuth = (t: number) => {
  const s = metresAt(t) % 400;
  if (s < 100) return 30;
  if (s < 200) return 30 - 1.8 * (s - 100);
  return s < 300 ? 210 : 210 - 1.8 * (s - 300);
};
const laps = (start: [number, number]) => new TimedRide({ start, seconds: 600, speed: pace, azimuth: ovalAzimuth });
const ride = laps([6.1, 51.2]);
const truth = ride.truth(10, 0.05);
const row = (recording: Recording, options = {}) => judgeByTime(truth, [recording], options).rows.at(-1)!;

test.each<[string, [number, number]]>([
  ['at 51° north', [6.1, 51.2]],
  ['over ±180°', [179.9995, -16.5]],
  ['at 80° south', [30, -80]],
])('a bias of 3 m ahead is 3 m ahead through curves, stops and laps: %s', (_, start) => {
  const there = laps(start);
  const { along, across, horizontal, speed } = errorsByTime(
    there.truth(10),
    there.record(every(598, 1, 1.37), { ahead: () => 3 }),
  );
  let moving = 0;
  for (let i = 0; i < along.length; i++) {
    expect(Math.abs(horizontal[i] - 3)).toBeLessThan(0.002);
    const second = 1.37 + i;
    if (stands(second - 0.6) && stands(second + 0.6)) expect(along[i]).toBeNaN();
    if (Number.isNaN(along[i])) continue;
    moving++;
    expect(speed[i]).toBeGreaterThan(0.29);
    // from a stop on a bend the half second before or after tells a little less of the direction
    expect(Math.abs(along[i] - 3)).toBeLessThan(0.01);
    expect(Math.abs(across[i])).toBeLessThan(0.15);
  }
  expect(moving).toBeGreaterThan(430);
});

test('known errors along, across and up, and a known delay, come back within 2 % and 0.1 s', () => {
  const noise = normals(11);
  const wobble = every(620, 1).map(() => 0.3 * noise());
  const late = ride.record(every(590, 1, 4), {
    ahead: (t) => 1 + 2 * Math.sin(t / 7) + wobble[Math.round(t)],
    right: (t) => -4 + wobble[Math.round(t) + 1],
    up: () => 6,
    delay: 0.8,
  });
  const { delay, across, along, up } = row(late);
  expect(delay!.removed.across!.mean).toBeCloseTo(-4, 1);
  expect(Math.abs(across!.mean + 4)).toBeLessThan(0.08);
  expect(up!.mean).toBeCloseTo(6, 6);
  // 1 m ahead at about 3 m/s looks a third of a second early: the two together make the error least
  const speeds = every(590, 1, 4)
    .filter((t) => !stands(t))
    .map((t) => pace(t - 0.8));
  const early = speeds.reduce((sum, v) => sum + v, 0) / speeds.reduce((sum, v) => sum + v * v, 0);
  expect(Math.abs(delay!.seconds - (0.8 - early))).toBeLessThan(0.1);
  expect(along!.mean).toBeLessThan(-1);
  const unbiased = ride.record(every(590, 1, 4), {
    ahead: (t) => 2 * Math.sin(t / 7) + wobble[Math.round(t)],
    delay: -1.35,
  });
  const told = row(unbiased).delay!;
  expect(Math.abs(told.seconds + 1.35)).toBeLessThan(0.1);
  expect(told.interval95![0]).toBeLessThan(-1.35);
  expect(told.interval95![1]).toBeGreaterThan(-1.35);
  // the sine's own mean square, half of 2 m squared, and the noise's
  expect(Math.abs(told.removed.along!.rms / Math.sqrt(2 + 0.09) - 1)).toBeLessThan(0.05);
});

test.each([-20, -7.3, 0, 2.45, 18])('a clock %s s off is told, on laps that pass the same places', (delay) => {
  const { delay: found } = row(ride.record(every(570, 1, 25), { delay }));
  expect(Math.abs(found!.seconds - delay)).toBeLessThan(0.02);
});

test('the clock of another minute is no delay, and said so', () => {
  const { rows, warnings } = judgeByTime(truth, [ride.record(every(500, 1, 60), { delay: 45 })]);
  expect(rows[0].delay).toBeNull();
  expect(warnings.map(({ reason }) => reason)).toContain('far-clock');
});

test('errors agree with the geodesic to the fix, as the published solution of the inverse problem has it', () => {
  const random = seeded(3);
  const seconds = every(590, 1, 5.5);
  const right = seconds.map(() => (random() - 0.5) * 10 ** (1 + 4 * random()));
  const recording = ride.record(seconds, { right: (t) => right[Math.round(t - 5.5)] });
  const { horizontal, east, north } = errorsByTime(truth, recording);
  seconds.forEach((second, i) => {
    const [lon, lat] = ride.place(second);
    const { s12, azi1 } = WGS84.Inverse(lat, lon, recording.lat[i], recording.lon[i], Geodesic.STANDARD);
    const within = 0.0015 + 2e-5 * s12!;
    expect(Math.abs(horizontal[i] - s12!)).toBeLessThan(within);
    expect(Math.abs(east[i] - s12! * Math.sin((azi1! * Math.PI) / 180))).toBeLessThan(within);
    expect(Math.abs(north[i] - s12! * Math.cos((azi1! * Math.PI) / 180))).toBeLessThan(within);
  });
});

test('between fixes of a truth at 1 Hz the cubic is a millimetre off on a bend where the chord would be a decimetre', () => {
  // 3 m/s on a circle of 10 m: 17.2 degrees a second; the chord of a second lies 9/80 m inside
  const circle = new TimedRide({ seconds: 60, speed: () => 3, azimuth: (t) => ((3 / 10) * t * 180) / Math.PI });
  const { horizontal } = errorsByTime(circle.truth(1), circle.record(every(50, 1, 5.5)));
  expect(Math.max(...horizontal)).toBeLessThan(0.0025);
  const two = circle.record(every(59, 1, 2), {}, 'truth');
  const chord = errorsByTime(
    { ...two, gapBefore: two.gapBefore.map((_, i) => (i % 2 === 0 ? 1 : 0)) },
    circle.record([2.5]),
  );
  expect(chord.horizontal[0]).toBeGreaterThan(0.1);
});

test('percentiles, moments and radii are those of the sorted errors', () => {
  const noise = normals(5);
  const errors = every(600, 1).map(() => [3 * noise(), 2 + noise(), noise()]);
  const at = (t: number) => errors[Math.round(t)];
  const recording = ride.record(every(599, 1, 1), {
    ahead: (t) => at(t)[0],
    right: (t) => at(t)[1],
    up: (t) => at(t)[2],
  });
  const told = row(recording);
  const found = errorsByTime(truth, recording);
  for (const component of ['horizontal', 'along', 'across', 'up'] as const) {
    const values = [...found[component]].filter((value) => !Number.isNaN(value));
    const sizes = values.map(Math.abs).sort((a, b) => a - b);
    const percentile = (share: number) => {
      const place = (sizes.length - 1) * share;
      const below = Math.floor(place);
      return sizes[below] + (place - below) * ((sizes[below + 1] ?? sizes[below]) - sizes[below]);
    };
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    const figure = told[component]!;
    expect(figure.mean).toBeCloseTo(mean, 9);
    expect(figure.sd).toBeCloseTo(
      Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1)),
      9,
    );
    expect(figure.rms).toBeCloseTo(Math.sqrt(values.reduce((sum, value) => sum + value ** 2, 0) / values.length), 9);
    for (const share of [50, 68, 75, 95] as const) expect(figure[`p${share}`]).toBeCloseTo(percentile(share / 100), 9);
    expect(figure.max).toBe(sizes.at(-1));
  }
});

test('a circular normal error has the radii printed for it: 1.1774 and 2.4477 sigma', () => {
  const straight = new TimedRide({ seconds: 600, speed: () => 3, azimuth: () => 70 });
  // a ring of √2 σ has the second moments of a circular error of σ
  const turn = (t: number) => (2 * Math.PI * t * 7) / 100;
  const ring = straight.record(every(600, 1, 1), {
    ahead: (t) => Math.SQRT2 * 5 * Math.cos(turn(t)),
    right: (t) => Math.SQRT2 * 5 * Math.sin(turn(t)),
  });
  const told = judgeByTime(straight.truth(10), [ring]).rows[0];
  expect(Math.abs(told.cep50! / 5 - circularNormal.CEP50)).toBeLessThan(0.00005);
  expect(Math.abs(told.ce95! / 5 - circularNormal.R95)).toBeLessThan(0.00005);
});

test('five check points have the figures printed for them', () => {
  const { residuals, published } = asprsFivePoints;
  const straight = new TimedRide({ seconds: 10, speed: () => 3, azimuth: () => 0 });
  const { rows } = judgeByTime(straight.truth(10), [
    straight.record([1, 2, 3, 4, 5], {
      right: (t) => residuals.x[t - 1],
      ahead: (t) => residuals.y[t - 1],
      up: (t) => residuals.z[t - 1],
    }),
  ]);
  const { across, along, up, horizontal } = rows[0];
  [across!, along!, up!].forEach((figure, i) => {
    expect(Math.abs(figure.mean - published.mean[i])).toBeLessThan(0.0005 + 1e-6);
    expect(Math.abs(figure.sd - published.sampleDeviation[i])).toBeLessThan(0.0005 + 1e-6);
    expect(Math.abs(figure.rms - published.rmse[i])).toBeLessThan(0.0005 + 1e-6);
  });
  expect(Math.abs(horizontal!.rms - published.rmseR)).toBeLessThan(0.0005 + 1e-6);
});

test('ten fixes a second weigh as one: each second counts once', () => {
  const step = (t: number) => (t < 300 ? 1 : 5);
  const seconds = [...every(299.95, 1, 1), ...every(599, 0.1, 300)];
  const told = row(ride.record(seconds, { right: step }));
  expect(told.horizontal!.mean).toBeCloseTo((299 * 1 + 300 * 5) / 599, 2);
  expect(told.judged).toBe(599);
});

test('availability, outages and time to first fix are those that were cut out', () => {
  const { recordings, rows } = judgeByTime(truth, [
    ride.record(every(600, 1, 12).filter((t) => !(t >= 100 && t < 130) && !(t >= 300 && t < 350))),
    ride.record(every(600.9, 5, 0.2), {}, 'every five'),
  ]);
  expect(recordings[0].timeToFirstFix).toBe(12);
  expect(recordings[1].usualInterval).toBeCloseTo(5, 9);
  const [first, second] = rows;
  expect(first.seconds).toBe(601);
  expect(first.availability).toBeCloseTo((601 - 12 - 30 - 50) / 601, 12);
  expect(first.longestOutage).toEqual({ seconds: 50, from: 300 });
  expect(second.availability).toBe(1);
  expect(second.longestOutage).toBeNull();
});

test('by section: where the truth was, laps apart, however the recording strays', () => {
  const straight = new TimedRide({ seconds: 400, speed: () => 3, azimuth: () => 90 });
  const { lon, lat } = straight.truth(1);
  const route = routeFromRecipe({
    version: 1,
    options: {},
    steps: [
      { call: 'follow', line: Array.from(lon, (x, i) => [x, lat[i]]) },
      { call: 'section', name: 'open', from: 0, to: 300 },
      { call: 'section', name: 'wood', from: 300, to: 900 },
    ],
  });
  const recording = straight.record(every(400, 1), {
    ahead: (t) => (t < 100 ? 4 : 1),
    right: (t) => (t < 100 ? 2 : 8),
  });
  const { rows, truth: told } = judgeByTime(straight.truth(10), [recording], { route });
  expect(told.sections).toEqual([
    { name: 'open', from: 0, to: 100 },
    { name: 'wood', from: 100, to: 300 },
  ]);
  expect(rows.map(({ section, seconds }) => [section, seconds])).toEqual([
    ['open', 100],
    ['wood', 200],
    [null, 401],
  ]);
  expect(rows[0].across!.mean).toBeCloseTo(2, 2);
  expect(rows[0].along!.mean).toBeCloseTo(4, 2);
  expect(rows[1].across!.mean).toBeCloseTo(8, 2);
  // each from the whole's by its own errors
  expect(rows[0].delay!.seconds).toBeCloseTo(-4 / 3, 1);
  expect(rows[1].delay!.seconds).toBeCloseTo(-1 / 3, 1);
});

test('a truth that is elsewhere tells of no sections, and says so', () => {
  const { rows, warnings } = judgeByTime(truth, [ride.record(every(300, 1))], {
    route: routeFromLine([
      [10, 10],
      [10.01, 10],
    ]),
  });
  expect(rows.map(({ section }) => section)).toEqual([null]);
  expect(warnings.map(({ reason }) => reason)).toContain('truth-off-route');
});

test('the truth’s own doubt marks figures below it and holds verdicts back', () => {
  const noise = normals(21);
  const near = correlatedOffsets(noise, { seconds: 600, correlation: 4, sigma: 0.3 });
  const far = correlatedOffsets(noise, { seconds: 600, correlation: 4, sigma: 1.6 });
  const pairOf = (doubt: number) =>
    judgeByTime(
      ride.truth(10, doubt),
      [
        ride.record(every(590, 1, 1), { right: (t) => near[t], ahead: (t) => near[599 - t] }, 'near'),
        ride.record(every(590, 1, 1), { right: (t) => far[t], ahead: (t) => far[599 - t] }, 'far'),
      ],
      { leverArm: 0.1 },
    );
  const exact = pairOf(0.05);
  expect(exact.pairs[0]).toMatchObject({ verdict: 'closer', closer: 'near', floor: 0.1 });
  expect(exact.rows[0].horizontal!.unresolved).toEqual([]);
  const coarse = pairOf(2.5);
  expect(coarse.rows[0].horizontal!.unresolved).toEqual(['mean', 'sd', 'rms', 'p50', 'p68', 'p75', 'p95', 'max']);
  expect(coarse.rows[0].resolution).toBeLessThan(0.5);
  expect(coarse.pairs[0].floor).toBeGreaterThan(0.8);
  expect(coarse.pairs[0].verdict).toBe('undecided');
  expect(coarse.pairs[0].limits[0].reason).toBe('below-floor');
  expect(coarse.warnings.map(({ reason }) => reason)).toContain('coarse-truth');
});

test('who was without a fix where it was worst is not called closer', () => {
  const [far, near] = [31, 32].map((seed) =>
    correlatedOffsets(normals(seed), { seconds: 700, correlation: 2, sigma: 3 }),
  );
  const whole = ride.record(every(599, 1), { right: (t) => far[t] }, 'whole');
  const record = (until: number) => ride.record(every(until, 1), { right: (t) => 0.2 * near[t] }, 'other');
  expect(judgeByTime(truth, [whole, record(599)]).pairs[0]).toMatchObject({ verdict: 'closer', closer: 'other' });
  const [pair] = judgeByTime(truth, [whole, record(500)]).pairs;
  expect(pair.difference).toBeGreaterThan(1);
  expect(pair.verdict).toBe('undecided');
  expect(pair.limits).toEqual([{ reason: 'outages', message: '“other” was without a fix for more of it.' }]);
});

test('receivers of unlike intervals are compared on the times both have; two that are alike are equivalent', () => {
  const errors = [41, 42].map((seed) => correlatedOffsets(normals(seed), { seconds: 700, correlation: 2, sigma: 2 }));
  const [even, odd] = [every(598, 2, 2), every(598, 2, 1)].map((seconds, i) =>
    ride.record(seconds, { right: (t) => errors[i][t], ahead: (t) => errors[i][699 - t] }, `${i}`),
  );
  const [pair] = judgeByTime(truth, [even, odd]).pairs;
  expect(pair.commonShare).toBeGreaterThan(0.98);
  expect(pair.verdict).toBe('equivalent');
});

test('intervals of the mean hold the truth as often as they say', () => {
  // Rayleigh, of two independent axes: the mean is σ √(π/2)
  let held = { horizontal: 0, along: 0 };
  const trials = 300;
  for (let trial = 0; trial < trials / 3; trial++) {
    const normal = normals(5000 + trial);
    const columns = Array.from({ length: 3 }, () => {
      const [east, north] = [0, 1].map(() => correlatedOffsets(normal, { seconds: 900, correlation: 15, sigma: 4 }));
      const horizontal = east.map((value, i) => Math.hypot(value, north[i]));
      return { horizontal, along: north, across: east, up: east, east, north, speed: east };
    });
    const range = { first: 0, end: 900 };
    const figures = new TimedFigures(columns, [range]);
    columns.forEach((_, i) => {
      const { horizontal, along } = figures.figures(i, range, 0);
      const within = ([low, high]: readonly [number, number], value: number) => (low <= value && value <= high ? 1 : 0);
      held = {
        horizontal: held.horizontal + within(horizontal!.interval95!, 4 * Math.sqrt(Math.PI / 2)),
        along: held.along + within(along!.interval95!, 0),
      };
    });
  }
  // 95 % of 300 that are not all independent: 3 standard errors either way
  for (const count of Object.values(held)) {
    expect(count / trials).toBeGreaterThan(0.91);
    expect(count / trials).toBeLessThan(0.99);
  }
});

test('what it returns is what its schema says, through JSON and back', () => {
  const told = judgeByTime(
    ride.truth(10, 0.1),
    [
      { recording: ride.record(every(300, 1), { right: () => 2 }), receiver: 'A', placement: 'left wrist', run: '1' },
      { recording: ride.record(every(300, 1, 0.5), { right: () => 3, up: () => 1 }), receiver: 'B', run: '1' },
      { ...ride.record(every(300, 1)), time: undefined },
      ride.record([700, 701]),
    ],
    { truth95: 0.2 },
  );
  expect(JSON.parse(JSON.stringify(told))).toEqual(told);
  const faultsOf = schemaJudge('timedAssessment');
  expect(faultsOf(told)).toEqual([]);
  expect(faultsOf({ ...told, rows: [{ ...told.rows[0], availability: 2 }] })).not.toEqual([]);
  expect(told.recordings.map(({ leftOut }) => leftOut?.reason ?? null)).toEqual([null, null, 'no-times', 'no-overlap']);
});

test('bad input is refused by name; a recording that cannot be judged is named, and the rest stands', () => {
  const good = ride.record(every(100, 1), { right: () => 1 });
  const { time: _, ...untimed } = truth;
  expect(() => judgeByTime(untimed, [good])).toThrow(/^truth\.time must be given, not undefined/);
  const back = { ...truth, time: truth.time!.map((t, i) => (i === 50 ? t - 60_000 : t)) };
  expect(() => judgeByTime(back, [good])).toThrow(/^truth\.time\[50\] must be no earlier than the one before/);
  const long = { ...truth, time: truth.time!.map((t, i) => t + 1000 * 60 * i) };
  expect(() => judgeByTime(long, [good])).toThrow(/^truth\.time must be within one day, not '4\.2 days'/);
  const one = ride.record([3]);
  expect(() => judgeByTime(one, [good])).toThrow(/^truth must be a recording of at least 2 fixes/);
  expect(() => judgeByTime(truth, [])).toThrow(/^recordings must be at least 1 recording/);
  expect(() => judgeByTime(truth, [good], { maxTruthGap: 0 })).toThrow(
    /^options\.maxTruthGap must be a number above 0/,
  );
  expect(() => judgeByTime(truth, [good], { truth95: -1 })).toThrow(/^options\.truth95 must be/);
  expect(() => judgeByTime(truth, [good], { delay: 1 } as object)).toThrow(/^options\.delay must be one of/);
  expect(() => judgeByTime(truth, [good], { route: {} as never })).toThrow(/^options\.route must be a route/);
  expect(() => judgeByTime(truth, [good], { baseline: 'nobody' })).toThrow(/^options\.baseline must be/);
  expect(() => errorsByTime(truth, { ...good, time: undefined })).toThrow(/^recording\.time must be given/);

  const undated = (one: Recording) => ({ ...one, time: one.time!.map((t) => t - RIDE_BEGUN) });
  expect(judgeByTime(undated(truth), [undated(good)]).warnings.map(({ reason }) => reason)).toContain('undated');
  const day = 24 * 3600 * 1000;
  const other = { ...good, name: 'other day', time: good.time!.map((t) => t + 3 * day) };
  const { recordings, warnings, rows } = judgeByTime(truth, [good, other, { ...truth, name: 'itself' }]);
  expect(recordings.map(({ leftOut }) => leftOut?.reason ?? null)).toEqual([null, 'no-overlap', 'is-the-truth']);
  expect(warnings.filter(({ recording }) => recording === 'other day')[0].message).toBe(
    'It begins 3.0 days after the truth ends: another day, or a clock in another zone.',
  );
  expect(rows.map(({ recording }) => recording)).toEqual(['receiver']);
});

test('no place in a gap of the truth, nor across one of its breaks', () => {
  const fixes = [...every(20, 1), ...every(60, 1, 24), ...every(100, 1, 62)];
  const broken = ride.record(fixes, {}, 'truth');
  const gapBefore = broken.gapBefore.map((gap, i) => (fixes[i] === 80 ? 1 : gap));
  const at = [20.5, 23.9, 24, 30.5, 61, 79.5, 80, 81.5];
  const told = (maxTruthGap: number) =>
    [...errorsByTime({ ...broken, gapBefore }, ride.record(at), { maxTruthGap }).horizontal].map(
      (value) => value < 0.5,
    );
  expect(told(2)).toEqual([false, false, true, true, true, false, true, true]);
  expect(told(1)).toEqual([false, false, true, true, false, false, true, true]);
  expect(told(5)).toEqual([true, true, true, true, true, false, true, true]);
});

test('a fix and a truth at the poles, on the meridian’s seam and in one place have no NaN', () => {
  const still = (lon: number, lat: number): Recording => ({
    ...truth,
    lon: truth.lon.map(() => lon),
    lat: truth.lat.map(() => lat),
  });
  for (const [lon, lat] of [
    [0, 90],
    [13, -90],
    [-180, 0],
    [6, 51],
  ]) {
    const { rows } = judgeByTime(still(lon, lat), [ride.record(every(200, 1))]);
    expect(rows[0].horizontal!.max).toBeGreaterThanOrEqual(0);
    expect(JSON.stringify(rows)).not.toMatch(/NaN|Infinity/);
    expect(rows[0].along).toBeNull();
    expect(rows[0].delay).toBeNull();
  }
});

test('the route’s own figures and the clock’s agree where the error is across the way', () => {
  const straight = new TimedRide({ seconds: 400, speed: () => 3, azimuth: () => 90 });
  const { lon, lat } = straight.truth(1);
  const errors = correlatedOffsets(normals(77), { seconds: 401, correlation: 10, sigma: 3 });
  const recording = straight.record(every(400, 1), { right: (t) => errors[t] });
  const byRoute = assess(routeFromLine({ lon, lat }), [recording]).rows.at(-1)!;
  const byTime = judgeByTime(straight.truth(10), [recording]).rows.at(-1)!;
  expect(Math.abs(byTime.across!.mean - byRoute.bias!)).toBeLessThan(0.05);
  expect(Math.abs(byTime.horizontal!.mean - byRoute.meanAbsolute!)).toBeLessThan(0.05);
  expect(RIDE_BEGUN).toBe(recording.time![0]);
});

test('one fix left out is counted as one, of the recording and of the truth', () => {
  const good = ride.record(every(500, 1));
  const doubled = { ...good, time: good.time!.map((at, i) => (i === 7 ? good.time![6] : at)) };
  const halting = { ...truth, time: truth.time!.map((at, i) => (i === 7 ? truth.time![6] : at)) };
  const messages = judgeByTime(halting, [doubled]).warnings.map(({ message }) => message);
  expect(messages).toContain(
    `Left out of its ${good.lon.length} fixes: 1 with the time of another, a time earlier than those before, or no place.`,
  );
  expect(messages).toContain(
    'Left out of the truth’s fixes: 0 without time or place, 1 with the time of the one before.',
  );
});
