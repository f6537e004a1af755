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
    expect(lineVerdict({ ...figures, biasInterval95: [0.6, 2] })).toMatchObject({
      lineVerdict: 'kept',
      sureSide: 'right',
    });
    expect(lineVerdict({ ...figures, biasInterval95: [-2, -0.6] })).toMatchObject({
      strayedTo: null,
      sureSide: 'left',
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
    expect(lineVerdict({ ...figures, interval95: [6.1, 9] })).toMatchObject({
      lineVerdict: 'strayed',
      strayedTo: null,
      lineLimit: 6,
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
