import { describe, expect, test } from 'vitest';
import { lineVerdict } from '../../src/assess/lineVerdict';

const figures = {
  coverage: 1,
  interval95: [3, 5] as const,
  biasInterval95: [-1, 1] as const,
  halfWidth: 6,
  floor: 0.5,
};

describe('what the docs say', () => {
  test('kept: the whole interval of the mean distance within half the corridor', () => {
    expect(lineVerdict(figures)).toEqual({
      lineVerdict: 'kept',
      strayedTo: null,
      lineLimit: 6,
      sureSide: null,
      sideLimit: 0.5,
    });
    expect(lineVerdict({ ...figures, interval95: [3, 6.1] }).lineVerdict).toBe('undecided');
  });

  test.each([
    [[6.1, 9], 'right'],
    [[-9, -6.1], 'left'],
  ] as const)(
    'strayed to one side: the whole interval of the mean offset, %j, beyond the limit',
    (biasInterval95, side) => {
      expect(lineVerdict({ ...figures, interval95: [6.2, 9], biasInterval95 })).toEqual({
        lineVerdict: 'strayed',
        strayedTo: side,
        lineLimit: 6,
        sureSide: side,
        sideLimit: 0.5,
      });
    },
  );

  test('strayed on both sides: beyond it on average, and to neither', () => {
    expect(lineVerdict({ ...figures, interval95: [6.1, 9] })).toEqual({
      lineVerdict: 'strayed',
      strayedTo: null,
      lineLimit: 6,
      sureSide: null,
      sideLimit: 0.5,
    });
    expect(lineVerdict({ ...figures, interval95: [5.9, 9] }).lineVerdict).toBe('undecided');
  });

  test('the limit is never less than what the reference and the lever arm leave open', () => {
    expect(lineVerdict({ ...figures, halfWidth: 1, floor: 2 }).lineLimit).toBe(2);
  });

  test('without a corridor only the mean offset counts: scatter to both sides leaves no line', () => {
    const open = { ...figures, halfWidth: null };
    expect(lineVerdict({ ...open, biasInterval95: [0.6, 2] })).toMatchObject({
      lineVerdict: 'strayed',
      strayedTo: 'right',
    });
    expect(lineVerdict({ ...open, biasInterval95: [-2, -0.6] })).toMatchObject({
      lineVerdict: 'strayed',
      strayedTo: 'left',
    });
    expect(lineVerdict({ ...open, biasInterval95: [-0.4, 0.5] }).lineVerdict).toBe('kept');
    expect(lineVerdict({ ...open, biasInterval95: [-0.4, 0.6] }).lineVerdict).toBe('undecided');
    expect(lineVerdict({ ...open, interval95: [30, 40] }).lineVerdict).toBe('undecided');
  });

  test('less than half of the stretch covered, or no interval: undecided', () => {
    expect(lineVerdict({ ...figures, coverage: 0.49 }).lineVerdict).toBe('undecided');
    expect(lineVerdict({ ...figures, coverage: 0.5 }).lineVerdict).toBe('kept');
    expect(lineVerdict({ ...figures, interval95: null, biasInterval95: null }).lineVerdict).toBe('undecided');
    expect(lineVerdict({ ...figures, interval95: null, biasInterval95: null, halfWidth: null }).lineVerdict).toBe(
      'undecided',
    );
  });
});

describe('the side it surely lies to', () => {
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
    expect(judge([2, 4.2], { halfWidth: null })).toMatchObject({
      sureSide: 'right',
      strayedTo: 'right',
      lineLimit: 0.5,
    });
  });

  test('nothing is sure of a stretch of which less than half was covered', () => {
    expect(judge([7, 9], { coverage: 0.49 })).toMatchObject({
      sureSide: null,
      lineVerdict: 'undecided',
      strayedTo: null,
    });
  });
});
