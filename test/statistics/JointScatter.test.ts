import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  CosineWaves,
  differenceLimits,
  differencePValue,
  fisherExceeded,
  foldedMemory,
  JointScatter,
  meanLimits,
  memoryOf,
  runsJoined,
  shareLimits,
  studentQuantile,
} from '../../src/statistics';
import { betaShare } from '../../src/statistics/betaShare';
import { exponentialMemory } from '../../src/statistics/exponentialMemory';
import { logGamma } from '../../src/statistics/logGamma';
import { correlatedOffsets, normals } from '../support/correlatedOffsets';

const ones = (count: number) => new Float64Array(count).fill(1);

describe('special functions', () => {
  test('log Γ of whole numbers is the log of factorials, of ½ that of √π', () => {
    let factorial = 0;
    for (let n = 1; n <= 60; n++) {
      expect(Math.abs(logGamma(n) - factorial)).toBeLessThan(1e-13 * Math.max(1, factorial));
      factorial += Math.log(n);
    }
    expect(logGamma(0.5)).toBeCloseTo(Math.log(Math.PI) / 2, 13);
    expect(logGamma(0.25)).toBeCloseTo(1.2880225246980774, 12); // Γ(¼) = 3.6256099082, Abramowitz & Stegun table 6.1
  });

  test('the beta share of whole numbers is a binomial sum', () => {
    // NIST Digital Library of Mathematical Functions, 8.17.5
    for (const [m, n] of [
      [1, 1],
      [2, 3],
      [5, 2],
      [9, 9],
      [40, 3],
    ]) {
      for (const x of [0.01, 0.3, 0.5, 0.77, 0.99]) {
        let sum = 0;
        let binomial = 1;
        for (let j = 0; j <= m + n - 1; j++) {
          if (j >= m) sum += binomial * x ** j * (1 - x) ** (m + n - 1 - j);
          binomial *= (m + n - 1 - j) / (j + 1);
        }
        expect(betaShare(x, m, n)).toBeCloseTo(sum, 12);
      }
    }
    expect([betaShare(0, 2, 3), betaShare(1, 2, 3), betaShare(-1, 2, 3), betaShare(2, 2, 3)]).toEqual([0, 1, 0, 1]);
  });

  test('Fisher’s F at its printed 5 % points', () => {
    // Abramowitz & Stegun, Handbook of Mathematical Functions (1964), table 26.9: F exceeded with 5 % (from memory)
    for (const [above, below, ratio] of [
      [1, 1, 161.4],
      [2, 10, 4.1],
      [5, 5, 5.05],
      [10, 20, 2.35],
      [4, 60, 2.53],
    ]) {
      expect(fisherExceeded(ratio, above, below)).toBeCloseTo(0.05, 3);
    }
  });

  test('critical values of a test with equal-weighted cosines are those of Student’s t', () => {
    // Lazarus, Lewis, Stock, Watson (2018), HAR inference, abstract and §2: with ν cosines, fixed-b critical values are t(ν);
    // ν = 0.4 T^⅔, so 8.2 and 14.1 for T = 93 and 207: their examples use 8 and 14. The points: Abramowitz & Stegun 26.10.
    expect(studentQuantile(0.95, 8)).toBeCloseTo(2.306, 3);
    expect(studentQuantile(0.95, 14)).toBeCloseTo(2.145, 3);
    expect(0.4 * 207 ** (2 / 3)).toBeCloseTo(14, 0);
  });
});

describe('CosineWaves', () => {
  /** As documented, entry by entry. */
  function documented(values: readonly number[], weights: readonly number[]) {
    const bins = values.flatMap((value, i) => (Number.isNaN(value) ? [] : [{ value, weight: weights[i] }]));
    const length = bins.reduce((sum, { weight }) => sum + weight, 0);
    const mean = bins.reduce((sum, { value, weight }) => sum + (value * weight) / length, 0);
    const variance = bins.reduce((sum, { value, weight }) => sum + ((value - mean) ** 2 * weight) / length, 0);
    const pool = Math.ceil(bins.length / 512);
    const pooled = Array.from({ length: Math.ceil(bins.length / pool) }, (_, k) => {
      const some = bins.slice(k * pool, (k + 1) * pool);
      const weight = some.reduce((sum, one) => sum + one.weight, 0);
      return { weight, value: some.reduce((sum, one) => sum + (one.value * one.weight) / weight, 0) };
    });
    const waves = Array.from({ length: Math.min(32, Math.floor(pooled.length / 2)) }, (_, j) => {
      let done = 0;
      let sum = 0;
      for (const { value, weight } of pooled) {
        sum += (weight / length) * (value - mean) * Math.cos((Math.PI * (j + 1) * (done + weight / 2)) / length);
        done += weight;
      }
      return Math.SQRT2 * sum;
    });
    return { length, mean, variance, waves, count: bins.length };
  }

  test.each([1, 2, 3, 7, 63, 64, 65, 511, 512, 513, 1025])('of %d bins, gaps among them, as documented', (count) => {
    const normal = normals(70 + count);
    const values = Array.from({ length: count }, (_, i) => (i % 7 === 3 ? Number.NaN : 4 + normal()));
    const weights = Array.from({ length: count }, () => 0.5 + normal() ** 2);
    const expected = documented(values, weights);
    const column = new CosineWaves(values, weights);
    expect(column.count).toBe(expected.count);
    expect(column.length).toBeCloseTo(expected.length, 9);
    expect(column.mean).toBeCloseTo(expected.mean, 10);
    expect(column.variance).toBeCloseTo(expected.variance, 10);
    expect(column.waves.length).toBe(expected.waves.length);
    expected.waves.forEach((wave, j) => {
      expect(column.waves[j]).toBeCloseTo(wave, 10);
    });
    const relative = column.relative();
    expect(relative.variance).toBeCloseTo(column.variance / column.mean ** 2, 12);
    if (column.waves.length > 0) expect(relative.waves[0]).toBeCloseTo(column.waves[0] / column.mean, 12);
  });

  test.each([2, 63, 513, 1025])(
    'of %d bins: columns of one stretch, one after the other, each as by itself',
    (count) => {
      const normal = normals(90 + count);
      const weights = Array.from({ length: count }, () => 0.5 + normal() ** 2);
      const whole = () => Array.from({ length: count }, () => 4 + normal());
      const gaps = whole().map((value, i) => (i % 7 === 3 ? Number.NaN : value));
      const kept = {};
      for (const values of [gaps, whole(), gaps, whole()]) {
        const expected = documented(values, weights);
        const column = new CosineWaves(values, weights, kept);
        expected.waves.forEach((wave, j) => {
          expect(column.waves[j]).toBeCloseTo(wave, 10);
        });
      }
    },
  );

  test('a single wave is found in its place and nowhere else', () => {
    const column = new CosineWaves(
      Float64Array.from({ length: 400 }, (_, i) => 3 + Math.cos((Math.PI * 5 * (i + 0.5)) / 400)),
      ones(400),
    );
    column.waves.forEach((wave, j) => {
      expect(wave).toBeCloseTo(j === 4 ? Math.SQRT1_2 : 0, 9);
    });
    expect(column.variance).toBeCloseTo(0.5, 9);
  });

  test('nothing at all has no mean, and no waves', () => {
    const column = new CosineWaves([Number.NaN, Number.NaN], [1, 1]);
    expect(column).toMatchObject({ length: 0, count: 0, mean: 0, variance: 0 });
    expect(column.waves.length).toBe(0);
  });
});

describe('exponentialMemory', () => {
  test.each([0.003, 0.03, 0.1, 0.5, 2, 10])('θ %d: the closed forms are the double integrals', (memory) => {
    const { mean, waves } = exponentialMemory(memory, 8);
    const n = 1200;
    const correlation = Float64Array.from({ length: n }, (_, lag) => Math.exp(-lag / n / memory));
    const integral = (f: (u: number) => number) => {
      const values = Float64Array.from({ length: n }, (_, i) => f((i + 0.5) / n));
      let sum = 0;
      for (let i = 0; i < n; i++) {
        sum += values[i] * values[i];
        for (let k = 0; k < i; k++) sum += 2 * values[i] * values[k] * correlation[i - k];
      }
      return sum / n ** 2;
    };
    // sums of 1200 by 1200: the correlation's bend at 0 costs 1 ÷ (6 · 1200 θ²) of a variance of about 2 θ
    const coarse = 1 / (1200 * memory) ** 2 + 1e-6;
    expect(Math.abs(mean / integral(() => 1) - 1)).toBeLessThan(coarse);
    for (const j of [1, 2, 7, 8]) {
      const expected = integral((u) => Math.SQRT2 * Math.cos(Math.PI * j * u));
      expect(Math.abs(waves[j - 1] / expected - 1)).toBeLessThan(coarse * (1 + j) + (Math.PI * j) ** 2 / 1200 ** 2);
    }
  });
});

describe('memoryOf', () => {
  const shaped = (memory: number, count = 32) => {
    const { waves } = exponentialMemory(memory, count);
    return { variance: 1, waves: waves.map(Math.sqrt) };
  };

  test.each([0.004, 0.02, 0.1, 0.4, 1.5])('waves of just the shape of θ = %d have that memory', (memory) => {
    expect(memoryOf([shaped(memory)])).toBeCloseTo(memory, 6);
    expect(memoryOf([shaped(memory), shaped(memory), shaped(memory, 20)])).toBeCloseTo(memory, 6);
  });

  test('is where halving finds as much of the power in the slowest waves, to 1e-9', () => {
    const normal = normals(31);
    for (const count of [2, 3, 7, 20, 32]) {
      for (const fall of [0, 0.4, 1, 2]) {
        const waves = Float64Array.from({ length: count }, (_, j) => normal() / (j + 1) ** fall);
        const power = waves.map((wave) => wave * wave);
        const all = power.reduce((sum, one) => sum + one, 0);
        let slowest = 0;
        let slow = 0;
        while (slow < 0.3 * all) slow += power[slowest++];
        let [low, high] = [1e-4, 10];
        for (let i = 0; i < 60; i++) {
          const middle = Math.sqrt(low * high);
          const shape = exponentialMemory(middle, count).waves;
          const within = shape.reduce((sum, one, j) => sum + (j < slowest ? one : 0), 0);
          if (within / shape.reduce((sum, one) => sum + one, 0) < slow / all) low = middle;
          else high = middle;
        }
        expect(Math.abs(memoryOf([{ variance: 1, waves }]) / low - 1)).toBeLessThan(1e-9);
      }
    }
  });

  test('white noise has hardly any, a trend more than the stretch, nothing none', () => {
    expect(memoryOf([{ variance: 1, waves: ones(32) }])).toBeLessThan(0.02);
    const trend = new CosineWaves(
      Float64Array.from({ length: 300 }, (_, i) => i),
      ones(300),
    );
    expect(memoryOf([trend])).toBeGreaterThan(5);
    expect(memoryOf([])).toBe(1e-4);
    expect(memoryOf([{ variance: 0, waves: new Float64Array(32) }])).toBe(1e-4);
  });

  test('a column that doesn’t vary says nothing beside one that does', () => {
    expect(memoryOf([shaped(0.1), { variance: 0, waves: ones(3) }])).toBe(memoryOf([shaped(0.1)]));
  });

  test('the power of columns is summed: the greater errors count for more', () => {
    const great = { variance: 100, waves: shaped(0.4).waves.map((wave) => 10 * wave) };
    expect(Math.abs(memoryOf([shaped(0.02), great]) - 0.4)).toBeLessThan(0.02);
  });
});

describe('JointScatter', () => {
  /** As documented, of columns that all vary. */
  function documented(columns: readonly { variance: number; waves: Float64Array }[], memory: number) {
    const waves = Math.min(32, ...columns.map((column) => column.waves.length));
    const shape = exponentialMemory(memory, waves);
    const samples = 1 / shape.mean;
    const used = Math.min(24, waves, Math.max(1, Math.round(samples ** (2 / 3))));
    const own = (column: { waves: Float64Array }) => {
      let sum = 0;
      for (let j = 0; j < used; j++) sum += (column.waves[j] ** 2 * shape.mean) / shape.waves[j] / used;
      return sum;
    };
    const k = columns.length;
    const ratio = columns.reduce((sum, column) => sum + own(column) / column.variance / k, 0);
    return {
      samples,
      degrees: used * Math.min(3, 1 / ((0.25 + 0.75 / k) ** 2 + (k - 1) * (0.75 / k) ** 2)),
      varianceOf: (column: { variance: number; waves: Float64Array }) =>
        Math.max(own(column), 0.25 * own(column) + 0.75 * ratio * column.variance),
    };
  }

  test.each([1, 2, 3, 4, 6])('of %d columns, as documented', (count) => {
    const normal = normals(90 + count);
    for (const seconds of [20, 90, 600]) {
      const columns = Array.from(
        { length: count },
        () => new CosineWaves(correlatedOffsets(normal, { seconds, correlation: 12 }), ones(seconds)),
      );
      for (const memory of [0.001, 0.02, 0.3, 4]) {
        const expected = documented(columns, memory);
        const judge = new JointScatter(columns, memory);
        expect(judge.samples).toBeCloseTo(expected.samples, 9);
        expect(judge.degrees).toBeCloseTo(expected.degrees, 9);
        for (const column of columns) expect(judge.varianceOf(column)).toBeCloseTo(expected.varianceOf(column), 9);
      }
    }
  });

  test('degrees of freedom: B, 1.9 B, 2.7 B, and 3 B at most', () => {
    const column = { variance: 1, waves: ones(32) };
    const ofOne = new JointScatter([column], 0.05).degrees;
    const times = [2, 3, 4, 6].map((count) => new JointScatter(new Array(count).fill(column), 0.05).degrees / ofOne);
    expect(times.map((one) => Number(one.toFixed(1)))).toEqual([1.9, 2.7, 3, 3]);
  });

  test('columns that don’t vary change nothing for the others, and are off by nothing', () => {
    const column = { variance: 2, waves: ones(32).map((_, i) => 1 / (i + 1)) };
    const still = { variance: 0, waves: new Float64Array(32) };
    const [alone, beside] = [new JointScatter([column], 0.1), new JointScatter([column, still], 0.1)];
    expect(beside.varianceOf(column)).toBe(alone.varianceOf(column));
    expect(beside.degrees).toBe(alone.degrees);
    expect(beside.varianceOf(still)).toBe(0);
    expect(new JointScatter([], 0.1).varianceOf(still)).toBe(0);
  });

  test('too short for waves: what the memory says of the variance is all there is', () => {
    const judge = new JointScatter([{ variance: 3, waves: new Float64Array(0) }], 0.5);
    expect(judge.varianceOf({ variance: 3, waves: new Float64Array(0) })).toBeCloseTo((0.75 * 3) / judge.samples, 12);
    expect(judge.degrees).toBeGreaterThan(0);
  });
});

describe('limits', () => {
  const variance = fc.double({ min: 1e-4, max: 0.5, noNaN: true });
  // the ratio's variance is what some correlation of the two makes of theirs
  const means = fc
    .record({
      first: fc.double({ min: 0.1, max: 50, noNaN: true }),
      second: fc.double({ min: 0.1, max: 50, noNaN: true }),
      firstVariance: variance,
      secondVariance: variance,
      correlation: fc.double({ min: -0.95, max: 0.95, noNaN: true }),
    })
    .map(({ correlation, ...one }) => ({
      ...one,
      variance:
        one.firstVariance + one.secondVariance - 2 * correlation * Math.sqrt(one.firstVariance * one.secondVariance),
    }));

  test('of a mean above 0: as many times as far up as down, and none for 0', () => {
    const [low, high] = meanLimits(4, 1, 2);
    expect(high / 4).toBeCloseTo(Math.exp(0.5), 12);
    expect(4 / low).toBeCloseTo(Math.exp(0.5), 12);
    expect(meanLimits(0, 0, 2)).toEqual([0, 0]);
  });

  test('of a difference: by hand, of two that err apart and alike', () => {
    const own = { first: 6, second: 4, firstVariance: 0.01, secondVariance: 0.01 };
    const [up, down] = [Math.expm1(0.2), -Math.expm1(-0.2)];
    // apart: squares of the distances to the limits are summed
    const apart = differenceLimits({ ...own, variance: 0.02 }, 2);
    expect(apart[0]).toBeCloseTo(2 - Math.hypot(6 * down, 4 * up), 12);
    expect(apart[1]).toBeCloseTo(2 + Math.hypot(6 * up, 4 * down), 12);
    // wholly alike: the distances are subtracted
    const alike = differenceLimits({ ...own, variance: 0 }, 2);
    expect(alike[0]).toBeCloseTo(2 - Math.abs(6 * down - 4 * up), 12);
    expect(alike[1]).toBeCloseTo(2 + Math.abs(6 * up - 4 * down), 12);
  });

  test('the p-value is that of the limits which just reach 0', () => {
    fc.assert(
      fc.property(means, fc.double({ min: 2, max: 60, noNaN: true }), (given, degrees) => {
        const widening = 1.1;
        const pValue = differencePValue(given, degrees, widening);
        for (const within of [0.5, 0.9, 0.95, 0.99]) {
          const [low, high] = differenceLimits(given, studentQuantile(within, degrees) * widening);
          if (Math.abs(pValue - (1 - within)) > 1e-9) expect(pValue < 1 - within).toBe(low > 0 || high < 0);
        }
      }),
      { seed: 41, numRuns: 200 },
    );
  });

  test('the two taken the other way round, the same the other way round', () => {
    fc.assert(
      fc.property(means, (given) => {
        const turned = {
          ...given,
          first: given.second,
          second: given.first,
          firstVariance: given.secondVariance,
          secondVariance: given.firstVariance,
        };
        const [low, high] = differenceLimits(given, 2);
        const [turnedLow, turnedHigh] = differenceLimits(turned, 2);
        expect(turnedLow).toBeCloseTo(-high, 9);
        expect(turnedHigh).toBeCloseTo(-low, 9);
      }),
      { seed: 42, numRuns: 100 },
    );
  });

  test('nothing that varies: no chance at all, and equal ones are surely equal', () => {
    const still = { first: 3, second: 2, firstVariance: 0, secondVariance: 0, variance: 0 };
    expect(differenceLimits(still, 5)).toEqual([1, 1]);
    expect(differencePValue(still, 4, 1)).toBe(0);
    expect(differencePValue({ ...still, second: 3 }, 4, 1)).toBe(1);
  });

  test('of a share: Wilson’s worked example, and some length at the ends', () => {
    // Wilson's score interval of 81 in 263 at 95 %: 0.2553 to 0.3662 (Newcombe, Stat. Med. 17 (1998) 857, table I)
    const [low, high] = shareLimits(81 / 263, 263, 1.959964);
    expect(low).toBeCloseTo(0.2553, 4);
    expect(high).toBeCloseTo(0.3662, 4);
    expect(shareLimits(1, 10, 2)[1]).toBe(1);
    expect(shareLimits(1, 10, 2)[0]).toBeCloseTo(10 / 14, 12);
    expect(shareLimits(0, 10, 2)[0]).toBeCloseTo(0, 12);
  });
});

describe('runsJoined', () => {
  test('never less than foretold, as much more as the own or the common excess says', () => {
    expect(runsJoined(3, 6, [0.2, 0.4]).variance).toBe(2);
    expect(runsJoined(3, 6, [2, 0.4]).variance).toBe(4);
    expect(runsJoined(3, 6, [0, 4]).variance).toBe(4);
  });

  test('R degrees of freedom alone, 2R − 1 beside others', () => {
    expect(runsJoined(3, 1, [1]).degrees).toBe(3);
    expect(runsJoined(3, 1, [1, 1]).degrees).toBe(5);
  });
});

describe('foldedMemory', () => {
  test('600 s of errors that last 30 s are worth 22 distances; variance π/2 − 1 over the square of the mean', () => {
    // by summing second by second: the size of a normal error keeps (√(1 − ρ²) + ρ asin ρ − 1) ÷ (π/2 − 1)
    let sum = 1;
    for (let k = 1; k < 600; k++) {
      const rho = Math.exp(-k / 30);
      sum += (2 * (1 - k / 600) * (Math.sqrt(1 - rho * rho) + rho * Math.asin(rho) - 1)) / (Math.PI / 2 - 1);
    }
    const { variance, samples } = foldedMemory(20);
    expect(samples).toBeCloseTo(600 / sum, 1);
    expect(variance).toBeCloseTo(Math.PI / 2 - 1, 12);
    expect(foldedMemory(0.01).samples).toBeCloseTo(1, 1);
  });
});
