import { expect, test } from 'vitest';
import { isConfounded } from '../../src/assess/isConfounded';

const [l, r] = ['left wrist', 'right wrist'];

test.each([
  ['once, each on its own side', [[l, r]], true],
  [
    'always on its own side',
    [
      [l, r],
      [l, r],
    ],
    true,
  ],
  [
    'swapped',
    [
      [l, r],
      [r, l],
    ],
    false,
  ],
  [
    'side by side',
    [
      [l, l],
      [l, l],
    ],
    false,
  ],
  ['nowhere stated', [[l, null]], false],
  [
    'where it was not stated says nothing of a swap',
    [
      [l, r],
      [null, l],
      [l, r],
    ],
    true,
  ],
])('isConfounded: %s', (_, placements, confounded) => {
  expect(isConfounded(placements.map(([first, second]) => ({ first, second })))).toBe(confounded);
});
