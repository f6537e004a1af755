import { directedHausdorff, frechet, hausdorff } from 'datumline/metrics';
import type { Position } from 'geojson';
import { expect, test } from 'vitest';
import { densify, direct, inverse } from '../../src/subpaths/geodesy';
import { planeExamples } from '../published/planeLines';
import { denseHausdorff, exactToLine } from '../support/denseHausdorff';
import { onEquator } from '../support/onEquator';
import { jittered, seeded, wanderingLine } from '../support/randomLine';

test.each(planeExamples)('$name', ({ a, b, continuous }) => {
  const [lineA, lineB] = [onEquator(a), onEquator(b)];
  expect(Math.abs(directedHausdorff(lineA, lineB).distance - continuous.hausdorffAB)).toBeLessThan(1e-6);
  expect(Math.abs(directedHausdorff(lineB, lineA).distance - continuous.hausdorffBA)).toBeLessThan(1e-6);
  expect(hausdorff(lineA, lineB).distance).toBe(
    Math.max(directedHausdorff(lineA, lineB).distance, directedHausdorff(lineB, lineA).distance),
  );
});

test('the L shape: the farthest place lies inside an edge, where x = y on the second line', () => {
  const { a, b } = planeExamples.find(({ continuous }) => continuous.hausdorffBA === 970 / 13)!;
  const [lineA, lineB] = [onEquator(a), onEquator(b)];
  const { at, nearest, distance, farther } = hausdorff(lineA, lineB);
  const [place] = onEquator([[970 / 13, 970 / 13]]);
  expect(farther).toBe('b');
  expect(inverse(at, place).distance).toBeLessThan(1e-6);
  expect(Math.abs(inverse(at, nearest).distance - distance)).toBeLessThan(1e-6);
});

const places: [string, Position][] = [
  ['in a town', [5, 60]],
  ['across the ±180° meridian', [179.9999, -17]],
  ['beside the pole', [30, 89.99995]],
  ['across the south pole', [30, -89.99999]],
];

test.each(places.flatMap(([name, start]) => [15, 90].map((step) => [name, start, step] as const)))(
  'equals the judge %s from %j with steps of %d m',
  (_, start, step) => {
    const random = seeded(61);
    for (let round = 0; round < 6; round++) {
      const a = wanderingLine(random, { start, count: 2 + Math.floor(random() * 8), step });
      const b = round % 2 ? jittered(random, a, step / 3) : wanderingLine(random, { start, count: 7, step, turn: 120 });
      const { distance, at, nearest } = directedHausdorff(a, b);
      expect(Math.abs(distance - denseHausdorff(a, b))).toBeLessThan(1e-6);
      expect(Math.abs(inverse(at, nearest).distance - distance)).toBeLessThan(1e-6);
      expect(exactToLine(at, a)).toBeLessThan(1e-6);
      expect(exactToLine(nearest, b)).toBeLessThan(1e-6);
    }
  },
);

test.each([
  ['a kilometre apart', [5.02, 60], 800],
  ['10 km apart', [5.2, 60], 4000],
  ['100 km apart', [6.5, 60.5], 40_000],
  ['1000 km apart', [25, 58], 200_000],
  ['6000 km apart', [5, 5], 200_000],
] as const)('far lines with long edges, %s', (_, start, step) => {
  const random = seeded(62);
  for (let round = 0; round < 3; round++) {
    const a = wanderingLine(random, { start: [5, 60], count: 3, step });
    const b = wanderingLine(random, { start: [...start], count: 3, step });
    expect(Math.abs(directedHausdorff(a, b).distance - denseHausdorff(a, b, 8))).toBeLessThan(1e-6);
  }
});

test('two long parallel-looking edges: 1° of the equator against 1° on the first parallel', () => {
  const a = [
    [0, 0],
    [1, 0],
  ];
  const b = [
    [0, 1],
    [1, 1],
  ];
  expect(Math.abs(hausdorff(a, b).distance - Math.max(denseHausdorff(a, b), denseHausdorff(b, a)))).toBeLessThan(1e-6);
});

test.each([1e3, 1e4, 1e5, 1e6].flatMap((apart) => [50, 777, 30_000].map((length) => [apart, length] as const)))(
  'ways side by side %d m apart are that far only in the middle, over %d m, where there is no vertex',
  (apart, length) => {
    const middle: Position = [5, 40];
    const across = direct(middle, 160, apart);
    const along = (from: Position, azimuth: number, shares: readonly [number, number]) => [
      direct(from, azimuth + 180, length * shares[0]).position,
      direct(from, azimuth, length * shares[1]).position,
    ];
    const a = along(middle, 70, [0.437, 0.563]);
    const b = along(across.position, across.finalAzimuth - 90, [0.7, 0.8]);
    const { distance, at } = directedHausdorff(a, b);
    expect(Math.abs(distance - apart)).toBeLessThan(1e-6);
    // where the bulge is under the tolerance any place is as far
    if (length > 1000) expect(inverse(at, middle).distance).toBeLessThan(100);
    expect(Math.abs(frechet(a, along(across.position, across.finalAzimuth - 90, [0.437, 0.563])) - apart)).toBeLessThan(
      1e-6,
    );
  },
);

test('a line of 40 000 vertices that meets itself again and again needs no recursion', () => {
  const random = seeded(64);
  const a = wanderingLine(random, { start: [5, 60], count: 40_000, step: 8, turn: 40 });
  const b = jittered(random, a, 1);
  const { distance, at, nearest } = hausdorff(a, b);
  expect(distance).toBeGreaterThan(0.5);
  expect(distance).toBeLessThanOrEqual(1 + 1e-6);
  expect(Math.abs(inverse(at, nearest).distance - distance)).toBeLessThan(1e-6);
  // nothing in common: every vertex has to go through the tree
  const far = directedHausdorff(a, wanderingLine(random, { start: [5.02, 60], count: 40_000, step: 8, turn: 90 }));
  expect(far.distance).toBeGreaterThan(500);
});

test('properties: symmetric, triangle, reversal, inserted vertices, shifted longitude, never less than directed', () => {
  const random = seeded(63);
  for (let round = 0; round < 40; round++) {
    const start = places[round % places.length][1];
    const [a, b, c] = [0, 1, 2].map(() =>
      wanderingLine(random, { start, count: 1 + Math.floor(random() * 60), step: 40, turn: 90 }),
    );
    const between = hausdorff(a, b).distance;
    expect(Math.abs(hausdorff(b, a).distance - between)).toBeLessThan(1e-6);
    expect(hausdorff(a, c).distance).toBeLessThanOrEqual(between + hausdorff(b, c).distance + 1e-6);
    expect(Math.abs(hausdorff([...a].reverse(), [...b].reverse()).distance - between)).toBeLessThan(1e-6);
    expect(Math.abs(hausdorff(densify(a, { maxSpacing: 7 }), b).distance - between)).toBeLessThan(1e-6);
    expect(hausdorff(densify(a, { maxSpacing: 7 }), a).distance).toBeLessThan(1e-6);
    const shifted = (line: Position[]) => line.map(([lon, lat]) => [lon + 101.3, lat]);
    expect(Math.abs(hausdorff(shifted(a), shifted(b)).distance - between)).toBeLessThan(1e-6);
    expect(directedHausdorff(a, b).distance).toBeLessThanOrEqual(between);
  }
});

test('a gap is no part of a line, the fixes beside it are', () => {
  const bent = { lon: [0, 0.0005, 0.001], lat: [0, 0.0005, 0] };
  const straight = [
    [0, 0],
    [0.001, 0],
  ];
  const whole = directedHausdorff(straight, bent).distance;
  expect(directedHausdorff(straight, { ...bent, gapBefore: [1, 0, 0] }).distance).toBe(whole);
  const lone = directedHausdorff(straight, { ...bent, gapBefore: [1, 1, 1] });
  expect(lone.distance).toBeGreaterThan(whole + 10);
  // equally far from the fix at the start, and from the middle one w east and h north of it
  const w = inverse([0, 0], [0.0005, 0]).distance;
  const h = inverse([0.0005, 0], [0.0005, 0.0005]).distance;
  expect(lone.distance).toBeCloseTo((w * w + h * h) / (2 * w), 6);
  // a fix with gaps on both sides still has to be reached
  expect(directedHausdorff({ ...bent, gapBefore: [1, 1, 1] }, straight).distance).toBeCloseTo(
    inverse([0.0005, 0.0005], [0.0005, 0]).distance,
    6,
  );
});

test('points are lines of length 0, and a line with itself is at 0', () => {
  expect(
    hausdorff(
      [[5, 60]],
      [
        [5, 60],
        [5, 60],
        [5, 60],
      ],
    ).distance,
  ).toBe(0);
  expect(hausdorff([[5, 60]], [[5.01, 60]]).distance).toBeCloseTo(inverse([5, 60], [5.01, 60]).distance, 6);
  expect(hausdorff([[180, 60]], [[-180, 60]]).distance).toBeLessThan(1e-6);
  expect(hausdorff([[0, 90]], [[120, 90]]).distance).toBeLessThan(1e-6);
});

test('a line of more pieces than can be held is refused before it is cut', () => {
  const round = Array.from({ length: 400 }, (_, i): Position => [((i * 120) % 360) - 180, 0]);
  for (const measure of [hausdorff, frechet, directedHausdorff]) {
    expect(() => measure([[5, 60]], round)).toThrow(expect.objectContaining({ reason: 'too-large', argument: 'b' }));
  }
});

test.each([
  [[], 'too-few', 'b'],
  [[[5, Number.NaN]], 'not-finite', 'b[0] latitude'],
  [
    [
      [5, 60],
      [5, 91],
    ],
    'swapped',
    'b[1] latitude',
  ],
  [[[5, 60], '5'], 'wrong-type', 'b[1]'],
])('refuses %j', (line, reason, argument) => {
  for (const measure of [hausdorff, directedHausdorff]) {
    expect(() => measure([[5, 60]], line as [])).toThrow(expect.objectContaining({ reason, argument }));
  }
});
