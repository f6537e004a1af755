import { discreteFrechet, frechet } from 'datumline/metrics';
import type { Position } from 'geojson';
import { describe, expect, test } from 'vitest';
import { bytesOf } from '../../bench/support/bytesOf';
import { Vertices } from '../../src/index/Vertices';
import { planeExamples } from '../published/planeLines';
import { countCalls } from '../support/countCalls';
import { onEquator } from '../support/onEquator';
import { jittered, seeded, wanderingLine } from '../support/randomLine';
import { tableFrechet } from '../support/tableFrechet';

test.each(planeExamples)('$name', ({ a, b, published, discreteFrechet: recomputed }) => {
  const expected = published.discreteFrechet ?? recomputed!;
  expect(Math.abs(discreteFrechet(onEquator(a), onEquator(b)) - expected)).toBeLessThan(1e-6);
  if (published.halvedDiscreteFrechet === undefined) return;
  const halved = (line: readonly Position[]) =>
    line.flatMap((p, i) => (i === 0 ? [p] : [[(line[i - 1][0] + p[0]) / 2, (line[i - 1][1] + p[1]) / 2], p]));
  const halves = discreteFrechet(onEquator(halved(a)), onEquator(halved(b)));
  expect(Math.abs(halves - published.halvedDiscreteFrechet)).toBeLessThan(1e-6);
});

test.each([
  ['in a town', [5, 60], 20],
  ['across the ±180° meridian', [179.9995, -17], 40],
  ['beside the pole', [30, 89.9999], 15],
  ['across the south pole', [30, -89.99999], 15],
  ['with steps of kilometres', [-70, 33], 30_000],
  ['with steps across the globe', [-70, 33], 3_000_000],
])('equals the whole table %s', (_, start, step) => {
  const random = seeded(6);
  for (let round = 0; round < 30; round++) {
    const a = wanderingLine(random, { start, count: 1 + Math.floor(random() * 40), step });
    const b = round % 2 ? jittered(random, a, step) : wanderingLine(random, { start, count: 25, step });
    expect(Math.abs(discreteFrechet(a, b) - tableFrechet(a, b))).toBeLessThan(1e-6);
    expect(discreteFrechet(b, a)).toBeCloseTo(discreteFrechet(a, b), 7);
    const shifted = a.map(([lon, lat]) => [lon + 213.7, lat]);
    const other = b.map(([lon, lat]) => [lon + 213.7, lat]);
    expect(Math.abs(discreteFrechet(shifted, other) - discreteFrechet(a, b))).toBeLessThan(1e-6);
    expect(discreteFrechet([...a].reverse(), [...b].reverse())).toBeCloseTo(discreteFrechet(a, b), 7);
  }
});

test('unrelated lines that fill the table go over to plain rows with the same answer', () => {
  const random = seeded(11);
  const a = wanderingLine(random, { start: [5, 60], count: 500, step: 30, turn: 180 });
  const b = wanderingLine(random, { start: [5, 60], count: 450, step: 30, turn: 180 });
  expect(Math.abs(discreteFrechet(a, b) - tableFrechet(a, b))).toBeLessThan(1e-6);
});

test('lines of very many vertices need no recursion', () => {
  const random = seeded(12);
  const a = wanderingLine(random, { start: [5, 60], count: 50_000, step: 8, turn: 10 });
  const b = jittered(random, a, 1);
  expect(discreteFrechet(a, b)).toBeLessThanOrEqual(1 + 1e-6);
  expect(discreteFrechet(a, b)).toBeGreaterThan(0.99);
});

test('memory by what is visited: a table of 20 000 × 20 000 pairs takes under 100 bytes a vertex', () => {
  const random = seeded(13);
  const a = wanderingLine(random, { start: [5, 60], count: 20_000, step: 8, turn: 20 });
  const b = jittered(random, a, 3);
  // a bit for each pair would be 1250 bytes a vertex
  for (const measure of [discreteFrechet, frechet]) expect(bytesOf(() => measure(a, b)) / 40_000).toBeLessThan(100);
});

test('a point is a line of length 0', () => {
  expect(discreteFrechet([[5, 60]], [[5, 60]])).toBe(0);
  expect(
    discreteFrechet(
      [[5, 60]],
      [
        [5, 60],
        [5.01, 60],
        [5, 60],
      ],
    ),
  ).toBeCloseTo(557.999, 2);
});

test('columns are lines as well', () => {
  const a = { lon: Float64Array.of(5, 5.001), lat: Float64Array.of(60, 60) };
  expect(
    discreteFrechet(a, [
      [5, 60],
      [5.001, 60],
    ]),
  ).toBe(0);
});

test.each([
  [[], 'too-few', 'a'],
  [[[5, Number.NaN]], 'not-finite', 'a[0] latitude'],
  [
    [
      [5, 60],
      [5, 91],
    ],
    'swapped',
    'a[1] latitude',
  ],
  ['line', 'wrong-type', 'a'],
  [null, 'wrong-type', 'a'],
  [{ lon: [1, 2], lat: [1] }, 'out-of-range', 'a.lat length'],
  [{ lon: [Number.NaN], lat: [1] }, 'not-finite', 'a[0] longitude'],
  [{ lon: [1, 2], lat: [1, 2], gapBefore: [1] }, 'out-of-range', 'a.gapBefore length'],
])('refuses %j', (line, reason, argument) => {
  expect(() => discreteFrechet(line as [], [[5, 60]])).toThrow(expect.objectContaining({ reason, argument }));
});

describe('pairs measured grow with the lines', () => {
  /** Fixes that wander about one place: metres. */
  const wandering = (n: number, seed: number): Position[] => {
    const random = seeded(seed);
    let [x, y] = [0, 0];
    return Array.from({ length: n }, () => {
      x = 0.95 * x + 3 * (random() - 0.5);
      y = 0.95 * y + 3 * (random() - 0.5);
      return [x, y];
    });
  };

  test.each([
    [
      'beside one fix many times',
      (n: number) => [Array.from({ length: n }, (): Position => [0, 0]), wandering(n, 2)],
      30,
    ],
    ['of two that stand still', (n: number) => [wandering(n, 1), wandering(n, 2)], 2500],
  ] as const)('%s', (_, make, most) => {
    for (const n of [1000, 8000]) {
      const [a, b] = make(n).map((line) => onEquator(line));
      const calls = countCalls(Vertices.prototype, 'squaredDistance', () => discreteFrechet(a, b));
      expect(calls / n).toBeLessThan(most);
      if (n === 1000) expect(Math.abs(discreteFrechet(a, b) - tableFrechet(a, b))).toBeLessThan(1e-6);
    }
  });
});
