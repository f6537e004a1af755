import { expect, test } from 'vitest';
import { isConfounded } from '../../src/assess/isConfounded';

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
