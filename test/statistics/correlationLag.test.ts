import { describe, expect, test } from 'vitest';
import { correlationLag } from '../../src/statistics/correlationLag';
import { correlatedOffsets, normals } from '../support/correlatedOffsets';

/** As documented, of a column without gaps: the first lag within a third of it whose ρₖ is below 1/e. */
function documented(column: readonly number[]) {
  const n = column.length;
  const mean = column.reduce((sum, value) => sum + value / n, 0);
  const product = (lag: number) =>
    column.slice(lag).reduce((sum, value, i) => sum + (value - mean) * (column[i] - mean), 0);
  const rho = Array.from({ length: Math.floor(n / 3) }, (_, k) => product(k + 1) / product(0));
  const forgotten = rho.findIndex((value) => value < Math.exp(-1));
  return { length: forgotten < 0 ? undefined : forgotten + 1 };
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
    expect(correlationLag(column)).toBe(expected.length! * pool);
  });

  test('gaps are closed up', () => {
    const column = correlatedOffsets(normals(340), { seconds: 1500, correlation: 9, bias: 8 });
    const gappy = Array.from(column).flatMap((value, i) => (i % 5 ? [value] : [Number.NaN, value, Number.NaN]));
    expect(correlationLag(gappy)).toBe(correlationLag(column));
  });
});

test('two steps: ρ falls from 1 by 3/n a lag', () => {
  // zeros, then as many ones: of the n − k products at lag k, k are negative, so ρ = (n − 3k)/n, 0 at a third
  const column = Float64Array.from({ length: 240 }, (_, i) => (i < 120 ? 0 : 1));
  // 1 − k/80 is below 1/e from k = 50.6 on
  expect(correlationLag(column)).toBe(51);
});

test('neighbours that go against each other are forgotten at once', () => {
  const column = Float64Array.from({ length: 30 }, (_, i) => (i % 2 ? 1 : -1));
  expect(correlationLag(column)).toBe(1);
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
  expect(correlationLag(column)).toBeUndefined();
});

test('a column that never forgets itself within a third of it has no correlation length', () => {
  const ramp = Float64Array.from({ length: 5 }, (_, i) => i);
  // −2 … 2: products at lag 1 are 2, 0, 0, 2 over 10: 0.4
  expect(correlationLag(ramp)).toBeUndefined();
});
