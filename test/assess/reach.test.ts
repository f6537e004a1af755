import { describe, expect, test } from 'vitest';
import { intervalTrial, pairTrial, winnerTrial } from '../../bench/support/coverageTrials';
import { meanAbsoluteOf } from '../support/correlatedOffsets';

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
    const seed = 9000 + seconds + correlation;

    test('the 95 % interval holds the true mean distance at least 85 % of the time; counting fixes it does not', () => {
      const { ours, naive } = intervalTrial({ seed, seconds, correlation, trials: 1500 });
      expect(ours).toBeGreaterThanOrEqual(0.85);
      expect(naive).toBeLessThan(0.6);
    });

    test('two identical receivers are called different at most 10 % of the time; counting fixes, half and more', () => {
      const { ours, naive } = winnerTrial({ seed: seed + 1, seconds, correlation, trials: 1000 });
      expect(ours).toBeLessThanOrEqual(0.1);
      expect(naive).toBeGreaterThan(0.4);
    });
  },
);

test('over three runs of 900 s a true 4 m is found four times in five, and no difference at most one time in ten', () => {
  const test = { seconds: 900, correlation: 30, runs: 3, trials: 1000 };
  expect(pairTrial({ ...test, seed: 77, difference: 4 })).toBeGreaterThanOrEqual(0.8);
  expect(pairTrial({ ...test, seed: 78, difference: 0 })).toBeLessThanOrEqual(0.1);
});
