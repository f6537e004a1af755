import { expect, test } from 'vitest';
import { cutAtAntimeridian } from '../../src/geodesy/cutAtAntimeridian';

test('every longitude lies within [-180, 180] and lines are cut there (RFC 7946, section 3.1.9)', () => {
  const parts = cutAtAntimeridian([
    [179, 10],
    [181, 12],
    [182, 12],
    [179, 15],
  ]);
  expect(parts.map(({ positions }) => positions)).toEqual([
    [
      [179, 10],
      [180, 11],
    ],
    [
      [-180, 11],
      [-179, 12],
      [-178, 12],
      [-180, 14],
    ],
    [
      [180, 14],
      [179, 15],
    ],
  ]);
  expect(parts.map(({ fixes }) => fixes)).toEqual([
    [0, -1],
    [-1, 1, 2, -1],
    [-1, 3],
  ]);
});

test('a line within the meridian stays one piece, its heights with it; longitudes past ±180° are brought back', () => {
  expect(
    cutAtAntimeridian([
      [5, 60, 12],
      [6, 60],
    ]),
  ).toEqual([
    {
      positions: [
        [5, 60, 12],
        [6, 60],
      ],
      fixes: [0, 1],
    },
  ]);
  expect(
    cutAtAntimeridian([
      [365, 60],
      [366, 60],
    ]),
  ).toEqual([
    {
      positions: [
        [5, 60],
        [6, 60],
      ],
      fixes: [0, 1],
    },
  ]);
  expect(cutAtAntimeridian([])).toEqual([{ positions: [], fixes: [] }]);
});
