import { expect, test } from 'vitest';
import { worstStretch } from '../../examples/own-metric/worstStretch';

/** The definition, written as slowly as it can be. */
function slowly(s: readonly number[], n: readonly number[], gap: readonly number[], length: number, window: number) {
  const at = (metre: number) => {
    const seen: number[] = [];
    for (let i = 1; i < s.length; i++) {
      if (gap[i] || !(s[i] > s[i - 1]) || metre < s[i - 1] || metre >= s[i]) continue;
      seen.push(Math.abs(n[i - 1] + ((metre - s[i - 1]) / (s[i] - s[i - 1])) * (n[i] - n[i - 1])));
    }
    return seen.length === 0 ? Number.NaN : seen.reduce((a, b) => a + b) / seen.length;
  };
  const bins = Array.from({ length: Math.floor(length) }, (_, i) => at(i + 0.5));
  return Array.from({ length: Math.max(0, bins.length - window + 1) }, (_, i) => {
    const known = bins.slice(i, i + window).filter((value) => !Number.isNaN(value));
    return known.length < window / 2 ? Number.NaN : known.reduce((a, b) => a + b, 0) / known.length;
  });
}

test('a stretch 4 m off among 1 m is found where it lies', () => {
  const s = Array.from({ length: 101 }, (_, i) => i * 10);
  const n = s.map((at) => (at >= 500 && at <= 600 ? -4 : 1));
  const { at, worst } = worstStretch(s, n, new Uint8Array(101), { length: 1000, window: 100 });
  expect(worst).toBeCloseTo(4, 12);
  expect(at).toBe(500);
});

test('it is its definition: steps back, gaps and fixes off the route included', () => {
  let seed = 5;
  const random = () => (seed = (seed * 48271) % 2147483647) / 2147483647;
  const s = [0];
  for (let i = 1; i < 200; i++) s.push(s[i - 1] + 4 * random() - 1);
  const n = s.map(() => 10 * random() - 5);
  const gap: number[] = s.map(() => (random() < 0.05 ? 1 : 0));
  s[50] = n[50] = Number.NaN;
  const length = Math.max(...s.filter((value) => value > 0)) + 20;
  const { mean, worst, at } = worstStretch(s, n, gap, { length, window: 15 });
  const expected = slowly(s, n, gap, length, 15);
  expect(mean).toHaveLength(expected.length);
  for (const [i, value] of expected.entries()) {
    if (Number.isNaN(value)) expect(mean[i]).toBeNaN();
    else expect(mean[i]).toBeCloseTo(value, 9);
  }
  expect(worst).toBe(Math.max(...mean.filter((value) => !Number.isNaN(value))));
  expect(mean[at]).toBe(worst);
});

test('nothing recorded has no worst, and a window longer than the route none either', () => {
  expect(worstStretch([], [], [], { length: 100, window: 10 }).worst).toBeNaN();
  expect(worstStretch([0, 50], [1, 1], [0, 0], { length: 50, window: 60 })).toMatchObject({ at: Number.NaN });
});
