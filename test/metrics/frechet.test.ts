import { discreteFrechet, frechet, hausdorff, withinFrechet } from 'datumline/metrics';
import type { Position } from 'geojson';
import { describe, expect, test } from 'vitest';
import { FreeInterval } from '../../src/metrics/FreeInterval';
import type { Line } from '../../src/model';
import { densify, inverse, localPlane } from '../../src/subpaths/geodesy';
import { planeExamples } from '../published/planeLines';
import { countCalls } from '../support/countCalls';
import { geodesicFrechet } from '../support/geodesicFrechet';
import { onEquator } from '../support/onEquator';
import { planeFrechet } from '../support/planeFrechet';
import { jittered, seeded, wanderingLine } from '../support/randomLine';

test.each(planeExamples)('$name', ({ a, b, continuous }) => {
  const [lineA, lineB] = [onEquator(a), onEquator(b)];
  const distance = frechet(lineA, lineB);
  expect(Math.abs(distance - continuous.frechet)).toBeLessThan(1e-6);
  expect(Math.abs(planeFrechet(a, b) - continuous.frechet)).toBeLessThan(1e-6);
  expect(withinFrechet(lineA, lineB, distance)).toBe(true);
  expect(withinFrechet(lineA, lineB, distance - 1e-6)).toBe(false);
});

/** A line in the plane that goes on, stops, turns back and crosses itself. */
function restless(random: () => number, count: number, step: number): Position[] {
  const line: Position[] = [[0, 0]];
  while (line.length < count) {
    const [x, y] = line[line.length - 1];
    line.push(random() < 0.1 ? [x, y] : [x + (random() - 0.35) * step, y + (random() - 0.5) * step]);
  }
  return line;
}

test.each([
  ['of few edges', 5, 20, 15],
  ['with many turns', 40, 12, 8],
  ['with steps far below the distance', 90, 2, 30],
  ['with loops within the distance', 120, 6, 3],
])('equals the whole diagram in a plane, %s', (_, count, step, noise) => {
  const random = seeded(71);
  for (let round = 0; round < 20; round++) {
    const a = restless(random, count, step);
    const b: Position[] =
      round % 3 === 0
        ? restless(random, count - 3, step)
        : a.map(([x, y]) => [x + (random() - 0.5) * noise, y + (random() - 0.5) * noise]);
    expect(Math.abs(frechet(onEquator(a), onEquator(b)) - planeFrechet(a, b))).toBeLessThan(1e-6);
  }
});

test('a backtrack of one line alone, and a stretch travelled twice', () => {
  const straight = Array.from({ length: 100 }, (_, i): Position => [i * 4, Math.sin(i / 5)]);
  const back = [...straight.slice(0, 60), ...straight.slice(30, 60).reverse(), ...straight.slice(30)];
  const twice = [...straight.slice(0, 80), ...straight.slice(20, 80), ...straight.slice(80)];
  for (const line of [back, twice]) {
    const expected = planeFrechet(straight, line);
    expect(Math.abs(frechet(onEquator(straight), onEquator(line)) - expected)).toBeLessThan(1e-6);
    expect(Math.abs(frechet(onEquator(line), onEquator(straight)) - expected)).toBeLessThan(1e-6);
  }
});

const places: [string, Position][] = [
  ['in a town', [5, 60]],
  ['across the ±180° meridian', [179.9999, -17]],
  ['beside the pole', [30, 89.9998]],
  ['across the south pole', [30, -89.99999]],
];

test.each([
  ...places.map(([name, start]) => [name, start, start, 60] as const),
  ['with edges of 500 m', [5, 60], [5.003, 60], 500],
  ['3 km apart', [5, 60], [5.05, 60], 900],
  ['50 km apart', [5, 60], [5.9, 60], 9000],
  ['1000 km apart', [5, 60], [25, 58], 60_000],
] as const)('equals the whole diagram of exact geodesics %s', (_, start, other, step) => {
  const random = seeded(72);
  for (let round = 0; round < 2; round++) {
    const a = wanderingLine(random, { start: [...start], count: 3, step, turn: 100 });
    const b = wanderingLine(random, { start: [...other], count: 3, step, turn: 100 });
    expect(Math.abs(frechet(a, b) - geodesicFrechet(a, b))).toBeLessThan(1e-6);
  }
});

test('properties: bounds, symmetry, triangle, reversal of both, inserted vertices, shifted longitude', () => {
  const random = seeded(73);
  for (let round = 0; round < 60; round++) {
    const start = places[round % places.length][1];
    const count = 1 + Math.floor(random() * 50);
    const a = wanderingLine(random, { start, count, step: 25, turn: 80 });
    const b = round % 2 ? jittered(random, a, 12) : wanderingLine(random, { start, count: 30, step: 25, turn: 80 });
    const c = jittered(random, b, 20);
    const distance = frechet(a, b);
    expect(distance).toBeGreaterThanOrEqual(hausdorff(a, b).distance);
    expect(distance).toBeLessThanOrEqual(discreteFrechet(a, b) + 1e-6);
    expect(Math.abs(frechet(b, a) - distance)).toBeLessThan(1e-6);
    expect(frechet(a, c)).toBeLessThanOrEqual(distance + frechet(b, c) + 1e-6);
    expect(Math.abs(frechet([...a].reverse(), [...b].reverse()) - distance)).toBeLessThan(1e-6);
    expect(Math.abs(frechet(densify(a, { maxSpacing: 7 }), b) - distance)).toBeLessThan(1e-6);
    expect(frechet(a, densify(a, { maxSpacing: 7 }))).toBeLessThan(1e-6);
    const shifted = (line: Position[]) => line.map(([lon, lat]) => [lon - 77.7, lat]);
    expect(Math.abs(frechet(shifted(a), shifted(b)) - distance)).toBeLessThan(1e-6);
    expect(withinFrechet(a, b, distance)).toBe(true);
    if (distance > 1e-5) expect(withinFrechet(a, b, distance - 2e-6)).toBe(false);
  }
});

test('lines of very many vertices need no recursion, and a shortcut over a far loop is not taken', () => {
  const random = seeded(74);
  const a = wanderingLine(random, { start: [5, 60], count: 30_000, step: 8, turn: 10 });
  const b = jittered(random, a, 1);
  expect(frechet(a, b)).toBeLessThanOrEqual(1 + 1e-6);
  const { toPosition } = localPlane([5, 60]);
  const loop = [...Array(400).keys()].map((i) => toPosition([80 * Math.sin(i / 63.66), 80 - 80 * Math.cos(i / 63.66)]));
  expect(frechet([...loop, ...loop], loop)).toBeGreaterThan(100);
  expect(hausdorff([...loop, ...loop], loop).distance).toBeLessThan(1);
});

test('gaps of a recording are walked straight across', () => {
  const recording = { lon: [0, 0.001, 0.002], lat: [0, 0, 0], gapBefore: [1, 0, 1] };
  expect(
    frechet(recording, [
      [0, 0],
      [0.002, 0],
    ]),
  ).toBeLessThan(1e-6);
});

test('points', () => {
  expect(frechet([[5, 60]], [[5.01, 60]])).toBeCloseTo(inverse([5, 60], [5.01, 60]).distance, 6);
  expect(
    frechet(
      [[5, 60]],
      [
        [5, 60],
        [5.01, 60],
        [5, 60],
      ],
    ),
  ).toBeCloseTo(inverse([5, 60], [5.01, 60]).distance, 6);
  expect(
    withinFrechet(
      [[5, 60]],
      [
        [5, 60],
        [5, 60],
      ],
      0,
    ),
  ).toBe(true);
});

test.each([
  [[], 'too-few', 'b'],
  [[[Infinity, 60]], 'not-finite', 'b[0] longitude'],
  [{}, 'wrong-type', 'b'],
])('refuses %j', (line, reason, argument) => {
  expect(() => frechet([[5, 60]], line as [])).toThrow(expect.objectContaining({ reason, argument }));
  expect(() => withinFrechet([[5, 60]], line as [], 1)).toThrow(expect.objectContaining({ reason, argument }));
});

test.each([
  [-1, 'out-of-range'],
  [Number.NaN, 'not-finite'],
  ['5', 'wrong-type'],
])('refuses a distance of %j', (distance, reason) => {
  expect(() => withinFrechet([[5, 60]], [[5, 60]], distance as number)).toThrow(
    expect.objectContaining({ reason, argument: 'distance' }),
  );
});

describe('cells looked at grow with the lines (2026-11: 12 s for 4 000 fixes standing still)', () => {
  const about = (n: number, seed: number, spread: number): Position[] => {
    const random = seeded(seed);
    const normal = () => Array.from({ length: 12 }, random).reduce((sum, value) => sum + value, -6) * spread;
    return Array.from({ length: n }, () => [normal(), normal()]);
  };
  /** Fixes whose error wanders: one a second, of 3 m that are forgotten in a minute. */
  const wandering = (n: number, seed: number): Position[] => {
    const kept = Math.exp(-1 / 60);
    let [x, y] = [0, 0];
    return about(n, seed, 3 * Math.sqrt(1 - kept ** 2)).map(([dx, dy]) => {
      [x, y] = [kept * x + dx, kept * y + dy];
      return [x, y];
    });
  };
  const shuttle = (n: number, turn: number, aside: number): Position[] =>
    Array.from({ length: n }, (_, i) => [6 * Math.abs((i % (2 * turn)) - turn), aside]);

  /** Sides of cells measured for each vertex. */
  const work = (a: Line, b: Line, vertices: number) =>
    countCalls(FreeInterval.prototype, 'measure', () => frechet(a, b)) / vertices;

  test.each([
    ['standing still', (n: number) => [about(n, 1, 3), about(n, 2, 3)], 600],
    ['standing still, wandering', (n: number) => [wandering(n, 1), wandering(n, 2)], 1500],
    ['back and forth', (n: number) => [shuttle(n, 50, 0), shuttle(n, 40, 11)], 1000],
  ] as const)('%s', (_, make, most) => {
    // the whole diagram has n / 2 cells a vertex, and is decided on some thirty times
    for (const n of [2000, 8000]) {
      const [a, b] = make(n).map((line) => onEquator(line));
      expect(work(a, b, 2 * n)).toBeLessThan(most);
    }
  });

  test('lines of hundreds of kilometres, far apart: cut in pieces of 54 m, a few for each', () => {
    const long = (lat: number, count: number): Position[] =>
      Array.from({ length: count }, (_, i) => [5 + (7 * i) / (count - 1), lat]);
    expect(work(long(60, 50), long(69, 60), 13_000)).toBeLessThan(16);
  });
});
