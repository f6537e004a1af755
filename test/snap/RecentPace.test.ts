import { expect, test } from 'vitest';
import { RecentPace } from '../../src/snap/RecentPace';
import { seeded } from '../support/randomLine';

const upperMedian = (values: readonly number[]) => [...values].sort((a, b) => a - b)[values.length >> 1];

test('is the upper median of the last 255 steps that moved, by sorting them anew', () => {
  const random = seeded(5);
  const pace = new RecentPace();
  const moving: number[] = [];
  for (let k = 0; k < 900; k++) {
    const speed = random() < 0.2 ? 0.3 : 0.6 + 5 * random() ** 2;
    if (speed > 0.5) moving.push((5 * speed) / 5);
    const expected = pace.step(5 * speed, 5);
    const last = moving.slice(-255);
    expect(expected).toBeCloseTo(last.length > 0 ? upperMedian(last) : 0, 12);
  }
});

test('of a step longer than 7.5 s it is that of the last 15 steps, but for those over 90 s, where three moved', () => {
  const pace = new RecentPace();
  for (let k = 0; k < 40; k++) pace.step(10, 5);
  for (let k = 0; k < 12; k++) pace.step(20, 5);
  expect(pace.step(200, 20)).toBe(4);
  for (let k = 0; k < 15; k++) pace.step(9_000, 100);
  // all of them too long to say anything: the median of all
  expect(pace.step(100, 20)).toBe(2);
});
