import fc from 'fast-check';
import { expect, test } from 'vitest';
import { risingTimes } from '../../src/snap/risingTimes';

const marked = (time: number[]) => {
  const found = risingTimes(time);
  return found && [...found.keys()].filter((i) => found[i] === 1);
};

test.each<[string, number[], number[] | undefined]>([
  ['all rise', [1, 2, 5], undefined],
  ['none is known', [Number.NaN, Number.NaN], undefined],
  ['none at all', [], undefined],
  ['missing ones are passed over', [1, Number.NaN, 2], undefined],
  ['of those that share one the first has it', [1, 1, 1, 2, 2, 3], [1, 2, 4]],
  ['all the same', [7, 7, 7], [1, 2]],
  ['one far ahead', [1, 2, 900, 3, 4, 5], [2]],
  ['one far back', [1, 2, -900, 3, 4, 5], [2]],
  ['a missing one among those that share', [1, Number.NaN, 1, 2], [2]],
])('%s', (_, time, expected) => {
  expect(marked(time)).toEqual(expected);
});

test('of times that run back one is believed', () => {
  expect(marked([5, 4, 3, 2])?.length).toBe(3);
});

test('those that are believed rise, and no more could be', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 0, max: 9 }), { maxLength: 11 }), (time) => {
      const found = risingTimes(time);
      const believed = time.filter((_, i) => found?.[i] !== 1);
      believed.slice(1).forEach((instant, i) => {
        expect(instant).toBeGreaterThan(believed[i]);
      });
      // every choice of fixes tried
      let most = 0;
      for (let choice = 0; choice < 1 << time.length; choice++) {
        const chosen = time.filter((_, i) => (choice >> i) & 1);
        if (chosen.every((instant, i) => i === 0 || instant > chosen[i - 1])) most = Math.max(most, chosen.length);
      }
      expect(believed.length).toBe(most);
    }),
    { seed: 3, numRuns: 200 },
  );
});
