import { planTest } from 'datumline';
import { describe, expect, test } from 'vitest';
import { type ColumnResult, columnTrial } from '../../bench/support/columnTrials';
import { runTrial } from '../../bench/support/runTrials';
import { sectionTrial } from '../../bench/support/sectionTrial';
import { wholeTrial } from '../../bench/support/wholeTrials';
import { foldedMemory } from '../../src/statistics';
import { meanAbsoluteOf } from '../support/correlatedOffsets';
import { exponential, noiseModels } from '../support/noiseModels';

// The promises are the project's own; the full tables are in docs/verdicts.md, printed by bench/verdicts.ts. None of the seeds here
// was used to choose anything.

/** Two standard errors of a share: what so many trials can tell from it. */
const doubt = (share: number, trials: number) => 2 * Math.sqrt((share * (1 - share)) / trials);
const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value / values.length, 0);
/** Metres that σ 5 m lies off on average, and by how much 8 and 11 m lie further. */
const usual = 5 * Math.sqrt(2 / Math.PI);

test('the truth of the simulation is the folded normal mean', () => {
  // Leone, Nelson, Nottingham, The folded normal distribution, Technometrics 3 (1961): σ √(2/π) without bias
  expect(meanAbsoluteOf(0, 5)).toBeCloseTo(5 * Math.sqrt(2 / Math.PI), 5);
  expect(meanAbsoluteOf(100, 5)).toBeCloseTo(100, 6);
});

describe.each([exponential, ...noiseModels].map((model) => [model.what, model] as const))('errors %s', (_, model) => {
  test('what the model says its true mean distance and mean are, a long column has', () => {
    let seed = 17;
    const uniform = () => (seed = (seed * 16807) % 2147483647) / 2147483647;
    const normal = () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
    const column = model.offsets({ normal, uniform }, 400_000, 20);
    // 10 000 independent stretches: within 2 %; chords between irregular fixes cut another 2 %
    expect(Math.abs(mean(Array.from(column, Math.abs)) / model.meanAbsolute - 1)).toBeLessThan(0.04);
    expect(Math.abs(mean(Array.from(column)) - model.bias)).toBeLessThan(0.25);
  });

  test.each([
    [120, 10, 2],
    [300, 30, 6],
    [600, 30, 3],
    [900, 60, 4],
  ])(
    '%d s, lasting %d s, %d receivers: intervals hold the truth 91 to 98 % of the time',
    (seconds, correlation, count) => {
      const trials = 250;
      const result = columnTrial({
        seed: 910_000 + 7 * seconds + correlation,
        trials,
        seconds,
        correlation,
        scales: new Array(count).fill(1),
        model,
      });
      for (const held of [result.held, result.biasHeld].map(mean)) {
        expect(held).toBeGreaterThanOrEqual(0.91 - doubt(0.91, trials));
        expect(held).toBeLessThanOrEqual(0.98 + doubt(0.98, trials));
      }
      expect(result.any).toBeLessThanOrEqual(0.06 + doubt(0.06, trials));
    },
  );

  test('120 s, lasting 30 s: 88 % and more where an interval is given', () => {
    const trials = 300;
    const { held, given } = columnTrial({
      seed: 917_000,
      trials,
      seconds: 120,
      correlation: 30,
      scales: [1, 1, 1],
      model,
    });
    expect(given).toBeGreaterThan(0.4);
    expect(mean(held)).toBeGreaterThanOrEqual(0.88 - doubt(0.88, trials * given));
  });
});

test.each([exponential, ...noiseModels].map((model) => [model.what, model] as const))(
  'sections twice as long as errors last, six of them, errors %s: 88 % and more where an interval is given',
  (_, model) => {
    const [trials, receivers] = [60, 3];
    const run = { seed: 918_000, trials, seconds: 120, correlation: 60, sections: 6, receivers, model };
    const { given, held } = sectionTrial(run);
    expect(held).toBeGreaterThanOrEqual(0.88 - doubt(0.88, 6 * trials * receivers * given));
  },
);

describe('receivers that really differ', () => {
  const trials = 300;
  const found = (options: Partial<Parameters<typeof columnTrial>[0]> & { scales: readonly number[] }): ColumnResult =>
    columnTrial({ seed: 921_000, trials, seconds: 600, correlation: 30, ...options });

  test('one run of 600 s: 5 against 11 m, and 8 m, with two receivers', () => {
    expect(found({ scales: [1, 2.2] }).found['0-1']).toBeGreaterThanOrEqual(0.75 - doubt(0.75, trials));
    expect(found({ scales: [1, 1.6], seed: 922_000 }).found['0-1']).toBeGreaterThanOrEqual(0.35 - doubt(0.35, trials));
  });

  test('the same with three, after the correction', () => {
    const three = found({ scales: [1, 1.6, 2.2], seed: 923_000 });
    expect(three.found['0-2']).toBeGreaterThanOrEqual(0.6 - doubt(0.6, trials));
    expect(three.found['0-1']).toBeGreaterThanOrEqual(0.3 - doubt(0.3, trials));
  });

  test('900 s, two receivers', () => {
    const long = { seconds: 900, seed: 924_000 };
    expect(found({ ...long, scales: [1, 2.2] }).found['0-1']).toBeGreaterThanOrEqual(0.88 - doubt(0.88, trials));
    expect(found({ ...long, scales: [1, 1.6] }).found['0-1']).toBeGreaterThanOrEqual(0.5 - doubt(0.5, trials));
  });

  test('intervals are at most 1.35 times as wide as those of somebody who knows the covariance', () => {
    const { half } = found({ scales: [1, 1, 1], seed: 925_000 });
    const { variance, samples } = foldedMemory(20);
    expect(half / (1.96 * Math.sqrt(variance / samples))).toBeLessThanOrEqual(1.35);
  });

  test('the whole route of sections unlike each other: 1.6 times as far off is found, and the truth held', () => {
    const sections = [0.6, 1.6, 0.6, 1.6];
    const whole = found({ seconds: 1200, sections, scales: [1, 1.6], seed: 926_000 });
    expect(whole.found['0-1']).toBeGreaterThanOrEqual(0.55 - doubt(0.55, trials));
    expect(mean(whole.held)).toBeGreaterThanOrEqual(0.91 - doubt(0.91, trials));
  });

  test('equivalent within 1 m: identical receivers are, a true metre is not', () => {
    const long = { seconds: 1800, correlation: 10 };
    const same = found({ ...long, scales: [1, 1], seed: 927_000 });
    expect(same.equivalent['0-1']).toBeGreaterThanOrEqual(0.75 - doubt(0.75, trials));
    const apart = found({ ...long, scales: [1, 1 + 1 / usual], seed: 928_000 });
    expect(apart.equivalent['0-1']).toBeLessThanOrEqual(0.06 + doubt(0.06, trials));
  });

  test.each([
    [[20, 40, 20], 0.07],
    [[10, 60, 10], 0.11],
  ])('alike on average, errors lasting %j s: told apart at most so often', (correlations, most) => {
    const { alone } = found({ correlations, scales: [1, 1, 1], seed: 929_000 });
    for (const share of Object.values(alone)) expect(share).toBeLessThanOrEqual(most + doubt(most, trials));
  });
});

describe('three runs of 900 s, σ 5 m, errors lasting 30 s', () => {
  const trials = 120;
  const over = (options: Partial<Parameters<typeof runTrial>[0]> & { sigmas: readonly number[] }) =>
    runTrial({ seed: 931_000, trials, seconds: 900, correlation: 30, runs: 3, ...options });

  test.each([
    [2, 0.6],
    [3, 0.75],
  ])('%d receivers: 5 against 8 m, and 4 m further off', (count, share) => {
    const sigmas = [5, 8, 11].slice(0, count);
    expect(over({ sigmas }).pairs['0-1'].found).toBeGreaterThanOrEqual(share - doubt(share, trials));
    const further = [0, 0, 4].slice(-count);
    const last = `0-${count - 1}`;
    expect(over({ sigmas: further.map(() => 5), further, seed: 932_000 }).pairs[last].found).toBeGreaterThanOrEqual(
      0.97 - doubt(0.97, trials),
    );
  });

  test.each([
    ['runs that only scatter', {}, 0.06],
    ['runs that differ by three times that', { spread: 3 }, 0.06],
    ['a bias of each run’s own, 4 m', { ownBias: 4 }, 0.06],
    ['runs that differ by eight times that', { spread: 8 }, 0.09],
  ])('identical receivers, %s: told apart at most so often', (_, options, most) => {
    for (const sigmas of [
      [5, 5],
      [5, 5, 5],
    ]) {
      expect(over({ ...options, sigmas, seed: 933_000 + sigmas.length }).any).toBeLessThanOrEqual(
        most + doubt(most, trials),
      );
    }
  });

  test('what is said to be detectable is found four times in five', () => {
    // the difference at which the mean of what is said is that difference, found on other seeds: 2.9 m
    const sigmas = [5, 5 + 2.9 / Math.sqrt(2 / Math.PI)];
    const { found, detectable } = over({ sigmas, seed: 934_000 }).pairs['0-1'];
    expect(Math.abs(detectable / 2.9 - 1)).toBeLessThan(0.1);
    expect(Math.abs(found - 0.8)).toBeLessThanOrEqual(0.05 + doubt(0.8, trials));
  });
});

describe('planTest', () => {
  const trials = 300;

  test.each([
    [2, 1, 600, 30, 4.8],
    [3, 1, 900, 30, 3],
    [4, 1, 600, 10, 1.5],
  ])('%d receivers, %d run of %d s, lasting %d s: %d m', (receivers, runs, seconds, correlation, difference) => {
    const planned = planTest({ sigma: 5, correlationTime: correlation, seconds, receivers, runs, difference });
    const scales = [...new Array(receivers - 1).fill(1), 1 + difference / usual];
    const { found, given } = columnTrial({ seed: 941_000 + seconds, trials, seconds, correlation, scales });
    const simulated = found[`0-${receivers - 1}`] * given;
    expect(Math.abs(planned.chance - simulated)).toBeLessThanOrEqual(0.05 + doubt(simulated, trials));
  });

  test.each([
    [2, 3, 900, 30, 2.4],
    [3, 4, 300, 30, 3],
  ])('%d receivers, %d runs of %d s, lasting %d s: %d m', (receivers, runs, seconds, correlation, difference) => {
    const planned = planTest({ sigma: 5, correlationTime: correlation, seconds, receivers, runs, difference });
    const sigmas = [...new Array(receivers - 1).fill(5), 5 + difference / Math.sqrt(2 / Math.PI)];
    const simulated = runTrial({ seed: 942_000, trials: 150, seconds, correlation, runs, sigmas });
    const { found } = simulated.pairs[`0-${receivers - 1}`];
    expect(Math.abs(planned.chance - found)).toBeLessThanOrEqual(0.05 + doubt(found, 150));
  });

  test('with as many runs as it says, the chance is four in five, and with one less it isn’t', () => {
    const plan = { sigma: 5, correlationTime: 30, seconds: 600, receivers: 3, difference: 3 };
    const { runsNeeded } = planTest(plan);
    expect(planTest({ ...plan, runs: runsNeeded! }).chance).toBeGreaterThanOrEqual(0.8);
    expect(planTest({ ...plan, runs: runsNeeded! - 1 }).chance).toBeLessThan(0.8);
    const { detectable } = planTest({ ...plan, runs: 3 });
    expect(planTest({ ...plan, runs: 3, difference: detectable! }).chance).toBeGreaterThanOrEqual(0.8);
  });

  test('runs that differ by far more than they scatter: as many as a t test of their differences takes', () => {
    // ((z₀.₉₇₅ + z₀.₈) s/δ)² runs, and z²/2 more as s is estimated: Guenther, Am. Stat. 35 (1981) 243 (from memory)
    const between = 0.5;
    const s = Math.sqrt(2 * (between ** 2 + (Math.PI / 2 - 1) / 512));
    for (const ratio of [0.5, 0.25, 0.15]) {
      const plan = { sigma: 5, correlationTime: 1, seconds: 2000, betweenRuns: between * usual, leverArm: 0 };
      const { runsNeeded } = planTest({ ...plan, difference: usual * Math.expm1(ratio) });
      const expected = (((1.96 + 0.8416) * s) / ratio) ** 2 + 1.96 ** 2 / 2;
      // 1499 draws know a variance to 4 %
      expect(Math.abs(runsNeeded! / expected - 1)).toBeLessThan(0.06);
    }
  });

  test('too short to tell anything: no chance, no detectable difference; and what can’t be is refused', () => {
    const short = planTest({ sigma: 5, correlationTime: 600, seconds: 60, difference: 100 });
    expect(short.chance).toBeLessThan(0.5);
    expect(short.detectable).toBeNull();
    expect(short.effectiveSamples).toBeLessThan(2);
    const plan = { sigma: 5, correlationTime: 30, seconds: 600, difference: 3 };
    expect(() => planTest({ ...plan, receivers: 1 })).toThrow(
      expect.objectContaining({ reason: 'out-of-range', argument: 'plan.receivers' }),
    );
    expect(() => planTest({ ...plan, runs: 2.5 })).toThrow(
      expect.objectContaining({ reason: 'out-of-range', argument: 'plan.runs' }),
    );
    expect(() => planTest({ ...plan, sigma: undefined as unknown as number })).toThrow(
      expect.objectContaining({ reason: 'missing', argument: 'plan.sigma' }),
    );
  });
});

describe('through placing, assessing and combining three runs of 900 s, σ 5 m, correlation 30 s', () => {
  test('a true difference of 4 m is found nearly always', () => {
    const { found, wrong, seen } = wholeTrial({ seed: 77, trials: 30, worse: 'further', difference: 4 });
    expect(seen).toBeGreaterThan(3.5);
    expect(found).toBeGreaterThanOrEqual(0.97 - doubt(0.97, 30));
    expect(wrong).toBe(0);
  });

  test('identical receivers are called different at most 6 times in a hundred', () => {
    const { found, wrong } = wholeTrial({ seed: 78, trials: 40, worse: 'further', difference: 0 });
    expect(found + wrong).toBeLessThanOrEqual(0.06 + doubt(0.06, 40));
  });
});
