import { offsetStatistics } from 'datumline/metrics';
import fc from 'fast-check';
import * as simple from 'simple-statistics';
import { expect, test } from 'vitest';
import { asprsFivePoints, linearNormal } from '../published/positionalAccuracy';

test.each([
  ['x', 0],
  ['y', 1],
  ['z', 2],
] as const)('the five check points of the ASPRS example, %s', (axis, k) => {
  const { mean, sd, rms } = offsetStatistics(asprsFivePoints.residuals[axis]);
  const { published } = asprsFivePoints;
  expect(Math.abs(mean - published.mean[k])).toBeLessThanOrEqual(5e-4);
  expect(Math.abs(sd - published.sampleDeviation[k])).toBeLessThanOrEqual(5e-4);
  expect(Math.abs(rms - published.rmse[k])).toBeLessThanOrEqual(5e-4);
});

test('quantiles of a normal column are one-dimensional: p95 is 1.96 sigma, not 2.45', () => {
  // a fine grid with the bell curve for its weights
  const column = Array.from({ length: 64_001 }, (_, i) => i / 4000 - 8);
  const bell = column.map((x) => Math.exp((-x * x) / 2));
  const { median, p90, p95, rms, meanAbsolute } = offsetStatistics(column, bell);
  expect(Math.abs(median - linearNormal.LE50)).toBeLessThan(1e-3);
  expect(Math.abs(p90 - linearNormal.LE90)).toBeLessThan(1e-3);
  expect(Math.abs(p95 - linearNormal.LE95)).toBeLessThan(1e-3);
  expect(Math.abs(meanAbsolute - linearNormal.meanAbsolute)).toBeLessThan(1e-3);
  expect(Math.abs(rms - 1)).toBeLessThan(1e-3);
});

const column = fc.array(fc.double({ min: -1e4, max: 1e4, noNaN: true }), { minLength: 1, maxLength: 60 });

test('without weights, or with equal ones, as simple-statistics', () => {
  fc.assert(
    fc.property(column, fc.double({ min: 1e-3, max: 1e3, noNaN: true }), (values, weight) => {
      const sizes = values.map(Math.abs);
      const expected = {
        n: values.length,
        mean: simple.mean(values),
        meanAbsolute: simple.mean(sizes),
        median: simple.quantile(sizes, 0.5),
        p68: simple.quantile(sizes, 0.68),
        p90: simple.quantile(sizes, 0.9),
        p95: simple.quantile(sizes, 0.95),
        rms: simple.rootMeanSquare(values),
        sd: values.length > 1 ? simple.sampleStandardDeviation(values) : 0,
        min: simple.min(values),
        max: simple.max(values),
      };
      for (const actual of [
        offsetStatistics(values),
        offsetStatistics(
          Float64Array.from(values),
          values.map(() => weight),
        ),
      ]) {
        for (const [key, value] of Object.entries(expected)) {
          expect(Math.abs(actual[key as keyof typeof actual] - value), key).toBeLessThanOrEqual(1e-9);
        }
      }
    }),
    { seed: 6, numRuns: 300 },
  );
});

test('the weighted quantile joins the unweighted one as weights become equal', () => {
  fc.assert(
    fc.property(column, (values) => {
      const nearly = values.map((_, i) => 1 + 1e-9 * (i % 2));
      const [even, uneven] = [offsetStatistics(values), offsetStatistics(values, nearly)];
      for (const key of ['median', 'p68', 'p90', 'p95', 'sd', 'mean', 'meanAbsolute', 'rms'] as const) {
        expect(Math.abs(even[key] - uneven[key]), key).toBeLessThanOrEqual(2e-3);
      }
    }),
    { seed: 7, numRuns: 300 },
  );
});

test('weights on any scale give the same, a weight of 0 leaves its value out', () => {
  const values = [3, -1, 7, -12, 0.5];
  const weights = [1, 4, 2, 0, 3];
  const plain = offsetStatistics(values, weights);
  const scaled = offsetStatistics(
    values,
    weights.map((weight) => weight * 1000),
  );
  for (const key of Object.keys(plain) as (keyof typeof plain)[]) expect(scaled[key]).toBeCloseTo(plain[key], 12);
  expect(plain).toEqual(offsetStatistics([3, -1, 7, 0.5], [1, 4, 2, 3]));
  expect(plain.n).toBe(4);
  expect(plain.meanAbsolute).toBeCloseTo((3 + 4 + 14 + 1.5) / 10, 12);
  expect(plain.min).toBe(-1);
});

test('one value that carries almost all weight is almost every quantile', () => {
  const { median, p90, p95 } = offsetStatistics([0, 10, 2], [1, 998, 1]);
  for (const quantile of [median, p90, p95]) expect(quantile).toBeGreaterThan(9.9);
});

test('a minute stood still at 12 m in 300 m at 4 m: 4.0 m by distance, 7.0 m by time', () => {
  // 300 m at 3 m/s is 100 fixes; figures of a worked example, common practice, no source
  const values = [...Array(100).fill(4), ...Array(60).fill(12)];
  expect(offsetStatistics(values).meanAbsolute).toBeCloseTo(7, 12);
  const metres = [...Array(100).fill(3), ...Array(60).fill(0)];
  expect(offsetStatistics(values, metres).meanAbsolute).toBeCloseTo(4, 12);
});

test('inputs are not reordered', () => {
  const values = [5, -3, 1];
  offsetStatistics(values, [1, 2, 3]);
  expect(values).toEqual([5, -3, 1]);
});

test.each([
  [[], undefined, 'too-few', 'values'],
  [[1, Number.NaN], undefined, 'not-finite', 'values[1]'],
  [[1, '2'], undefined, 'wrong-type', 'values[1]'],
  ['12', undefined, 'wrong-type', 'values'],
  [[1, 2], [1], 'out-of-range', 'weights length'],
  [[1, 2], [1, -1], 'out-of-range', 'weights[1]'],
  [[1, 2], [0, 0], 'too-few', 'weights'],
  [[1, 2], [1, Infinity], 'not-finite', 'weights[1]'],
])('refuses %j with weights %j', (values, weights, reason, argument) => {
  expect(() => offsetStatistics(values as number[], weights)).toThrow(expect.objectContaining({ reason, argument }));
});
