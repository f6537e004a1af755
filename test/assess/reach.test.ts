import { describe, expect, test } from 'vitest';
import { intervalTrial, modelTrial, winnerTrial } from '../../bench/support/coverageTrials';
import { wholeTrial } from '../../bench/support/wholeTrials';
import { meanAbsoluteOf } from '../support/correlatedOffsets';
import { noiseModels } from '../support/noiseModels';

// The promises are the project's own; the full table is in the README, printed by bench/coverage.ts.
const cells = [120, 300, 900].flatMap((seconds) => [10, 30, 60].map((correlation) => ({ seconds, correlation })));

test('the truth of the simulation is the folded normal mean', () => {
  // Leone, Nelson, Nottingham, The folded normal distribution, Technometrics 3 (1961): σ √(2/π) without bias
  expect(meanAbsoluteOf(0, 5)).toBeCloseTo(5 * Math.sqrt(2 / Math.PI), 5);
  expect(meanAbsoluteOf(100, 5)).toBeCloseTo(100, 6);
});

describe.each(cells)(
  'sections of $seconds s with errors correlated over $correlation s',
  ({ seconds, correlation }) => {
    // none of the seeds that the interval's factor was chosen on, which were below 40 000
    const seed = 910_000 + seconds + correlation;

    test('the 95 % interval holds the true mean distance at least 85 % of the time; counting fixes it does not', () => {
      const { ours, naive } = intervalTrial({ seed, seconds, correlation, trials: 1000 });
      expect(ours).toBeGreaterThanOrEqual(0.85);
      expect(naive).toBeLessThan(0.6);
    });

    test('two identical receivers are called different at most 10 % of the time; counting fixes, half and more', () => {
      const { ours, naive } = winnerTrial({ seed: seed + 1, seconds, correlation, trials: 700 });
      expect(ours).toBeLessThanOrEqual(0.1);
      expect(naive).toBeGreaterThan(0.4);
    });
  },
);

describe.each(noiseModels.map((model) => [model.what, model] as const))('errors of another kind: %s', (_, model) => {
  test('what the models say their true mean distance is, a long column has', () => {
    let seed = 17;
    const uniform = () => (seed = (seed * 16807) % 2147483647) / 2147483647;
    const normal = () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
    const column = model.offsets({ normal, uniform }, 400_000, 20);
    const mean = column.reduce((sum, value) => sum + Math.abs(value), 0) / column.length;
    // 10 000 independent stretches: within 2 %; chords between irregular fixes cut another 2 %
    expect(Math.abs(mean / model.meanAbsolute - 1)).toBeLessThan(0.04);
  });

  // The shorter the section beside its correlation, the harder: the longest are left to the bench.
  test.each(cells.filter(({ seconds }) => seconds <= 300))(
    '$seconds s, correlated over $correlation s: the interval holds the truth at least 85 % of the time',
    ({ seconds, correlation }) => {
      const trials = 400;
      const held = modelTrial({ seed: 920_000 + seconds + correlation, seconds, correlation, trials }, model);
      // two standard errors of a share: what 400 trials can tell from 85 %
      expect(held).toBeGreaterThanOrEqual(0.85 - 2 * Math.sqrt((0.85 * 0.15) / trials));
    },
  );
});

describe('through placing, assessing and combining three runs of 900 s, σ 5 m, correlation 30 s', () => {
  test('a true difference of 4 m is found at least four times in five', () => {
    const { found, wrong, seen } = wholeTrial({ seed: 77, trials: 40, worse: 'further', difference: 4 });
    expect(seen).toBeGreaterThan(3.5);
    expect(found).toBeGreaterThanOrEqual(0.8);
    expect(wrong).toBe(0);
  });

  test('identical receivers are called different at most one time in ten', () => {
    const { found, wrong } = wholeTrial({ seed: 78, trials: 40, worse: 'further', difference: 0 });
    expect(found + wrong).toBeLessThanOrEqual(0.1);
  });
});

test('the spread between runs that plans are made with: 1.26 m for 300 s, σ 5 m, correlation 30 s', () => {
  // Closed form: |x| of a normal x has variance σ² (1 − 2/π); correlated as (√(1 − ρ²) + ρ asin ρ − 1) ÷ (π/2 − 1).
  const [seconds, correlation, sigma] = [300, 30, 5];
  let sum = 1;
  for (let k = 1; k < seconds; k++) {
    const rho = Math.exp(-k / correlation);
    const folded = (Math.sqrt(1 - rho * rho) + rho * Math.asin(rho) - 1) / (Math.PI / 2 - 1);
    sum += 2 * (1 - k / seconds) * folded;
  }
  const expected = Math.sqrt((2 * sigma ** 2 * (1 - 2 / Math.PI) * sum) / seconds);
  expect(expected).toBeCloseTo(1.26, 1);
  const { sd } = wholeTrial({ seed: 79, trials: 60, worse: 'further', difference: 0, seconds });
  // 120 degrees of freedom: a spread within 13 % four times in five, within 25 % nearly always
  expect(Math.abs(sd / expected - 1)).toBeLessThan(0.25);
});
