import { assess, combine } from 'datumline';
import { describe, expect, test } from 'vitest';
import { invented } from '../assess/inventedRuns';
import { besideRoute, steadyFixes } from '../support/besideRoute';
import { normals } from '../support/correlatedOffsets';

const { route, left, right } = invented;

interface Worn {
  readonly receiver: string;
  readonly placement?: string;
  /** Metres beside the route all along. */
  readonly offset: number;
}

/** Runs of receivers that keep a steady distance, so that every mean distance is the number given. */
const combined = (runs: readonly (readonly Worn[])[]) =>
  combine(
    runs.map((worn, k) =>
      assess(
        route,
        worn.map(({ receiver, placement, offset }) => ({
          recording: besideRoute(
            route,
            `${receiver}, ${k}`,
            steadyFixes({ from: 0, to: 600 }, () => offset),
          ),
          receiver,
          placement,
          run: `${k}`,
        })),
      ),
    ),
  );

describe('what a place changes', () => {
  test('two receivers swapped once, worked by hand: ((A left − A right) + (B left − B right)) ÷ 2', () => {
    // the second run is 1 m worse for both; A is 2 m better than B; left is 3 m worse than right
    const [effect, ...others] = combined([
      [
        { receiver: 'A', placement: left, offset: 5 },
        { receiver: 'B', placement: right, offset: 4 },
      ],
      [
        { receiver: 'A', placement: right, offset: 3 },
        { receiver: 'B', placement: left, offset: 8 },
      ],
    ]).placementEffects;
    expect(others).toEqual([]);
    expect(effect).toMatchObject({ first: left, second: right, receivers: 2, interval95: null });
    expect(effect.difference).toBeCloseTo((5 - 3 + (8 - 4)) / 2, 3);
  });

  test('four runs, the place worth 1 m and a rest of ± 0.1 m: found, with the interval of least squares', () => {
    const rest = [0.1, -0.1, -0.1, 0.1];
    const run = [0, 0.5, 1, 0.2];
    const [effect] = combined(
      run.map((worse, k) => {
        const swapped = k % 2 === 1;
        return [
          { receiver: 'A', placement: swapped ? right : left, offset: 4 + worse + (swapped ? 0 : 1) + rest[k] },
          { receiver: 'B', placement: swapped ? left : right, offset: 6 + worse + (swapped ? 1 : 0) - rest[k] },
        ];
      }),
    ).placementEffects;
    // By hand: of A − B the runs drop out: −2 ± 1 + 2 rest, that is −0.8, −3.2, −1.2, −2.8. Their means, left for A and right
    // for A, are −1 and −3: twice the place. About them ± 0.2: s² = 4 · 0.04 ÷ 2 = 0.08, of two degrees of freedom, and half
    // the difference of two means of two has the variance ¼ (0.04 + 0.04).
    expect(effect.difference).toBeCloseTo(1, 3);
    expect(effect.interval95![1] - effect.difference).toBeCloseTo(4.303 * Math.sqrt(0.02), 2);
  });

  test.each([
    ['never swapped', [left, right], [left, right]],
    ['all swapped together: it may be the day', [left, left], [right, right]],
    ['one of them unstated', [left, undefined], [left, undefined]],
  ] as const)('%s: no effect is reported', (_, first, second) => {
    const runs = [first, second].map((places, k) =>
      places.map((placement, i) => ({ receiver: 'AB'[i], placement, offset: 3 + i + k })),
    );
    expect(combined(runs).placementEffects).toEqual([]);
  });
});

test('sections in which the order is the reverse of the whole route’s are flips', () => {
  const runs = [1, 2, 3].map((k) =>
    assess(
      route,
      [
        ['A', (s: number) => (s < 300 ? 1 : 6 + k / 10)],
        ['B', (s: number) => (s < 300 ? 3 : 2)],
      ].map(([receiver, right]) => ({
        recording: besideRoute(
          route,
          `${receiver} ${k}`,
          steadyFixes({ from: 0, to: 600 }, right as (s: number) => number),
        ),
        receiver: receiver as string,
        run: `${k}`,
      })),
    ),
  );
  const summary = combine(runs);
  // over all A lies at 3.5 m, B at 2.5 m; in the west A at 1 m, B at 3 m
  expect(summary.flips).toEqual([{ section: 'west', first: 'A', second: 'B' }]);
  const { entries } = summary.order.at(-1)!;
  expect(entries.map(({ receiver }) => receiver)).toEqual(['B', 'A']);
  // sections of equal length: each section counting once is each metre counting once
  expect(entries[0].balancedMean).toBeCloseTo(entries[0].meanAbsolute, 2);
});

describe('verdicts over runs', () => {
  const swapped = [
    [left, right],
    [right, left],
    [left, right],
  ];
  const fixed = swapped.map(() => [left, right]);
  const pairOf = (places: readonly (readonly string[])[], offsets: readonly (readonly number[])[]) =>
    combined(
      places.map((row, k) => row.map((placement, i) => ({ receiver: 'AB'[i], placement, offset: offsets[k][i] }))),
    ).pairs.at(-1)!;

  test('one always at its own place: neither closer nor equivalent', () => {
    const apart = [
      [2, 6],
      [2.1, 6],
      [2, 6.2],
    ];
    const alike = [
      [2, 2.1],
      [2.1, 2],
      [2, 2],
    ];
    expect(pairOf(swapped, apart)).toMatchObject({ verdict: 'closer', closer: 'A' });
    expect(pairOf(swapped, alike)).toMatchObject({ verdict: 'equivalent', limits: [] });
    const limits = [{ reason: 'unbalanced' }];
    expect(pairOf(fixed, apart)).toMatchObject({ verdict: 'undecided', limits });
    expect(pairOf(fixed, alike)).toMatchObject({ verdict: 'undecided', limits });
  });

  test('the same in one assessment of several runs', () => {
    const normal = normals(5);
    const entries = (places: readonly (readonly string[])[], offsets: readonly number[]) =>
      assess(
        route,
        places.flatMap((row, k) =>
          row.map((placement, i) => ({
            recording: besideRoute(
              route,
              `${'AB'[i]} ${k}`,
              steadyFixes({ from: 0, to: 600 }, () => offsets[i] + 0.2 * normal()),
            ),
            receiver: 'AB'[i],
            placement,
            run: `${k}`,
          })),
        ),
      );
    const verdicts = (assessment: ReturnType<typeof entries>) =>
      new Set(assessment.pairs.map(({ verdict }) => verdict));
    expect(verdicts(entries(swapped, [2, 6]))).toEqual(new Set(['closer']));
    expect(verdicts(entries(fixed, [2, 6]))).toEqual(new Set(['undecided']));
    expect(verdicts(entries(fixed, [2, 2.1]))).toEqual(new Set(['undecided']));
    expect(entries(fixed, [2, 6]).warnings.map(({ reason }) => reason)).toContain('unbalanced');
    expect(entries(swapped, [2, 6]).warnings.map(({ reason }) => reason)).not.toContain('unbalanced');
    // of one run nothing is said of receivers: the verdict is on its two recordings, the warning stands beside it
    const one = entries([[left, right]], [2, 6]);
    expect(verdicts(one)).toEqual(new Set(['closer']));
    expect(one.warnings.map(({ reason }) => reason)).toEqual(expect.arrayContaining(['unbalanced', 'one-run']));
  });

  test('the closer one is not called so when, run by run, it was off the route where the other was on it', () => {
    const runs = [1, 2, 3].map((k) => {
      const stray = steadyFixes({ from: 0, to: 600 }, (s) =>
        s > 150 && s < 300 ? 130 * Math.sin((Math.PI * (s - 150)) / 150) : 1 + k / 20,
      );
      return assess(route, [
        { recording: besideRoute(route, `a ${k}`, stray), receiver: 'stray', run: `${k}` },
        {
          recording: besideRoute(
            route,
            `b ${k}`,
            steadyFixes({ from: 0, to: 600 }, () => 5),
          ),
          receiver: 'steady',
          run: `${k}`,
        },
      ]);
    });
    const pair = combine(runs).pairs.at(-1)!;
    expect(pair.difference).toBeLessThan(-2);
    expect(pair.interval95![1]).toBeLessThan(0);
    expect(pair).toMatchObject({
      verdict: 'undecided',
      limits: [{ reason: 'off-the-route', message: '“stray” spent more of it off the route.' }],
    });
  });

  test('little in common is no ground for a verdict', () => {
    const runs = [1, 2, 3].map((k) =>
      assess(route, [
        {
          recording: besideRoute(
            route,
            `a ${k}`,
            steadyFixes({ from: 0, to: 200 }, () => 1 + k / 20),
          ),
          receiver: 'A',
        },
        {
          recording: besideRoute(
            route,
            `b ${k}`,
            steadyFixes({ from: 0, to: 600 }, () => 8),
          ),
          receiver: 'B',
        },
      ]),
    );
    expect(combine(runs).pairs.at(-1)).toMatchObject({
      verdict: 'undecided',
      limits: [{ reason: 'little-in-common' }],
    });
  });
});

test.each([
  ['{ schema: 1 }', { schema: 1 }],
  ['a summary', combined([[{ receiver: 'A', offset: 1 }]])],
  ['null', null],
])('%s is no assessment: refused by name', (_, value) => {
  expect(() => combine([value as never])).toThrow(
    expect.objectContaining({
      reason: 'wrong-type',
      message: expect.stringMatching(/^assessments\[0\][\w.[\]]* must be /),
    }),
  );
});
