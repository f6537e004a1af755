import { describe, expect, test } from 'vitest';
import { correlationLag } from '../../src/statistics/correlationLag';
import { effectiveSamples } from '../../src/statistics/effectiveSamples';
import { correlatedOffsets, normals } from '../support/correlatedOffsets';

/** As documented, of a column without gaps: n ÷ (1 + 2 Σ (1 − k/n) ρₖ) to the first ρₖ not positive, within a third. */
function documented(column: readonly number[]) {
  const n = column.length;
  const mean = column.reduce((sum, value) => sum + value / n, 0);
  const product = (lag: number) =>
    column.slice(lag).reduce((sum, value, i) => sum + (value - mean) * (column[i] - mean), 0);
  const rho = Array.from({ length: Math.floor(n / 3) }, (_, k) => product(k + 1) / product(0));
  const end = rho.findIndex((value) => value <= 0);
  const sum = rho.slice(0, end < 0 ? rho.length : end).reduce((sum, value, k) => sum + (1 - (k + 1) / n) * value, 0);
  const forgotten = rho.findIndex((value) => value < Math.exp(-1));
  return { samples: Math.min(n, n / (1 + 2 * sum)), length: forgotten < 0 ? undefined : forgotten + 1 };
}

const pooled = (column: ArrayLike<number>, pool: number) =>
  Array.from({ length: Math.floor(column.length / pool) }, (_, k) => {
    let sum = 0;
    for (let i = 0; i < pool; i++) sum += column[k * pool + i];
    return sum / pool;
  });

describe('what the docs say', () => {
  test.each([3, 4, 7, 12, 60, 200])('of %d entries', (count) => {
    const normal = normals(331 + count);
    for (const correlation of [0.2, 2, count / 4, 5 * count]) {
      const column = correlatedOffsets(normal, { seconds: count, correlation, bias: 8 });
      const expected = documented([...column]);
      expect(effectiveSamples(column)).toBeCloseTo(expected.samples, 8);
      expect(correlationLag(column)).toBe(expected.length);
    }
  });

  test.each([
    [1000, 1],
    [1001, 2],
    [2503, 3],
  ])('%d entries are pooled by %d; lengths are those of the given entries', (count, pool) => {
    const column = correlatedOffsets(normals(339), { seconds: count, correlation: 40, bias: 8 });
    const expected = documented(pooled(column, pool));
    expect(effectiveSamples(column)).toBeCloseTo(expected.samples, 8);
    expect(correlationLag(column)).toBe(expected.length! * pool);
  });

  test('gaps are closed up', () => {
    const column = correlatedOffsets(normals(340), { seconds: 1500, correlation: 9, bias: 8 });
    const gappy = Array.from(column).flatMap((value, i) => (i % 5 ? [value] : [Number.NaN, value, Number.NaN]));
    expect(effectiveSamples(gappy)).toBe(effectiveSamples(column));
    expect(correlationLag(gappy)).toBe(correlationLag(column));
  });
});

test('two steps: ρ falls from 1 by 3/n a lag', () => {
  // zeros, then as many ones: of the n − k products at lag k, k are negative, so ρ = (n − 3k)/n, 0 at a third
  const column = Float64Array.from({ length: 240 }, (_, i) => (i < 120 ? 0 : 1));
  let sum = 0;
  for (let k = 1; k < 80; k++) sum += (1 - k / 240) * (1 - k / 80);
  expect(effectiveSamples(column)).toBeCloseTo(240 / (1 + 2 * sum), 9);
  // 1 − k/80 is below 1/e from k = 50.6 on
  expect(correlationLag(column)).toBe(51);
});

test('neighbours that go against each other make no more samples than entries, and are forgotten at once', () => {
  const column = Float64Array.from({ length: 30 }, (_, i) => (i % 2 ? 1 : -1));
  expect(effectiveSamples(column)).toBe(30);
  expect(correlationLag(column)).toBe(1);
});

test('a ρ of nothing ends the sum, whatever comes after', () => {
  // of mean 0; products at lag 1: 0, 0, 0, 0, 0, 0, at lag 2: 1, 0, −1, 0, 1 over 4
  expect(effectiveSamples([1, 0, 1, 0, -1, 0, -1])).toBe(7);
});

test.each([
  [[]],
  [[1, 2]],
  [[1, Number.NaN, 2, Number.NaN]],
  [[0, 0, 0, 0]],
  [[3, 3, 3, 3, 3]],
  [[1e3, 1e3 + 1e-10, 1e3]],
  [Array.from({ length: 300 }, (_, i) => (i % 2 ? 5e-10 : -5e-10))],
])('of %j nothing can be said', (column) => {
  expect(effectiveSamples(column)).toBeUndefined();
  expect(correlationLag(column)).toBeUndefined();
});

test('a column that never forgets itself within a third of it has no correlation length', () => {
  const ramp = Float64Array.from({ length: 5 }, (_, i) => i);
  // −2 … 2: products at lag 1 are 2, 0, 0, 2 over 10: 0.4
  expect(correlationLag(ramp)).toBeUndefined();
  expect(effectiveSamples(ramp)).toBeCloseTo(5 / (1 + 2 * 0.8 * 0.4), 12);
});
