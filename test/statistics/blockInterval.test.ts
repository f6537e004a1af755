import { describe, expect, test } from 'vitest';
import { type BlockInterval, blockInterval, INTERVAL_RULE } from '../../src/statistics/blockInterval';
import { studentQuantile } from '../../src/statistics/studentQuantile';
import { correlatedOffsets, normals } from '../support/correlatedOffsets';
import { seeded } from '../support/randomLine';

const ones = (count: number) => new Float64Array(count).fill(1);

/** Numbers that are 1 and −1 in turn: neighbours go against each other, so that each entry is a sample. */
const alternating = (count: number) => Float64Array.from({ length: count }, (_, i) => (i % 2 ? -1 : 1));

/** Probability of Student's t within ± t. Abramowitz & Stegun (1964), 26.7.3 and 26.7.4, for 2, 3 and 5 degrees of freedom. */
function within(t: number, degrees: number): number {
  const angle = Math.atan(t / Math.sqrt(degrees));
  const [sine, cosine] = [Math.sin(angle), Math.cos(angle)];
  if (degrees === 2) return sine;
  if (degrees === 3) return (2 / Math.PI) * (angle + sine * cosine);
  return (2 / Math.PI) * (angle + sine * (cosine + (2 / 3) * cosine ** 3));
}

/** The documented interval, entry by entry over lists without gaps. */
function documented(values: ArrayLike<number>, weights: ArrayLike<number>): BlockInterval {
  const bins = Array.from(values, (value, i) => ({ value, weight: weights[i] })).filter(
    ({ value }) => !Number.isNaN(value),
  );
  const total = bins.reduce((sum, { weight }) => sum + weight, 0);
  const meanOf = (some: typeof bins) =>
    some.reduce((sum, { value, weight }) => sum + value * weight, 0) /
    some.reduce((sum, { weight }) => sum + weight, 0);
  const mean = meanOf(bins);
  const count = bins.length;
  const plain = bins.reduce((sum, { value }) => sum + value, 0) / count;
  const covariance = (lag: number) =>
    bins.slice(lag).reduce((sum, { value }, i) => sum + (value - plain) * (bins[i].value - plain), 0);
  let correlated = 0;
  for (let lag = 1; 3 * lag <= count && covariance(lag) > 0; lag++) {
    correlated += (1 - lag / count) * (covariance(lag) / covariance(0));
  }
  const samples = Math.min(count, count / (1 + 2 * correlated));
  const blocks = samples < 12 ? 3 : samples < 40 ? 4 : 6;
  // a bin belongs to the block in which the middle of it lies, blocks being equally many metres
  const blockOf = bins.map(({ weight }, i) => {
    const before = bins.slice(0, i).reduce((sum, bin) => sum + bin.weight, 0);
    return Math.floor(((before + weight / 2) / total) * blocks);
  });
  const means = Array.from({ length: blocks }, (_, b) => bins.filter((_, i) => blockOf[i] === b))
    .filter((some) => some.length > 0)
    .map(meanOf);
  const error = Math.sqrt(means.reduce((sum, one) => sum + (one - mean) ** 2, 0) / (blocks - 1) / blocks);
  const variance = bins.reduce((sum, { value, weight }) => sum + (weight / total) * (value - mean) ** 2, 0);
  const ofBlocks = studentQuantile(0.95, blocks - 1) * error;
  const ofSamples = studentQuantile(0.95, Math.round(samples) - 1) * Math.sqrt(variance / samples);
  const half = Math.max(ofBlocks, ofSamples) * (1 + 6 / samples);
  // the p value at which an interval of the same make just reaches 0
  const t = (Math.abs(mean) / half) * studentQuantile(0.95, blocks - 1);
  return {
    mean,
    interval95: [mean - half, mean + half],
    blocks,
    effectiveSamples: samples,
    pValue: 1 - within(t, blocks - 1),
  };
}

function expectSame(found: BlockInterval | undefined, expected: BlockInterval, trace: string) {
  for (const key of ['mean', 'blocks', 'effectiveSamples', 'pValue'] as const) {
    expect(found?.[key], `${key} ${trace}`).toBeCloseTo(expected[key], 9);
  }
  expect(found?.interval95[0], `low ${trace}`).toBeCloseTo(expected.interval95[0], 9);
  expect(found?.interval95[1], `high ${trace}`).toBeCloseTo(expected.interval95[1], 9);
}

describe('what the docs say', () => {
  test.each([
    [3, 30, 9],
    [4, 150, 4],
    [6, 240, 1.2],
  ])('means of %d blocks of a column with gaps and uneven weights', (blocks, count, correlation) => {
    const normal = normals(321 + blocks);
    const random = seeded(blocks);
    let seen = 0;
    for (let round = 0; round < 12; round++) {
      const values = correlatedOffsets(normal, { seconds: count, correlation, sigma: 2, bias: round / 4 });
      for (let i = 0; i < count; i++) if (random() < 0.1) values[i] = Number.NaN;
      const weights = Float64Array.from(values, () => 0.2 + 4 * random());
      const expected = documented(values, weights);
      if (expected.blocks === blocks) seen++;
      expectSame(blockInterval(values, weights), expected, `round ${round}`);
    }
    expect(seen).toBeGreaterThan(6);
  });

  test('from 12 bins on, gaps not counted', () => {
    const values = Float64Array.of(Number.NaN, ...alternating(12), Number.NaN);
    expectSame(blockInterval(values, ones(14)), documented(values, ones(14)), 'of 12');
    expect(blockInterval(values.subarray(2), ones(12))).toBeUndefined();
    expect(blockInterval([], [])).toBeUndefined();
  });

  test.each([
    [12, 4],
    [38, 4],
    [40, 6],
  ])('%d independent samples make %d blocks', (count, blocks) => {
    const found = blockInterval(alternating(count), ones(count))!;
    expect(found.effectiveSamples).toBe(count);
    expect(found.blocks).toBe(blocks);
  });

  test('the rule that is printed names these numbers', () => {
    expect(INTERVAL_RULE).toMatch(/^95 % .* 3, 4 or 6 contiguous blocks .*below 12, below 40, .*by 1 \+ 6\/n;.*\.$/);
  });
});

test('blocks that agree by chance: the interval from the effective samples, widened', () => {
  // 4 blocks of 4: every mean 0. 16 samples of variance 1; t of 15 degrees of freedom 2.131 (Abramowitz & Stegun, table
  // 26.10, from memory)
  const {
    interval95: [low, high],
    pValue,
  } = blockInterval(alternating(16), ones(16))!;
  expect(high).toBeCloseTo(2.131 * Math.sqrt(1 / 16) * (1 + 6 / 16), 3);
  expect(low).toBe(-high);
  expect(pValue).toBe(1);
});

test('three blocks: 95 % of Student’s t with 2 degrees of freedom in closed form, an end at 0 has p = 0.05', () => {
  // a straight line: its blocks' means are −d, 0, d; their error √(2 d² ÷ 2 ÷ 3)
  const values = Float64Array.from({ length: 30 }, (_, i) => (i - 14.5) / 10);
  const {
    interval95: [, high],
    effectiveSamples,
    blocks,
  } = blockInterval(values, ones(30))!;
  expect(blocks).toBe(3);
  const t = 0.95 * Math.sqrt(2 / (1 - 0.95 ** 2));
  const half = t * Math.sqrt(1 / 3) * (1 + 6 / effectiveSamples);
  expect(high).toBeCloseTo(half, 9);
  const moved = values.map((value) => value + half);
  expect(blockInterval(moved, ones(30))!.interval95[0]).toBeCloseTo(0, 9);
  expect(blockInterval(moved, ones(30))!.pValue).toBeCloseTo(0.05, 9);
  expect(
    blockInterval(
      moved.map((value) => -value),
      ones(30),
    )!.pValue,
  ).toBeCloseTo(0.05, 9);
});

test('a column without spread is sure: of 0, or of not 0', () => {
  for (const value of [0, 3, -3]) {
    const found = blockInterval(new Float64Array(16).fill(value), ones(16));
    expect(found).toEqual({
      mean: value,
      interval95: [value, value],
      blocks: 4,
      effectiveSamples: 16,
      pValue: value === 0 ? 1 : 0,
    });
  }
});

test('one bin longer than several blocks: those without a bin of their own say nothing', () => {
  const normal = normals(325);
  const values = Float64Array.from({ length: 60 }, () => normal());
  const weights = ones(60);
  weights[20] = 300;
  const expected = documented(values, weights);
  expect(Number.isFinite(expected.interval95[1])).toBe(true);
  expectSame(blockInterval(values, weights), expected, 'uneven');
});
