import { expect, test } from 'vitest';
import { closerAmong } from '../../src/assess/closerAmong';
import { equalGroups } from '../../src/assess/equalGroups';

const names = (count: number) => Array.from({ length: count }, (_, i) => `${i}`);

/** Every two of so many, the one before closer where they are over three apart; and how often a pair's first name was read. */
function watched(count: number) {
  let reads = 0;
  const pairs = names(count).flatMap((first, i) =>
    names(count)
      .slice(i + 1)
      .map((second, k) => ({
        get first() {
          reads++;
          return first;
        },
        second,
        closer: k > 2 ? first : null,
      })),
  );
  return { pairs, reads: () => reads };
}

test('who is closer: from each pair once, however many names (2026-11: 200 recordings, eight times the time a doubling)', () => {
  const { pairs, reads } = watched(60);
  const closer = closerAmong(names(60), pairs);
  for (let i = 0; i < 60; i++) for (let j = 0; j < 60; j++) expect(closer(i, j)).toBe(j - i > 3);
  expect(reads()).toBeLessThanOrEqual(2 * pairs.length);
  expect(closerAmong(['a'], [{ first: 'a', second: 'b', closer: 'a' }])(0, 0)).toBe(false);
});

test('groups of equals: each pair looked at once', () => {
  const { pairs, reads } = watched(40);
  const equal = pairs.filter(({ closer }) => closer === null);
  expect(equalGroups(names(40), equal)).toEqual(names(37).map((_, i) => names(40).slice(i, i + 4)));
  expect(reads()).toBeLessThanOrEqual(2 * equal.length);
});
