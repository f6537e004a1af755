import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { hashNumbers } from '../../src/assess/hashNumbers';
import { isConfounded } from '../../src/assess/isConfounded';
import { detectableDifference, runsNeeded } from '../../src/statistics/detectableDifference';
import { effectiveSamplesOf } from '../../src/statistics/effectiveSamples';
import { holm } from '../../src/statistics/holm';
import { signFlip } from '../../src/statistics/signFlip';
import { studentQuantile, studentWithin } from '../../src/statistics/studentT';
import { tieGroups } from '../../src/statistics/tieGroups';
import { studentTable } from '../published/studentT';
import { correlatedOffsets, normals } from '../support/correlatedOffsets';

describe('studentT', () => {
  test.each(studentTable)('%d degrees of freedom give the printed points', (degrees, t95, t99) => {
    expect(Math.abs(studentQuantile(0.95, degrees) - t95)).toBeLessThanOrEqual(0.0005 + 1e-9);
    expect(Math.abs(studentQuantile(0.99, degrees) - t99)).toBeLessThanOrEqual(0.0005 + 1e-9);
  });

  test('the probability is the integral of the density', () => {
    for (const degrees of [1, 2, 3, 7, 12]) {
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
      expect(studentWithin(t, degrees)).toBeCloseTo(within, degrees === 1 ? 2 : 6);
    }
  });
});

describe('holm', () => {
  test('worked by hand: each is multiplied by how many are left, never falling', () => {
    expect(holm([0.01, 0.04, 0.03, 0.005])).toEqual([0.03, 0.06, 0.06, 0.02]);
    expect(holm([null, 0.6, 0.9])).toEqual([null, 1, 1]);
  });

  test('rejects what the step-down procedure rejects', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 8 }), (values) => {
        const sorted = values.map((p, i) => ({ p, i })).sort((a, b) => a.p - b.p);
        const rejected = new Set<number>();
        for (const [rank, { p, i }] of sorted.entries()) {
          if (p * (values.length - rank) > 0.05) break;
          rejected.add(i);
        }
        const adjusted = holm(values);
        expect(values.map((_, i) => adjusted[i]! <= 0.05)).toEqual(values.map((_, i) => rejected.has(i)));
      }),
      { seed: 3, numRuns: 300 },
    );
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

test('hashNumbers is FNV-1a of 64 bits', () => {
  // Vectors that its authors (Fowler, Noll, Vo) print for "", "a" and "foobar", like the prime and the basis below: from memory.
  expect(hashNumbers([''])).toBe('cbf29ce484222325');
  expect(hashNumbers(['a'])).toBe('af63dc4c8601ec8c');
  expect(hashNumbers(['foobar'])).toBe('85944171f73967e8');
  const prime = 0x100000001b3n;
  const bytes = new Uint8Array(Float64Array.of(1.5, -2, 0.1).buffer);
  let expected = 0xcbf29ce484222325n;
  for (const byte of bytes) expected = ((expected ^ BigInt(byte)) * prime) & 0xffffffffffffffffn;
  expect(hashNumbers([[1.5, -2, 0.1]])).toBe(expected.toString(16).padStart(16, '0'));
});

describe('effective samples', () => {
  test.each([
    [5, 20000],
    [20, 60000],
  ])('of errors correlated over %d entries are n (1 − ρ) ÷ (1 + ρ)', (correlation, n) => {
    // First-order autoregression: any text on time series. A single estimate scatters by a few tenths: the mean of many.
    const normal = normals(11);
    let ratio = 0;
    for (let i = 0; i < 10; i++) {
      const effectiveSamples = effectiveSamplesOf(correlatedOffsets(normal, { seconds: n / 20, correlation }))!;
      const rho = Math.exp(-1 / correlation);
      ratio += effectiveSamples / (((n / 20) * (1 - rho)) / (1 + rho)) / 10;
    }
    expect(ratio).toBeGreaterThan(0.75);
    expect(ratio).toBeLessThan(1.35);
  });
});

test('planning: 1.26 m between runs makes 3.9, 2.1, 1.5 and 1.3 m detectable with 3, 5, 8 and 10 runs', () => {
  // (t₀.₉₇₅ + t₀.₈) s ÷ √n with the printed points of Student's t: 4.303 + 1.061, 2.776 + 0.941, 2.365 + 0.896, 2.262 + 0.883
  expect(detectableDifference(1.26, 3)).toBeCloseTo(3.9, 1);
  expect(detectableDifference(1.26, 5)).toBeCloseTo(2.1, 1);
  expect(detectableDifference(1.26, 8)).toBeCloseTo(1.5, 1);
  expect(detectableDifference(1.26, 10)).toBeCloseTo(1.25, 1);
  expect(runsNeeded(1.26, 1.5)).toBe(8);
  expect(runsNeeded(1.26, 0.001)).toBeNull();
});

test('isConfounded: swapped or side by side is fine, always on its own side is not', () => {
  const [l, r] = ['left wrist', 'right wrist'];
  expect(isConfounded([[l, r]])).toBe(true);
  expect(
    isConfounded([
      [l, r],
      [l, r],
    ]),
  ).toBe(true);
  expect(
    isConfounded([
      [l, r],
      [r, l],
    ]),
  ).toBe(false);
  expect(
    isConfounded([
      [l, l],
      [l, l],
    ]),
  ).toBe(false);
  expect(isConfounded([[l, null]])).toBe(false);
  // where it was not stated says nothing of a swap
  expect(
    isConfounded([
      [l, r],
      [null, l],
      [l, r],
    ]),
  ).toBe(true);
});
