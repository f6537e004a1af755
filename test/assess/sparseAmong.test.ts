import { assess, combine, direct, type Pair, routeBuilder, rowOf } from 'datumline';
import { describe, expect, test } from 'vitest';
import { sparseGain } from '../../src/assess/sparseGain';
import { type SimulatedReceiver, simulateRun } from '../support/simulateRun';

const start: [number, number] = [2.1, 61.4];
const road = routeBuilder({ lateral95: 0.1 })
  .start(start)
  .lineTo(direct(start, 90, 6000).position)
  .build();
const carried = (seed: number, receivers: readonly SimulatedReceiver[]) =>
  assess(
    road,
    simulateRun(road, { seed, correlation: 20, receivers }).map(({ recording }) => recording),
  );
const whole = ({ pairs }: { readonly pairs: readonly Pair[] }, name: string) =>
  pairs.filter(({ section, first, second }) => section === null && (first === name || second === name));

describe('what straight lines between fixes take off a mean distance', () => {
  test.each([0.001, 0.05, 0.5, 1, 3, 40])(
    'spacing %s times as long as the memory: the integral, by the midpoint rule',
    (ratio) => {
      const rho = Math.exp(-ratio);
      const steps = 20_000;
      let sum = 0;
      for (let i = 0; i < steps; i++) {
        const t = (i + 0.5) / steps;
        // variance of (1 − t) x + t y, of variance 1 each and correlation rho
        sum += Math.sqrt((1 - t) ** 2 + t ** 2 + 2 * t * (1 - t) * rho) / steps;
      }
      expect(sparseGain(60 * ratio, 60)).toBeCloseTo(1 - sum, 8);
    },
  );

  test('nothing where fixes are close or errors never change; at most a fifth', () => {
    expect(sparseGain(0, 60)).toBe(0);
    expect(sparseGain(3, Infinity)).toBe(0);
    expect(sparseGain(1e9, 1)).toBeCloseTo(0.18838, 4);
  });
});

describe('equal receivers of σ 6 m, one with a fix a minute', () => {
  const alike = [
    { name: 'a', sigma: 6 },
    { name: 'b', sigma: 6 },
    { name: 'minute', sigma: 6, interval: 60 },
  ];
  const tests = Array.from({ length: 20 }, (_, i) => carried(70 + i, alike));

  test('it looks closer by as much as foretold', () => {
    const ratios = tests.map((found) => {
      const of = (recording: string) => rowOf(found, { recording }).meanAbsolute!;
      return (2 * of('minute')) / (of('a') + of('b'));
    });
    // a test's ratio scatters by 0.12, their mean by 0.027
    const mean = ratios.reduce((sum, ratio) => sum + ratio / ratios.length, 0);
    expect(Math.abs(mean - (1 - sparseGain(180, 60)))).toBeLessThan(0.08);
  });

  test('and is called so by no more than chance, as it would be without the mend', () => {
    const pairs = tests.flatMap((found) => whole(found, 'minute'));
    const excludes0 = pairs.filter(({ interval95 }) => interval95![0] > 0 || interval95![1] < 0);
    expect(excludes0.length).toBeGreaterThan(pairs.filter(({ closer }) => closer === 'minute').length);
    const said = tests.filter((found) => whole(found, 'minute').some(({ closer }) => closer === 'minute'));
    // 5 % at worst: more than 3 of 20 once in 60
    expect(said.length).toBeLessThanOrEqual(3);
  });

  test('who it is, and by how much it is flattered, stands in a warning', () => {
    const found = tests[0].warnings.filter(({ reason }) => reason === 'sparse-fixes');
    expect(found.map(({ recording }) => recording)).toEqual(['minute']);
    expect(found[0].message).toMatch(
      /^It has a fix every 1[78]\d m, “[ab]” every [34]\.\d m: errors average out on the straight lines between, which alone brings it up to 1\d % closer\. No verdict rests on that\.$/,
    );
  });
});

test('one with few fixes that is really closer is found, and so is one that is really further', () => {
  const found = carried(3, [
    { name: 'good', sigma: 1, interval: 60 },
    { name: 'fair', sigma: 5 },
    { name: 'poor', sigma: 14, interval: 60 },
  ]);
  expect(whole(found, 'fair').map(({ closer }) => closer)).toEqual(['good', 'fair']);
});

test('over runs as well the whole interval must lie beyond what sparse fixes explain', () => {
  const runs = [1, 2, 3].map((run) => {
    const found = carried(30 + run, [
      { name: 'good', sigma: 2, interval: 60 },
      { name: 'fair', sigma: 5 },
    ]);
    return { ...found, recordings: found.recordings.map((one) => ({ ...one, receiver: one.name, run: `${run}` })) };
  });
  for (const { pairs } of runs) {
    expect(pairs[0].sparseGain).toBeGreaterThan(0.3);
    // the lever arm is all else that the floor holds
    expect(pairs[0].floor).toBeCloseTo(0.5 + pairs[0].sparseGain, 9);
  }
  const explained = (metres: number) =>
    combine(runs.map((run) => ({ ...run, pairs: run.pairs.map((pair) => ({ ...pair, sparseGain: metres })) })))
      .pairs[0];
  const { interval95, closer } = explained(0);
  expect(closer).toBe('good');
  const least = Math.min(...interval95!.map(Math.abs));
  expect(explained(least - 0.01)).toMatchObject({ verdict: 'closer', closer: 'good' });
  expect(explained(least + 0.01)).toMatchObject({ verdict: 'undecided', limits: [{ reason: 'sparse-fixes' }] });
});

test('twice as many fixes a minute are nothing to speak of', () => {
  const { warnings, pairs } = carried(3, [
    { name: 'a', sigma: 5 },
    { name: 'b', sigma: 5, interval: 1.5 },
  ]);
  expect(warnings.map(({ reason }) => reason)).not.toContain('sparse-fixes');
  expect(pairs.map(({ floor }) => floor)).toEqual([0.5]);
});
