import { expect, test } from 'vitest';
import { lineVerdict } from '../../src/assess';

const judge = (biasInterval95: [number, number] | null, has: Partial<Parameters<typeof lineVerdict>[0]> = {}) =>
  lineVerdict({ coverage: 1, interval95: [1, 3], biasInterval95, halfWidth: 5, floor: 0.5, ...has });

test.each([
  [[2, 4.2], 'right', 'kept', null],
  [[-4.2, -2], 'left', 'kept', null],
  [[0.5, 4], null, 'kept', null],
  [[0.51, 4], 'right', 'kept', null],
  [[-1, 4], null, 'kept', null],
  [[5.1, 9], 'right', 'strayed', 'right'],
  [[-9, -5.1], 'left', 'strayed', 'left'],
  [null, null, 'kept', null],
] as const)('%j lies surely %s, and has %s', (interval, sureSide, verdict, strayedTo) => {
  const judged = judge(interval as [number, number] | null);
  expect(judged).toEqual({ lineVerdict: verdict, strayedTo, lineLimit: 5, sureSide, sideLimit: 0.5 });
});

test('a side is never sure within the reference’s uncertainty, a narrower corridor or none changes nothing of it', () => {
  expect(judge([2, 4.2], { floor: 2 }).sureSide).toBe(null);
  expect(judge([2, 4.2], { floor: 1.9, halfWidth: 1 })).toMatchObject({ sureSide: 'right', lineLimit: 1.9 });
  expect(judge([2, 4.2], { halfWidth: null })).toMatchObject({ sureSide: 'right', strayedTo: 'right', lineLimit: 0.5 });
});

test('nothing is sure of a stretch of which less than half was covered', () => {
  expect(judge([7, 9], { coverage: 0.49 })).toMatchObject({
    sureSide: null,
    lineVerdict: 'undecided',
    strayedTo: null,
  });
});
