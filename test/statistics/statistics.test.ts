import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  correlationLag,
  jackknifeInterval,
  robustSd,
  signFlip,
  studentInterval,
  studentQuantile,
  tieGroups,
} from '../../src/statistics';
import { studentWithin } from '../../src/statistics/studentWithin';
import { studentTable } from '../published/studentT';
import { correlatedOffsets, normals } from '../support/correlatedOffsets';

describe('Student’s t', () => {
  test.each(studentTable)('%d degrees of freedom give the printed points', (degrees, t95, t99) => {
    expect(Math.abs(studentQuantile(0.95, degrees) - t95)).toBeLessThanOrEqual(0.0005 + 1e-9);
    expect(Math.abs(studentQuantile(0.99, degrees) - t99)).toBeLessThanOrEqual(0.0005 + 1e-9);
  });

  test('the probability is the integral of the density', () => {
    for (const degrees of [1, 1.5, 2, 2.7, 3, 7, 8.1, 12]) {
      // Simpson over the density (1 + t²/ν)^(−(ν+1)/2), made to hold 1 by its own integral over x = t/√(ν + t²)
      const density = (x: number) => (1 - x * x) ** (degrees / 2 - 1);
      const integral = (to: number) => {
        const n = 20000;
        let sum = 0;
        for (let i = 0; i < n; i++) sum += density(((i + 0.5) / n) * to);
        return (sum * to) / n;
      };
      const t = 1.7;
      const within = integral(t / Math.sqrt(degrees + t * t)) / integral(1);
      // the midpoint rule at the density's pole for 1 degree of freedom is good to three digits
      expect(studentWithin(t, degrees)).toBeCloseTo(within, degrees < 2 ? 2 : 6);
    }
  });
});

describe('signFlip', () => {
  test('three runs that agree reach no less than a quarter', () => {
    expect(signFlip([1, 2, 3])).toBe(0.25);
    expect(signFlip([])).toBeNull();
    expect(signFlip(new Array(21).fill(1))).toBeNull();
  });

  test('Darwin’s fifteen pairs of plants: Fisher counted 863 + 863 of 32768 ways as far from 0', () => {
    // R. A. Fisher, The Design of Experiments (1935), §17 and §21: differences in eighths of an inch; from memory.
    const differences = [49, -67, 8, 16, 6, 23, 28, 41, 14, 29, 56, 24, 75, 60, -48];
    expect(signFlip(differences)! * 32768).toBe(1726);
  });

  test('the same as trying every choice one by one', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: -9, max: 9 }), { minLength: 1, maxLength: 9 }), (values) => {
        const seen = Math.abs(values.reduce((a, b) => a + b, 0));
        let extreme = 0;
        for (let mask = 0; mask < 2 ** values.length; mask++) {
          const sum = values.reduce((total, value, i) => total + (mask & (1 << i) ? -value : value), 0);
          if (Math.abs(sum) >= seen) extreme++;
        }
        expect(signFlip(values)).toBe(extreme / 2 ** values.length);
      }),
      { seed: 4, numRuns: 200 },
    );
  });
});

test('tieGroups: two share a letter exactly where they were not told apart', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 7 }), fc.array(fc.boolean(), { minLength: 21, maxLength: 21 }), (n, told) => {
      const apart = (i: number, j: number) =>
        told[Math.min(i, j) * 7 - (Math.min(i, j) * (Math.min(i, j) + 1)) / 2 + Math.max(i, j) - Math.min(i, j) - 1];
      const letters = tieGroups(n, apart);
      for (let i = 0; i < n; i++) {
        expect(letters[i]).not.toBe('');
        for (let j = i + 1; j < n; j++) {
          const share = [...letters[i]].some((letter) => letters[j].includes(letter));
          expect(share).toBe(!apart(i, j));
        }
      }
    }),
    { seed: 5, numRuns: 300 },
  );
  expect(tieGroups(3, (i, j) => i === 0 && j === 2)).toEqual(['a', 'ab', 'b']);
});

test('studentInterval: the mean of three, its spread and the printed points of Student’s t', () => {
  // by hand: mean 4, squares 4 + 1 + 9 over 2, so s² = 7; t of two degrees of freedom 4.303
  const { mean, sd, interval95, pValue } = studentInterval([2, 3, 7])!;
  expect(mean).toBeCloseTo(4, 12);
  expect(sd).toBeCloseTo(Math.sqrt(7), 12);
  const error = Math.sqrt(7 / 3);
  expect(Math.abs(interval95![0] - (4 - 4.303 * error))).toBeLessThanOrEqual(0.0005 * error);
  expect(Math.abs(interval95![1] - (4 + 4.303 * error))).toBeLessThanOrEqual(0.0005 * error);
  // with two degrees of freedom the probability beyond t is 1 − t ÷ √(2 + t²) (Abramowitz & Stegun 26.7.4)
  const t = 4 / error;
  expect(pValue).toBeCloseTo(1 - t / Math.sqrt(2 + t * t), 12);
  expect(studentInterval([5])).toEqual({ mean: 5, sd: null, interval95: null, pValue: null });
  expect(studentInterval([])).toBeUndefined();
  expect(studentInterval([0, 0])!.pValue).toBe(1);
  expect(studentInterval([3, 3])!.pValue).toBe(0);
});

test('jackknifeInterval: of a mean it is Student’s own', () => {
  fc.assert(
    fc.property(fc.array(fc.double({ min: -9, max: 9, noNaN: true }), { minLength: 2, maxLength: 9 }), (values) => {
      const total = values.reduce((sum, value) => sum + value, 0);
      const without = values.map((value) => (total - value) / (values.length - 1));
      const [low, high] = jackknifeInterval(total / values.length, without);
      const student = studentInterval(values)!.interval95!;
      expect(low).toBeCloseTo(student[0], 9);
      expect(high).toBeCloseTo(student[1], 9);
    }),
    { seed: 8, numRuns: 200 },
  );
});

test('robustSd: a normal column’s standard deviation, and one that a third of outliers leaves bounded', () => {
  const normal = normals(17);
  const column = Array.from({ length: 20_000 }, () => 3 + 2 * normal());
  expect(robustSd(column)).toBeCloseTo(2, 1);
  // ten values of ± 1 and five of a million: the median is 1, half of the fifteen lie within 2 of it
  expect(robustSd([...Array(5).fill(-1), ...Array(5).fill(1), ...Array(5).fill(1e6)])).toBeCloseTo(1.4826 * 2, 9);
});

test('correlationLag: errors correlated over 20 entries fall below 1/e there', () => {
  const normal = normals(19);
  let lag = 0;
  for (let i = 0; i < 10; i++)
    lag += correlationLag(correlatedOffsets(normal, { seconds: 900, correlation: 20 }))! / 10;
  expect(lag).toBeGreaterThan(15);
  expect(lag).toBeLessThan(25);
  expect(correlationLag(new Float64Array(100).fill(3))).toBeUndefined();
});
