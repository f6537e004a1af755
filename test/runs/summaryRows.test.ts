import { assess, combine } from 'datumline';
import { describe, expect, test } from 'vitest';
import { invented } from '../assess/inventedRuns';
import { besideRoute, steadyFixes } from '../support/besideRoute';
import { correlatedOffsets, normals } from '../support/correlatedOffsets';

const { route } = invented;

/** Runs of receivers with errors of σ 1 m lasting 15 m, each lying so far to the right in each run. */
const runsOf = (seed: number, offsets: Readonly<Record<string, readonly number[]>>) => {
  const normal = normals(seed);
  const names = Object.keys(offsets);
  return offsets[names[0]].map((_, k) =>
    assess(
      route,
      names.map((receiver) => {
        const errors = correlatedOffsets(normal, { seconds: 601, correlation: 15, sigma: 1 });
        const fixes = steadyFixes({ from: 0, to: 600 }, (s) => offsets[receiver][k] + errors[s]);
        return { recording: besideRoute(route, `${receiver} ${k}`, fixes), receiver, run: `${k}` };
      }),
    ),
  );
};

describe('verdicts against the line over runs', () => {
  const summary = combine(runsOf(1, { far: [9, 8, 8.5], near: [0.2, -0.3, 0] }));
  const rowOf = (receiver: string, section: string | null) =>
    summary.rows.find((row) => row.receiver === receiver && row.section === section)!;

  test('8 m right in all three runs, in a corridor of 6 m: strayed for sure, to the right', () => {
    for (const section of ['west', 'east', null]) {
      const row = rowOf('far', section);
      expect(row).toMatchObject({ lineVerdict: 'strayed', strayedTo: 'right', lineLimit: 6 });
      expect(row.biasInterval95![0]).toBeLessThan(8.5);
      expect(row.biasInterval95![1]).toBeGreaterThan(8.5);
      expect(row.insideCorridor).toBeLessThan(0.05);
      expect(row.insideCorridorInterval95![1]).toBeLessThan(0.5);
    }
    const order = summary.order.at(-1)!;
    expect(order.sentence).toMatch(/^Over the whole route: “far” strayed to the right/);
  });

  test('about the line in all three: kept', () => {
    const row = rowOf('near', null);
    expect(row).toMatchObject({ lineVerdict: 'kept', strayedTo: null });
    expect(row.biasInterval95![0]).toBeLessThan(0);
    expect(row.biasInterval95![1]).toBeGreaterThan(0);
    expect(row.insideCorridor).toBeGreaterThan(0.99);
    expect(row.insideCorridorInterval95![0]).toBeGreaterThan(0.7);
  });

  test('in one run as well, the row says so', () => {
    const [one] = runsOf(2, { far: [9] });
    expect(one.rows.at(-1)).toMatchObject({ lineVerdict: 'strayed', strayedTo: 'right' });
  });
});

test('runs that differ more than their scatter explains are told of, with where; others aren’t', () => {
  const calm = combine(runsOf(3, { a: [3, 3, 3], b: [4, 4, 4] }));
  expect(calm.warnings.filter(({ reason }) => reason === 'runs-differ')).toEqual([]);
  const torn = combine(runsOf(4, { a: [3, 9, 14], b: [4, 4, 4] }));
  const told = torn.warnings.filter(({ reason }) => reason === 'runs-differ');
  expect(told.map(({ receiver }) => receiver)).toEqual(['a']);
  expect(told[0].message).toContain('“west”, “east”, the whole route');
  // the intervals over runs allow for it: as wide as the runs are apart
  const [low, high] = torn.rows.find(({ receiver, section }) => receiver === 'a' && section === null)!.interval95!;
  expect(low).toBeLessThan(5);
  expect(high).toBeGreaterThan(13);
});

describe('a baseline', () => {
  const runs = runsOf(5, { a: [1, 1.2, 1], b: [6, 6.1, 6], c: [6, 6.2, 6] });

  test('combine compares with it alone, and corrects for that many', () => {
    const summary = combine(runs, { baseline: 'b' });
    expect(summary.baseline).toBe('b');
    const whole = summary.pairs.filter(({ section }) => section === null);
    expect(whole.map(({ first, second }) => [first, second])).toEqual([
      ['a', 'b'],
      ['b', 'c'],
    ]);
    const [least, greatest] = whole.map(({ pValue }) => pValue!).sort((x, y) => x - y);
    expect(Math.min(...whole.map(({ adjustedPValue }) => adjustedPValue!))).toBeCloseTo(2 * least, 12);
    expect(Math.max(...whole.map(({ adjustedPValue }) => adjustedPValue!))).toBeCloseTo(
      Math.max(2 * least, greatest),
      12,
    );
    expect(() => combine(runs, { baseline: 'd' })).toThrow(
      expect.objectContaining({ reason: 'wrong-type', argument: 'options.baseline' }),
    );
  });

  test('assess does, and combine goes on with it', () => {
    const recordings = runs[0].recordings.map(({ receiver }, i) => ({
      recording: besideRoute(
        route,
        `again ${i}`,
        steadyFixes({ from: 0, to: 600 }, () => 1 + i),
      ),
      receiver: receiver!,
    }));
    const assessment = assess(route, recordings, { baseline: 'a' });
    expect(assessment.method.options.baseline).toBe('a');
    expect(assessment.pairs.filter(({ section }) => section === null).map(({ second }) => second)).toEqual([
      'again 1',
      'again 2',
    ]);
    expect(combine([assessment, assessment]).baseline).toBe('a');
    expect(() => assess(route, recordings, { baseline: 'z' })).toThrow(
      expect.objectContaining({ reason: 'wrong-type', argument: 'options.baseline' }),
    );
  });

  test('a run without it is said to compare nothing', () => {
    const carried = (receiver: string, run: string) => ({
      recording: besideRoute(
        route,
        `${receiver} ${run}`,
        steadyFixes({ from: 0, to: 600 }, () => 1),
      ),
      receiver,
      run,
    });
    const { pairs, warnings } = assess(
      route,
      [carried('a', '1'), carried('b', '1'), carried('b', '2'), carried('c', '2')],
      { baseline: 'a' },
    );
    expect(new Set(pairs.map(({ first }) => first))).toEqual(new Set(['a 1']));
    expect(warnings.filter(({ reason }) => reason === 'no-baseline')).toHaveLength(1);
  });
});

test('four receivers and more: one test of all together, which refutes whatever the pairs do', () => {
  const four = combine(runsOf(6, { a: [1, 1, 1], b: [1.1, 1, 1], c: [1, 1.1, 1], d: [4, 4, 4.1] }));
  const order = four.order.at(-1)!;
  expect(order.overallPValue).toBeLessThan(0.01);
  expect(combine(runsOf(7, { a: [1, 1, 1], b: [1, 1, 1], c: [1, 1, 1] })).order.at(-1)!.overallPValue).toBeNull();
});

test('errors that last very unlike in one run are a limit of its rows', () => {
  const normal = normals(8);
  const [quick, slow] = [6, 60].map((correlation, i) => {
    const errors = correlatedOffsets(normal, { seconds: 601, correlation });
    return besideRoute(
      route,
      `${i}`,
      steadyFixes({ from: 0, to: 600 }, (s) => errors[s]),
    );
  });
  const { rows } = assess(route, [quick, slow]);
  for (const row of rows.filter(({ section }) => section === null)) {
    const limit = row.limits.find(({ reason }) => reason === 'unlike-memories');
    expect(limit?.message).toMatch(/^Errors last \d+ m of the way in one recording of the run and \d+ m in another/);
  }
});
