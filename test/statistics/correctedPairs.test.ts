import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { correctedPairs, simes } from '../../src/statistics';
import type { ComparedPair } from '../../src/statistics/correctedPairs';
import { partitions } from '../../src/statistics/partitions';
import { shafferFactors } from '../../src/statistics/shafferFactors';
import { garciaHerrera } from '../published/garciaHerrera2008';
import { seeded } from '../support/randomLine';

const everyTwo = (count: number) =>
  Array.from({ length: count }, (_, i) => i).flatMap((first) =>
    Array.from({ length: count - first - 1 }, (_, k) => ({ first, second: first + 1 + k })),
  );
const probability = fc.oneof(fc.double({ min: 0, max: 1, noNaN: true }), fc.double({ min: 0, max: 0.02, noNaN: true }));
const family = fc.integer({ min: 2, max: 5 }).chain((count) =>
  fc.record({
    count: fc.constant(count),
    pValues: fc.array(probability, { minLength: (count * (count - 1)) / 2, maxLength: (count * (count - 1)) / 2 }),
  }),
);
/** Holm's steps, by hand. */
function holmOf(pValues: readonly number[]): number[] {
  const adjusted = pValues.map(() => 0);
  let least = 0;
  [...pValues.keys()]
    .sort((a, b) => pValues[a] - pValues[b])
    .forEach((i, step) => {
      least = Math.max(least, Math.min(1, (pValues.length - step) * pValues[i]));
      adjusted[i] = least;
    });
  return adjusted;
}
const pairsOf = (count: number, pValues: readonly (number | null)[]) =>
  everyTwo(count).map((pair, i) => ({ ...pair, pValue: pValues[i] }));

describe('what the docs say', () => {
  test('two things: nothing to correct', () => {
    expect(correctedPairs([{ first: 0, second: 1, pValue: 0.03 }], 2)).toEqual([{ adjusted: 0.03, level: 0.05 }]);
  });

  test('three: the smallest times three, then each at least that and its own', () => {
    // by hand: {012} joins all three, {01|2} and the like one each
    const corrected = correctedPairs(pairsOf(3, [0.01, 0.02, 0.04]), 3);
    expect(corrected.map(({ adjusted }) => adjusted)).toEqual([0.03, 0.03, 0.04]);
  });

  test('with a baseline: Holm’s steps, worked by hand', () => {
    const star = [0.01, 0.04, 0.03, 0.005].map((pValue, i) => ({ first: 0, second: i + 1, pValue }));
    expect(correctedPairs(star, 5).map(({ adjusted }) => adjusted)).toEqual([0.03, 0.06, 0.06, 0.02]);
  });

  test('pairs without a p-value stay so, and stand in no claim', () => {
    const corrected = correctedPairs(pairsOf(3, [null, 0.02, null]), 3);
    expect(corrected.map(({ adjusted }) => adjusted)).toEqual([null, 0.02, null]);
  });

  test('Simes: the least of m p(i) ÷ i, by hand', () => {
    expect(simes([0.04, null, 0.03])).toBeCloseTo(0.04, 12);
    expect(simes([0.01, 0.9, 0.9])).toBeCloseTo(0.03, 12);
    expect(simes([null])).toBeNull();
  });
});

describe('published', () => {
  test('five things, ten pairs: the closed test', () => {
    const corrected = correctedPairs(garciaHerrera, 5);
    garciaHerrera.forEach(({ closed }, i) => {
      expect(corrected[i].adjusted! / closed).toBeCloseTo(1, 9);
    });
  });

  test('Shaffer’s factors for three to six things', () => {
    // Shaffer (1986), table of the most pairs that can be alike: 3, 1, 1 · 6, 3, 3, 3, 2, 1 (from memory)
    expect(shafferFactors(3)).toEqual([3, 1, 1]);
    expect(shafferFactors(4)).toEqual([6, 3, 3, 3, 2, 1]);
    expect(shafferFactors(5)).toEqual([10, 6, 6, 6, 6, 4, 4, 3, 2, 1]);
  });

  test('Shaffer’s steps on the same pairs', () => {
    let least = 0;
    garciaHerrera.forEach(({ pValue, shaffer }, step) => {
      least = Math.max(least, Math.min(1, shafferFactors(5)[step] * pValue));
      expect(least / shaffer).toBeCloseTo(1, 9);
    });
  });
});

describe('properties', () => {
  test('the partitions of n things are as many as Bell’s numbers: 1, 2, 5, 15, 52, 203, 877', () => {
    expect([1, 2, 3, 4, 5, 6, 7].map((count) => [...partitions(count)].length)).toEqual([1, 2, 5, 15, 52, 203, 877]);
  });

  test('Shaffer’s factors are the most pairs that a grouping can leave alike', () => {
    for (const count of [2, 4, 7, 8]) {
      const possible = [...partitions(count)].map(
        (groups) => everyTwo(count).filter(({ first, second }) => groups[first] === groups[second]).length,
      );
      const pairs = (count * (count - 1)) / 2;
      const expected = Array.from({ length: pairs }, (_, step) =>
        Math.max(...possible.filter((alike) => alike <= pairs - step)),
      );
      expect(shafferFactors(count)).toEqual(expected);
    }
  });

  test('eight things: each p-value in order times its factor, never falling', () => {
    const values = Array.from({ length: 28 }, (_, i) => ((i * 17) % 28) * 1e-3 + 1e-4);
    const corrected = correctedPairs(pairsOf(8, values), 8);
    const factors = shafferFactors(8);
    let least = 0;
    [...values]
      .sort((a, b) => a - b)
      .forEach((value, step) => {
        least = Math.max(least, Math.min(1, value * factors[step]));
        expect(corrected[values.indexOf(value)].adjusted).toBeCloseTo(least, 12);
      });
  });

  test('compared with a baseline only, few or many: Holm’s steps', () => {
    for (const count of [3, 5, 7, 9]) {
      fc.assert(
        fc.property(fc.array(probability, { minLength: count - 1, maxLength: count - 1 }), (values) => {
          const star = values.map((pValue, i) => ({ first: 0, second: i + 1, pValue }));
          const holm = holmOf(values);
          correctedPairs(star, count).forEach(({ adjusted }, i) => {
            expect(adjusted!).toBeCloseTo(holm[i], 12);
          });
        }),
        { seed: 35, numRuns: 60 },
      );
    }
  });

  test('eight things of which two were never together: Holm’s steps over the rest', () => {
    const values = Array.from({ length: 28 }, (_, i) => 0.001 * (i + 1));
    const holm = holmOf(values.slice(1));
    const corrected = correctedPairs(pairsOf(8, [null, ...values.slice(1)]), 8);
    corrected.slice(1).forEach(({ adjusted }, i) => {
      expect(adjusted!).toBeCloseTo(holm[i], 12);
    });
  });

  test('seven things are still judged by every way to group them', () => {
    // of six that differ from the first no more than two groups stay: the pairs within them are fewer than Shaffer allows for
    const pairs = everyTwo(7).map((pair) => ({ ...pair, pValue: pair.first === 0 ? 1e-9 : 0.004 }));
    const within = correctedPairs(pairs, 7).at(-1)!;
    expect(within.adjusted).toBeCloseTo(15 * 0.004, 12);
    // five as published, and two that differ from all: nothing changes for the five; Shaffer's steps would ask for more
    const others = everyTwo(7)
      .filter(({ second }) => second >= 5)
      .map((pair) => ({ ...pair, pValue: 1e-14 }));
    const seven = correctedPairs([...garciaHerrera, ...others], 7);
    garciaHerrera.forEach(({ closed }, i) => {
      expect(seven[i].adjusted! / closed).toBeCloseTo(1, 6);
    });
  });

  test('a pair among others that fail: the level is that of the first step', () => {
    const values = everyTwo(8).map(() => 0.9);
    expect(correctedPairs(pairsOf(8, values), 8)[3].level).toBeCloseTo(0.05 / 28, 12);
  });

  test('a pair whose corrected p-value is exactly the limit counts as told: those after it keep their level', () => {
    // by hand, Holm's factors 8 … 2, 1: twice 0.025 is 0.05 to the last bit, told; the last alone has nothing before it that fails
    const values = [...Array.from({ length: 6 }, () => 1e-9), 0.025, 0.9];
    const star = values.map((pValue, i) => ({ first: 0, second: i + 1, pValue }));
    const corrected = correctedPairs(star, 9);
    expect(corrected[6].adjusted).toBe(0.05);
    expect(corrected[7].level).toBe(0.05);
    expect(
      correctedPairs(
        star.map((pair, i) => (i === 6 ? { ...pair, pValue: 0.026 } : pair)),
        9,
      )[7].level,
    ).toBe(0.025);
  });

  test('never below the p-value, never above Holm’s', () => {
    fc.assert(
      fc.property(family, ({ count, pValues }) => {
        const pairs = pairsOf(count, pValues);
        const closed = correctedPairs(pairs, count);
        const holm = holmOf(pValues);
        closed.forEach(({ adjusted }, i) => {
          expect(adjusted!).toBeGreaterThanOrEqual(pValues[i]);
          expect(adjusted!).toBeLessThanOrEqual(holm[i] + 1e-12);
        });
      }),
      { seed: 31, numRuns: 300 },
    );
  });

  test('a pair is told exactly where every claim that joins it is refuted', () => {
    // brute force over all sets of pairs that some grouping makes alike
    fc.assert(
      fc.property(family, ({ count, pValues }) => {
        const pairs = pairsOf(count, pValues);
        const refuted = [...partitions(count)].map((groups) => {
          const joined = pairs.filter(({ first, second }) => groups[first] === groups[second]);
          return { groups, refuted: joined.length > 0 && joined.some(({ pValue }) => pValue! * joined.length <= 0.05) };
        });
        correctedPairs(pairs, count).forEach(({ adjusted }, i) => {
          const { first, second } = pairs[i];
          const told = refuted.every((claim) => claim.groups[first] !== claim.groups[second] || claim.refuted);
          expect(adjusted! <= 0.05).toBe(told);
        });
      }),
      { seed: 32, numRuns: 300 },
    );
  });

  test.each([
    ['every two', 5],
    ['with a baseline', 5],
    ['every two', 8],
  ] as const)('the level is where the pair’s own p-value turns the verdict: %s, %d things', (compared, count) => {
    fc.assert(
      fc.property(fc.array(probability, { minLength: 28, maxLength: 28 }), fc.nat(), (values, chosen) => {
        const couples = compared === 'every two' ? everyTwo(count) : everyTwo(count).filter(({ first }) => first === 0);
        const pairs = couples.map((pair, i) => ({ ...pair, pValue: values[i] }));
        const i = chosen % pairs.length;
        const { level } = correctedPairs(pairs, count)[i];
        const told = (pValue: number) => {
          const changed = pairs.map((pair, k) => (k === i ? { ...pair, pValue } : pair));
          return correctedPairs(changed, count)[i].adjusted! <= 0.05;
        };
        expect(level).toBeGreaterThan(0);
        expect(level).toBeLessThanOrEqual(0.05);
        expect(told(level * 0.999999)).toBe(true);
        expect(told(level * 1.000001)).toBe(false);
      }),
      { seed: 33, numRuns: 150 },
    );
  });

  test('what Bonferroni’s rule refutes of all together, Simes’ does', () => {
    fc.assert(
      fc.property(fc.array(probability, { minLength: 1, maxLength: 10 }), (values) => {
        expect(simes(values)!).toBeLessThanOrEqual(Math.min(1, values.length * Math.min(...values)) + 1e-12);
      }),
      { seed: 34, numRuns: 300 },
    );
  });
});

test('the level of a pair is the p-value of its own up to which its steps lead', () => {
  const random = seeded(31);
  for (let round = 0; round < 40; round++) {
    const count = 8 + (round % 3);
    const pairs: ComparedPair[] = [];
    for (let first = 0; first < count; first++) {
      for (let second = first + 1; second < count; second++) {
        if (round % 2 === 0 || random() < 0.8) pairs.push({ first, second, pValue: random() ** 8 });
      }
    }
    const corrected = correctedPairs(pairs, count);
    for (const i of [0, 7, pairs.length - 1]) {
      const adjusted = (pValue: number) =>
        correctedPairs(
          pairs.map((pair, k) => (k === i ? { ...pair, pValue } : pair)),
          count,
        )[i].adjusted!;
      expect(adjusted(corrected[i].level * 0.999)).toBeLessThanOrEqual(0.05);
      expect(adjusted(corrected[i].level * 1.001)).toBeGreaterThan(0.05);
    }
  }
});
