import { describe, expect, test } from 'vitest';
import { RunScatter } from '../../src/assess/RunScatter';
import { CosineWaves, JointScatter, memoryOf } from '../../src/statistics';
import { correlatedOffsets, normals } from '../support/correlatedOffsets';

const width = new Float64Array(600).fill(1);
const whole = { first: 0, end: 600 };
const halves = [
  { first: 0, end: 200 },
  { first: 200, end: 600 },
];
const normal = normals(123);
const columns = [1, 2, 3].map((times) =>
  correlatedOffsets(normal, { seconds: 600, correlation: 15 }).map(
    (value, i) => (i < 200 ? times : 2) * Math.abs(value),
  ),
);
/** The same with metres missing. */
const without = (column: Float64Array, from: number, to: number) =>
  column.map((value, i) => (i >= from && i < to ? Number.NaN : value));
const relative = (column: Float64Array, { first, end }: { first: number; end: number }) =>
  new CosineWaves(column.subarray(first, end), width.subarray(first, end)).relative();

describe('one part', () => {
  const scatter = new RunScatter(width, columns, [whole], 'relative');
  const judge = new JointScatter(
    columns.map((column) => relative(column, whole)),
    memoryOf(columns.map((column) => relative(column, whole))),
  );

  test('a mean is judged with all columns', () => {
    columns.forEach((column, k) => {
      const { mean, variance, degrees, samples } = scatter.mean(k, whole)!;
      const plain = column.reduce((sum, value) => sum + value / 600, 0);
      expect(mean).toBeCloseTo(plain, 10);
      expect(variance).toBeCloseTo(plain ** 2 * judge.varianceOf(relative(column, whole)), 10);
      expect(degrees).toBeCloseTo(judge.degrees, 10);
      expect(samples).toBeCloseTo(judge.samples, 10);
    });
  });

  test('two are judged by the difference of their shares', () => {
    const { first, second, firstVariance, variance, degrees } = scatter.pair(0, 2, whole)!;
    expect(first).toBeCloseTo(scatter.mean(0, whole)!.mean, 10);
    expect(second).toBeCloseTo(scatter.mean(2, whole)!.mean, 10);
    expect(firstVariance).toBeCloseTo(judge.varianceOf(relative(columns[0], whole)), 10);
    const apart = columns[0].map((value, i) => value / first - columns[2][i] / second);
    expect(variance).toBeCloseTo(judge.varianceOf(new CosineWaves(apart, width)), 10);
    expect(degrees).toBeCloseTo(judge.degrees, 10);
    expect(scatter.pair(2, 0, whole)!.variance).toBeCloseTo(variance, 12);
  });

  test('a column that covers little is judged alone, and says nothing of the others', () => {
    const mixed = new RunScatter(width, [...columns, without(columns[0], 0, 400)], [whole], 'relative');
    expect(mixed.mean(0, whole)).toEqual(scatter.mean(0, whole));
    const rest = relative(without(columns[0], 0, 400), whole);
    const alone = new JointScatter([rest], memoryOf([rest]));
    const mean = mixed.mean(3, whole)!;
    // its memory, a share of what it covers, may not be less than half of the run's in metres
    expect(mean.degrees).toBeLessThanOrEqual(alone.degrees);
    expect(mean.samples).toBeLessThanOrEqual(alone.samples + 1e-9);
  });

  test('two with few metres missing are judged on what both have, the memory that of all', () => {
    const gappy = new RunScatter(width, [columns[0], without(columns[1], 100, 120)], [whole], 'relative');
    const pair = gappy.pair(0, 1, whole)!;
    const common = without(columns[0], 100, 120);
    expect(pair.first).toBeCloseTo(new CosineWaves(common, width).mean, 10);
    expect(pair.samples).toBeCloseTo(gappy.mean(0, whole)!.samples, 9);
  });

  test('nothing in common, nothing there', () => {
    const apart = new RunScatter(
      width,
      [without(columns[0], 0, 300), without(columns[1], 300, 600)],
      [whole],
      'relative',
    );
    expect(apart.pair(0, 1, whole)).toBeUndefined();
    const none = new RunScatter(width, [width.map(() => Number.NaN)], [whole], 'plain');
    expect(none.mean(0, whole)).toBeUndefined();
  });

  test('columns that don’t scatter are off by nothing, those of 0 too', () => {
    const still = new RunScatter(width, [width.map(() => 3), width.map(() => 0), columns[0]], [whole], 'relative');
    expect(still.mean(0, whole)).toMatchObject({ mean: 3, variance: 0 });
    expect(still.mean(1, whole)).toMatchObject({ mean: 0, variance: 0 });
    expect(still.pair(0, 1, whole)).toMatchObject({ first: 3, second: 0, variance: 0 });
    const pair = still.pair(1, 2, whole)!;
    expect(pair.firstVariance).toBe(0);
    expect(pair.variance).toBeGreaterThan(0);
  });
});

describe('several parts', () => {
  const scatter = new RunScatter(width, columns, halves, 'relative');

  test('the whole is the sum of the parts, each about its own mean', () => {
    for (let k = 0; k < 3; k++) {
      const [a, b] = halves.map((part) => scatter.mean(k, part)!);
      const sum = scatter.mean(k, whole)!;
      expect(sum.mean).toBeCloseTo(a.mean / 3 + (2 * b.mean) / 3, 10);
      const [va, vb] = [a.variance / 9, (4 * b.variance) / 9];
      expect(sum.variance).toBeCloseTo(va + vb, 12);
      // Satterthwaite
      expect(sum.degrees).toBeCloseTo((va + vb) ** 2 / (va ** 2 / a.degrees + vb ** 2 / b.degrees), 9);
      expect(sum.samples).toBeCloseTo(a.samples + b.samples, 9);
    }
  });

  test('a difference of the whole likewise, what both err by in common cancelling part by part', () => {
    const [a, b] = halves.map((part) => scatter.pair(0, 2, part)!);
    const sum = scatter.pair(0, 2, whole)!;
    const shares = (key: 'first' | 'second') => [a[key] / 3 / sum[key], (2 * b[key]) / 3 / sum[key]];
    const [first, second] = [shares('first'), shares('second')];
    const variance = [a, b].reduce((total, part, i) => {
      const covariance = (part.firstVariance + part.secondVariance - part.variance) / 2;
      return (
        total +
        first[i] ** 2 * part.firstVariance +
        second[i] ** 2 * part.secondVariance -
        2 * first[i] * second[i] * covariance
      );
    }, 0);
    expect(sum.variance).toBeCloseTo(variance, 12);
  });

  test('parts unlike each other are no scatter: one judgement over all takes them for it', () => {
    const steps = columns.map((column) => column.map((value, i) => (i < 200 ? value : value + 30)));
    const byParts = new RunScatter(width, steps, halves, 'relative').mean(0, whole)!;
    const atOnce = new RunScatter(width, steps, [whole], 'relative').mean(0, whole)!;
    expect(atOnce.mean).toBeCloseTo(byParts.mean, 9);
    expect(atOnce.variance).toBeGreaterThan(20 * byParts.variance);
  });

  test('plain columns: signs stay, and a shift of all changes no variance', () => {
    const signed = columns.map((column) => column.map((value, i) => value * (i % 3 ? 1 : -1)));
    const [plain, shifted] = [signed, signed.map((column) => column.map((value) => value - 50))].map(
      (some) => new RunScatter(width, some, halves, 'plain').mean(1, whole)!,
    );
    expect(shifted.mean).toBeCloseTo(plain.mean - 50, 9);
    expect(shifted.variance).toBeCloseTo(plain.variance, 9);
  });
});
