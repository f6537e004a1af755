import {
  type Assessment,
  assess,
  combine,
  direct,
  InputError,
  type Pair,
  type Recording,
  routeBuilder,
  rowOf,
} from 'datumline';
import { describe, expect, test } from 'vitest';
import { besideRoute, steadyFixes } from '../support/besideRoute';
import { simulateRun } from '../support/simulateRun';

const start: [number, number] = [2.1, 61.4];
const corner = direct(start, 90, 600).position;
const build = (lateral95?: number) =>
  routeBuilder(lateral95 === undefined ? {} : { lateral95 })
    .start(start)
    .section('quay', { halfWidth: 6 })
    .lineTo(corner)
    .section('lane', { halfWidth: 6 })
    .lineTo(direct(corner, 0, 600).position)
    .build();
const route = build();

const steady = (name: string, right: (along: number) => number, from = 0, to = 1200) =>
  besideRoute(route, name, steadyFixes({ from, to }, right));
const pairOf = (assessment: Assessment, section: string | null, at = 0): Pair =>
  assessment.pairs.filter((pair) => pair.section === section)[at];
const wobble = (along: number) => 0.3 * Math.sin(along / 11);

describe('pairs', () => {
  test('a clear difference is closer, with its sign and the name', () => {
    const assessment = assess(route, [
      steady('near', (s) => 2 + wobble(s)),
      steady('far', (s) => -7 + wobble(s * 1.3)),
    ]);
    const pair = pairOf(assessment, null);
    expect(pair).toMatchObject({ first: 'near', second: 'far', verdict: 'closer', closer: 'near' });
    expect(pair.difference).toBeCloseTo(-5, 1);
    expect(pair.between).toBeCloseTo(9, 1);
    expect(pair.commonShare).toBeGreaterThan(0.99);
    expect(pair.apart!.median).toBeCloseTo(9, 0);
    const order = assessment.order.find(({ section }) => section === null)!;
    expect(order.entries.map(({ recording, ties, place }) => [recording, ties, place])).toEqual([
      ['near', 'a', { best: 1, worst: 1 }],
      ['far', 'b', { best: 2, worst: 2 }],
    ]);
    expect(order.sentence).toContain('“near” lay closer than “far” by 5.0 m');
  });

  test('two that keep the same distance within the margin are equivalent, on opposite sides too', () => {
    const assessment = assess(route, [steady('a', (s) => 3 + wobble(s)), steady('b', (s) => -3.1 + wobble(s * 1.3))]);
    expect(pairOf(assessment, null).verdict).toBe('equivalent');
    expect(
      pairOf(assess(route, [steady('a', () => 3), steady('b', () => -3.3)], { equivalence: 0.1 }), null),
    ).toMatchObject({
      verdict: 'undecided',
      limits: [{ reason: 'below-floor', message: 'The difference is smaller than the floor of 0.5 m.' }],
    });
  });

  test('identical receivers are not told apart: undecided, and said so', () => {
    const runs = simulateRun(route, {
      seed: 3,
      receivers: [
        { name: 'a', sigma: 6 },
        { name: 'b', sigma: 6 },
      ],
    });
    const assessment = assess(
      route,
      runs.map(({ recording }) => recording),
    );
    const order = assessment.order.find(({ section }) => section === null)!;
    expect(order.entries.map(({ ties }) => ties)).toEqual(['a', 'a']);
    expect(order.sentence).toMatch(/Undecided \(this run only, 1 pair\): which lay closer/);
  });

  test('only what both cover is compared', () => {
    const assessment = assess(route, [
      steady('a', (s) => (s < 600 ? 20 : 1)),
      steady('b', (s) => 2 + wobble(s), 600, 1200),
    ]);
    const pair = pairOf(assessment, 'lane');
    expect(pair.difference).toBeCloseTo(-1, 1);
    expect(pairOf(assessment, null).commonShare).toBeCloseTo(0.5, 2);
    expect(pairOf(assessment, null).difference).toBeCloseTo(-1, 1);
    expect(pairOf(assessment, 'quay')).toMatchObject({
      verdict: 'undecided',
      difference: null,
      closer: null,
      limits: [{ reason: 'nothing-in-common' }],
    });
  });

  test('recordings of different runs are not compared', () => {
    const [a, b] = [steady('a', () => 1), steady('b', () => 9)];
    const assessment = assess(route, [
      { recording: a, run: 'Monday' },
      { recording: b, run: 'Tuesday' },
    ]);
    expect(assessment.pairs).toEqual([]);
    expect(assessment.order.map(({ run }) => run)).toEqual([
      'Monday',
      'Monday',
      'Monday',
      'Tuesday',
      'Tuesday',
      'Tuesday',
    ]);
  });
});

test('equal totals, different roads: the lengths agree within 0.1 %, the assessment does not', () => {
  // That the total distance misleads is common practice of the trade, no source.
  const straight = steady('straight', () => 0.5);
  const astray = steady('astray', (s) => (s < 560 ? 8 : s < 640 ? (8 * (600 - s)) / 40 : -8));
  const assessment = assess(route, [straight, astray]);
  const [a, b] = assessment.totals;
  expect(Math.abs(a.recordedLength - b.recordedLength) / a.referenceLength).toBeLessThan(0.001);
  const pair = pairOf(assessment, null);
  expect(pair.verdict).toBe('closer');
  expect(pair.closer).toBe('straight');
  expect(pair.between).toBeGreaterThan(6);
  expect(Math.abs(pair.lengthDifference!)).toBeLessThan(1.2);
});

test('length error is the sum of its terms, by section and over the whole; distances at marks end at the total', () => {
  const [{ recording }] = simulateRun(route, { seed: 12, receivers: [{ name: 'a', sigma: 4 }] });
  const assessment = assess(route, [recording]);
  for (const row of assessment.rows) {
    expect(row.turnTerm! + row.wiggleTerm! + row.remainder!).toBeCloseTo(row.lengthError!, 9);
    expect(row.wiggleTerm).toBeGreaterThanOrEqual(0);
    // every step recorded whole: nothing is left for the remainder but the ends
    expect(Math.abs(row.remainder!)).toBeLessThan(0.01 * row.referenceLength);
  }
  const [quay, lane, whole] = assessment.rows;
  expect(quay.recordedLength! + lane.recordedLength!).toBeCloseTo(whole.recordedLength!, 6);
  expect(whole.recordedLength).toBeCloseTo(assessment.recordings[0].recordedLength!, 6);
  const finish = assessment.distances.find(({ mark }) => mark === null)!;
  expect(finish.recorded).toBeCloseTo(whole.recordedLength!, -1);
});

describe('exclusion', () => {
  test('a stretch is taken out for all alike, its reason in the method', () => {
    const given = [steady('a', (s) => (s > 200 && s < 260 ? 25 : 1)), steady('b', () => 2)];
    const exclude = [{ from: 195, to: 265, reason: 'the quay was dug up' }];
    const assessment = assess(route, given, { exclude });
    const row = rowOf(assessment, { recording: 'a', section: 'quay' });
    expect(row.meanAbsolute).toBeCloseTo(1, 2);
    expect(row.referenceLength).toBeCloseTo(530, 3);
    expect(row.coverage).toBeGreaterThan(0.99);
    expect(assessment.method.options.exclude).toEqual(exclude);
    expect(assessment.method.sentences.join(' ')).toContain('the quay was dug up');
    expect(assessment.warnings.map(({ reason }) => reason)).toContain('excluded');
    expect(assessment.method.hash).not.toBe(assess(route, given).method.hash);
  });

  test.each([
    [{ from: -1, to: 5, reason: 'x' }, 'options.exclude[0].from must be a number of at least 0'],
    [{ from: 5, to: 1, reason: 'x' }, 'options.exclude[0].to must be a number of at least 5'],
    [{ from: 1, to: 5, reason: '' }, 'options.exclude[0].reason must be stated in words'],
  ])('%o is refused', (stretch, message) => {
    expect(() => assess(route, [steady('a', () => 1)], { exclude: [stretch] })).toThrow(message);
  });
});

describe('the reference', () => {
  test('moved by its uncertainty, a narrow order changes and a clear one does not', () => {
    const doubtful = build(2);
    const narrow = assess(doubtful, [steady('a', () => 1), steady('b', () => -1.2)]);
    expect(narrow.referenceDoubt!.shift).toBe(2);
    expect(narrow.referenceDoubt!.trials).toHaveLength(10);
    expect(narrow.referenceDoubt!.orderChanges).toBe(1);
    expect(narrow.warnings.map(({ reason }) => reason)).toContain('order-depends-on-reference');
    expect(narrow.referenceDoubt!.verdictChanges).toBe(0);
    // moved 2 m left: |1 + 2| − |−1.2 + 2| = 2.2; as it lies −0.2: the floor is what it changes
    expect(pairOf(narrow, null).floor).toBeCloseTo(2.4, 1);
    expect(pairOf(narrow, null).verdict).not.toBe('closer');
    const clear = assess(doubtful, [steady('a', () => 1), steady('b', () => 9)]);
    expect(clear.referenceDoubt!.orderChanges).toBe(0);
    expect(assess(route, [steady('a', () => 1)]).referenceDoubt).toBeNull();
  });

  test('another way travelled for a stretch is no shift of the map', () => {
    // a street 25 m north of the quay, then the lane as drawn
    const street = (s: number) => (s < 600 ? -25 : 0);
    const { commonShift, warnings } = assess(route, [steady('a', street), steady('b', (s) => street(s) + 0.5)]);
    const reasons = warnings.map(({ reason }) => reason);
    expect(reasons).toContain('shared-detour');
    expect(reasons).not.toContain('common-shift');
    expect(commonShift === null || commonShift.distance < 1).toBe(true);
  });

  test('a shift common to all is found and not removed', () => {
    // 1 m east and 2 m north: the quay runs east (right is south), the lane north (right is east)
    const shifted = (s: number) => (s < 600 ? -2 : 1);
    const assessment = assess(route, [steady('a', shifted), steady('b', shifted)]);
    expect(assessment.commonShift!.east).toBeCloseTo(1, 1);
    expect(assessment.commonShift!.north).toBeCloseTo(2, 1);
    expect(assessment.commonShift!.azimuth).toBeCloseTo(26.57, -0.5);
    expect(assessment.warnings.map(({ reason }) => reason)).toContain('common-shift');
    expect(assessment.rows[0].bias).toBeCloseTo(-2, 1);
    const oneWay = routeBuilder().start(start).lineTo(corner).build();
    expect(
      assess(oneWay, [
        besideRoute(
          oneWay,
          'a',
          steadyFixes({ from: 0, to: 600 }, () => 1),
        ),
      ]).commonShift,
    ).toBeNull();
  });
});

describe('bad recordings are named and left out, the rest stands', () => {
  const good = [steady('a', (s) => 1 + wobble(s)), steady('b', (s) => 8 + wobble(s))];
  const nothing: Recording = {
    ...good[0],
    name: 'empty',
    lon: new Float64Array(0),
    lat: new Float64Array(0),
    time: new Float64Array(0),
    gapBefore: new Uint8Array(0),
  };
  const single: Recording = {
    ...good[0],
    name: 'single',
    lon: good[0].lon.slice(0, 1),
    lat: good[0].lat.slice(0, 1),
    time: good[0].time!.slice(0, 1),
    gapBefore: new Uint8Array([1]),
  };
  const elsewhere: Recording = { ...good[0], name: 'elsewhere', lon: good[0].lon.map((lon) => lon + 3) };
  const beside: Recording = { ...good[0], name: 'beside', lat: good[0].lat.map((lat) => lat + 0.02) };
  const days: Recording = { ...good[0], name: 'days', time: good[0].time!.map((time, i) => time + i * 600_000) };
  const blank: Recording = {
    ...good[0],
    name: 'blank',
    lon: good[0].lon.map(() => Number.NaN),
    lat: good[0].lat.map(() => Number.NaN),
  };
  const alone = assess(route, good);

  test.each([
    [nothing, 'too-few-fixes'],
    [single, 'too-few-fixes'],
    [blank, 'too-few-fixes'],
    [elsewhere, 'off-the-route'],
    [beside, 'off-the-route'],
    [days, 'spans-days'],
  ] as const)('$name: %s', (bad, reason) => {
    const assessment = assess(route, [good[0], bad, good[1]]);
    expect(assessment.warnings).toContainEqual(expect.objectContaining({ reason, recording: bad.name }));
    expect(assessment.recordings[1]).toMatchObject({ name: bad.name, included: false });
    expect(assessment.pairs).toEqual(alone.pairs);
    expect(assessment.order).toEqual(alone.order);
    expect(JSON.parse(JSON.stringify(assessment))).toEqual(assessment);
  });

  test('two of one name are told apart', () => {
    const assessment = assess(route, [good[0], { ...good[1], name: 'a' }]);
    expect(assessment.recordings.map(({ name }) => name)).toEqual(['a', 'a (2)']);
    expect(assessment.warnings.map(({ reason }) => reason)).toContain('renamed');
  });

  test('only bad ones: nothing to compare, and no crash', () => {
    const assessment = assess(route, [single]);
    expect(assessment.rows).toEqual([]);
    expect(assessment.pairs).toEqual([]);
  });

  test.each([
    ['wrong-type', 'recordings must be an array', undefined],
    ['wrong-type', 'recordings[0] must be a recording with columns lon, lat and gapBefore', [3]],
    ['unknown-key', 'recordings[0].reciever must be one of', [{ recording: good[0], reciever: 'x' }]],
    ['wrong-type', 'recordings[0].run must be a string', [{ recording: good[0], run: 3 }]],
    [
      'out-of-range',
      'recordings[0].lat length must be 401, as lon has, not 400',
      [{ ...good[0], lat: good[0].lat.slice(1) }],
    ],
  ])('refused as %s: %s', (reason, message, recordings) => {
    const call = () => assess(route, recordings as never);
    expect(call).toThrow(InputError);
    expect(call).toThrow(expect.objectContaining({ reason, message: expect.stringContaining(message) }));
  });
});

test('inputs are not written to, and the same input gives the same assessment', () => {
  const given = [steady('a', () => 1), steady('b', () => 2)];
  const copies = given.map(({ lon, lat, time }) => [lon.slice(), lat.slice(), time!.slice()]);
  const first = assess(route, given);
  expect(given.map(({ lon, lat, time }) => [lon, lat, time])).toEqual(copies);
  expect(assess(route, given)).toEqual(first);
});

test('runs in one call or in several come to the same summary', () => {
  const runs = [1, 2, 3].map((seed) =>
    simulateRun(route, {
      seed,
      receivers: [
        { name: `a${seed}`, sigma: 3 },
        { name: `b${seed}`, sigma: 3, bias: 9 },
      ],
    }).map(({ recording }, i) => ({ recording, receiver: 'AB'[i], run: `${seed}` })),
  );
  const together = combine([assess(route, runs.flat())]);
  const apart = combine(runs.map((run) => assess(route, run)));
  expect(together.pairs).toEqual(apart.pairs);
  expect(together.rows).toEqual(apart.rows);
  expect(apart.pairs.at(-1)).toMatchObject({ verdict: 'closer', closer: 'A', runs: 3 });
});
