import {
  assess,
  combine,
  combineByTime,
  judgeByTime,
  type Recording,
  routeFromLine,
  type TimedAssessment,
} from 'datumline';
import { expect, test } from 'vitest';
import { correlatedOffsets, normals } from '../support/correlatedOffsets';
import { schemaJudge } from '../support/schemaJudge';
import { every, TimedRide } from '../support/timedRide';

const ride = new TimedRide({ seconds: 400, speed: () => 3, azimuth: () => 90 });

interface Carried {
  readonly name: string;
  readonly sigma: number;
  readonly aside?: number;
  readonly until?: number;
  readonly placement?: string;
}

/** One run: each receiver's errors along and across, lasting 4 s. */
function runOf(
  seed: number,
  carried: readonly Carried[],
  { doubt = 0.05, run }: { doubt?: number; run?: string } = {},
) {
  const normal = normals(seed);
  const entries = carried.map(({ name, sigma, aside = 0, until = 399, placement }) => {
    const [ahead, right] = [0, 1].map(() => correlatedOffsets(normal, { seconds: 401, correlation: 4, sigma }));
    const recording: Recording = ride.record(
      every(until, 1),
      { ahead: (t) => ahead[t], right: (t) => aside + right[t] },
      name,
    );
    return { recording, receiver: name, placement, run };
  });
  return judgeByTime(ride.truth(5, doubt), entries, { leverArm: 0.1 });
}
const alike = (seed: number, options = {}) =>
  runOf(
    seed,
    [
      { name: 'A', sigma: 1, aside: 3 },
      { name: 'B', sigma: 3 },
    ],
    options,
  );
const days = [91, 92, 93].map((seed) => alike(seed));

test('the run is the unit: means over runs, each counting once, the largest of maxima', () => {
  const { rows, runs, receivers } = combineByTime(days);
  expect(runs.map(({ name }) => name)).toEqual(['run 1', 'run 2', 'run 3']);
  expect(receivers).toEqual(['A', 'B']);
  const [a] = rows;
  const mine = days.map((day) => day.rows.find(({ recording }) => recording === 'A')!);
  const meanOf = (value: (row: (typeof mine)[number]) => number) => mine.reduce((sum, row) => sum + value(row) / 3, 0);
  expect(a.runs).toBe(3);
  expect(a.horizontal!.mean).toBeCloseTo(
    meanOf((row) => row.horizontal!.mean),
    12,
  );
  expect(a.across!.mean).toBeCloseTo(
    meanOf((row) => row.across!.mean),
    12,
  );
  for (const share of ['p50', 'p68', 'p75', 'p95', 'sd', 'rms'] as const)
    expect(a.along![share].mean).toBeCloseTo(
      meanOf((row) => row.along![share]),
      12,
    );
  expect(a.ce95!.mean).toBeCloseTo(
    meanOf((row) => row.ce95!),
    12,
  );
  expect(a.horizontal!.max).toBe(Math.max(...mine.map((row) => row.horizontal!.max)));
  expect(a.across!.byRun).toEqual(mine.map((row) => row.across!.mean));
  expect(a.delay!.mean).toBeCloseTo(
    meanOf((row) => row.delay!.seconds),
    12,
  );
  expect(a.availability).toBeCloseTo(
    meanOf((row) => row.availability!),
    12,
  );
  expect(a.doubt95).toBe(0.05);
  const [low, high] = a.across!.interval95!;
  expect(low).toBeLessThan(3);
  expect(high).toBeGreaterThan(3);
  expect(a.horizontal!.p95.interval95![0]).toBeLessThan(a.horizontal!.p95.mean);
});

test('closer over runs is claimed on horizontal errors; one run ranks nothing', () => {
  const [pair] = combineByTime(days).pairs;
  const differences = days.map(({ pairs }) => pairs[0].difference!);
  expect(pair.byRun).toEqual(differences);
  expect(pair.difference).toBeCloseTo(
    differences.reduce((sum, one) => sum + one / 3, 0),
    12,
  );
  const three = [94, 95, 96].map((seed) =>
    runOf(seed, [
      { name: 'A', sigma: 1 },
      { name: 'B', sigma: 4 },
    ]),
  );
  expect(combineByTime(three).pairs[0]).toMatchObject({ verdict: 'closer', closer: 'A', runs: 3 });
  const equal = [94, 95, 96].map((seed) =>
    runOf(seed, [
      { name: 'A', sigma: 1 },
      { name: 'B', sigma: 1 },
    ]),
  );
  expect(combineByTime(equal).pairs[0].verdict).toBe('equivalent');
  const one = combineByTime([three[0]]);
  expect(one.pairs[0]).toMatchObject({ verdict: 'undecided', interval95: null });
  expect(one.rows[0].horizontal!.interval95).toBeNull();
  expect(one.warnings.map(({ reason }) => reason)).toEqual(['one-run']);
});

test('the truth’s own doubt, outages and places never swapped hold verdicts back over runs too', () => {
  const carried = (aTo = 399, places: readonly [string?, string?] = []) => [
    { name: 'A', sigma: 1, until: aTo, placement: places[0] },
    { name: 'B', sigma: 2.4, placement: places[1] },
  ];
  const over = (make: (seed: number) => TimedAssessment) => combineByTime([94, 95, 96].map(make));
  expect(over((seed) => runOf(seed, carried())).pairs[0].verdict).toBe('closer');
  const coarse = over((seed) => runOf(seed, carried(), { doubt: 4 }));
  expect(coarse.pairs[0].verdict).toBe('undecided');
  expect(coarse.pairs[0].limits.map(({ reason }) => reason)).toContain('below-floor');
  expect(coarse.rows[0].horizontal!.unresolved).toContain('mean');
  expect(coarse.rows[0].resolution).toBeLessThan(1);
  const absent = over((seed) => runOf(seed, carried(350)));
  expect(absent.pairs[0].limits.map(({ reason }) => reason)).toEqual(['outages']);
  const worn = over((seed) => runOf(seed, carried(399, ['left wrist', 'right wrist'])));
  expect(worn.pairs[0].limits.map(({ reason }) => reason)).toEqual(['unbalanced']);
  expect(worn.warnings.map(({ reason }) => reason)).toContain('unbalanced');
});

test('intervals over three runs hold the truth as often as they say', () => {
  let [held, all] = [0, 0];
  for (let trial = 0; trial < 20; trial++) {
    const runs = [0, 1, 2].map((k) => alike(70_000 + 10 * trial + k));
    for (const [i, row] of combineByTime(runs).rows.entries()) {
      const sigma = i === 0 ? 1 : 3;
      const truths = [
        { told: row.along!.interval95!, truth: 0 },
        { told: row.across!.interval95!, truth: i === 0 ? 3 : 0 },
        { told: row.along!.rms.interval95!, truth: sigma },
        { told: row.along!.p50.interval95!, truth: 0.67449 * sigma },
        { told: row.along!.p95.interval95!, truth: 1.95996 * sigma },
      ];
      for (const { told, truth } of truths) {
        all++;
        if (told[0] <= truth && truth <= told[1]) held++;
      }
    }
  }
  // never less than foretold: they hold rather more often than 95 %
  expect(held / all).toBeGreaterThan(0.93);
});

test('combine puts it beside what the runs say of the route, as its schema says, through JSON and back', () => {
  const { lon, lat } = ride.truth(1);
  const route = routeFromLine({ lon, lat });
  const record = (name: string, right: number, run: string) => ({
    recording: ride.record(every(390, 1), { right: () => right }, name),
    receiver: name,
    run,
  });
  const entries = ['one', 'two'].map((run, i) => [record('A', 1 + i / 10, run), record('B', 4, run)]);
  const byTime = entries.map((run) => judgeByTime(ride.truth(2, 0.1), run, { route }));
  const summary = combine(
    entries.map((run) => assess(route, run)),
    { byTime, baseline: 'A' },
  );
  expect(summary.byTime).toEqual(combineByTime(byTime, { baseline: 'A' }));
  expect(summary.byTime!.runs.map(({ name }) => name)).toEqual(['one', 'two']);
  expect(JSON.parse(JSON.stringify(summary))).toEqual(summary);
  expect(schemaJudge('testSummary')(summary)).toEqual([]);
  expect(combine(entries.map((run) => assess(route, run))).byTime).toBeNull();
});

test('what was left out, missing or no timed assessment is named', () => {
  const without = { ...days[2], recordings: days[2].recordings.filter(({ name }) => name !== 'B'), pairs: [] };
  const { warnings, pairs } = combineByTime([days[0], days[1], without]);
  expect(warnings.map(({ reason, receiver, run }) => [reason, receiver, run])).toEqual([
    ['missing-receiver', 'B', 'run 3'],
  ]);
  expect(pairs[0].runs).toBe(2);
  expect(() => combineByTime([])).toThrow(/^timed must be at least 1 timed assessment/);
  expect(() => combineByTime([{} as never])).toThrow(/^timed\[0\] must be what judgeByTime returned/);
  expect(() => combineByTime(days, { baseline: 'C' })).toThrow(/^options\.baseline must be/);
  expect(() => combineByTime(days, { runs: 1 } as object)).toThrow(/^options\.runs must be/);
  expect(() =>
    combine(
      [
        assess(
          routeFromLine([
            [1, 1],
            [1.01, 1],
          ]),
          [],
        ),
      ],
      { byTime: [null as never] },
    ),
  ).toThrow(/^(options\.byTime\[0\]|recordings) must be/);
});

test('twice as many receivers: the pairs of an assessment are looked through once, not once a pair', () => {
  const [few, many] = [6, 12].map((count) => {
    const names = Array.from({ length: count }, (_, i) => ({ name: `r${i}`, sigma: 2 }));
    const once = runOf(7, names, { run: 'May 3' });
    let asked = 0;
    // each pair tells when somebody asks where it belongs
    const pairs = once.pairs.map((pair) => {
      const get = () => {
        asked++;
        return pair.section;
      };
      return Object.defineProperty({ ...pair }, 'section', { get, enumerable: true });
    });
    combineByTime([{ ...once, pairs }]);
    return asked / pairs.length;
  });
  expect(many).toBeLessThan(1.5 * few);
});
