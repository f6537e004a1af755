import { expect, test } from 'vitest';
import { FixTrack } from '../../src/snap/FixTrack';

/** Fixes so many metres apart along a meridian, at the given seconds. */
function trackOf(metres: readonly number[], seconds?: readonly number[]): FixTrack {
  const degree = 6_371_008.8 * (Math.PI / 180);
  return new FixTrack({
    lon: new Float64Array(metres.length).fill(5),
    lat: Float64Array.from(metres, (north) => 52 + north / degree),
    ...(seconds && { time: Float64Array.from(seconds, (second) => 1e12 + 1000 * second) }),
    gapBefore: Uint8Array.from(metres, (_, i) => (i === 0 || i === 2 ? 1 : 0)),
  });
}

const NONE = Number.NaN;

test.each<[string, number[], number[] | undefined, number[]]>([
  ['times as they are', [0, 3, 9], [10, 11, 15], [0, 1, 5]],
  ['none: at 3 m a second', [0, 3, 9], undefined, [0, 1, 3]],
  ['one missing: its share of the way', [0, 2, 8], [0, NONE, 12], [0, 3, 12]],
  ['standing still: even shares', [0, 0, 0], [0, NONE, 4], [0, 2, 4]],
  ['cut to minutes: the way within each', [0, 10, 40, 60, 80], [0, 0, 0, 60, 60], [0, 10, 40, 60, 80]],
  [
    'before the first and after the last: the pace of the others',
    [0, 2, 4, 8, 10],
    [NONE, 2, 4, 8, NONE],
    [0, 2, 4, 8, 10],
  ],
  ['running back: as without', [0, 3, 9], [9, 5, 1], [0, 1, 3]],
  ['all the same: as without', [0, 3, 9], [9, 9, 9], [0, 1, 3]],
  ['one far ahead: its share of the way', [0, 1, 2, 3], [0, 9000, 2, 3], [0, 1, 2, 3]],
])('the clock, %s', (_, metres, seconds, expected) => {
  const { clock } = trackOf(metres, seconds);
  expected.forEach((second, i) => {
    expect(clock[i]).toBeCloseTo(second, 3);
  });
});

test('from the last fix to the first, the clock runs as long, and interruptions lie between the same fixes', () => {
  const back = trackOf([0, 3, 9, 11], [0, 1, 5, 6]).reversed();
  expect([...back.clock]).toEqual([0, 1, 5, 6]);
  expect([...Array.from(back.gapBefore)]).toEqual([1, 0, 1, 0]);
  expect(back.moved(0, 1)).toBeCloseTo(2, 2);
});

test.each([1e-22, 1e-20, 1e-15, 1e-9, 1e-3])(
  'of a body that moves %d degrees in all, the clock never falls',
  (moved) => {
    for (let k = 0; k < 50; k++) {
      const lon = Float64Array.from({ length: 12 }, (_, i) => moved * Math.abs(Math.sin(i * i + k)));
      const time = Float64Array.from(lon, (_, i) => (i < 2 || i > 8 ? Number.NaN : 1000 * i + k));
      const { clock } = new FixTrack({ lon, lat: lon, time, gapBefore: new Uint8Array(12) });
      for (let i = 1; i < 12; i++) expect(clock[i]).toBeGreaterThanOrEqual(clock[i - 1]);
    }
  },
);
