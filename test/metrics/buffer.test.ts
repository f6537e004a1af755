import { bufferShare, bufferWidth, directedHausdorff } from 'datumline/metrics';
import type { Position } from 'geojson';
import { describe, expect, test } from 'vitest';
import { EdgeBoxes } from '../../src/index/EdgeBoxes';
import { NearestEdge } from '../../src/metrics/NearestEdge';
import { PlaneView } from '../../src/metrics/PlaneView';
import { SeenEdges } from '../../src/metrics/SeenEdges';
import { densify } from '../../src/subpaths/geodesy';
import { bufferExamples } from '../published/bufferOverlay';
import { countCalls } from '../support/countCalls';
import { exactToLine } from '../support/denseHausdorff';
import { onEquator } from '../support/onEquator';
import { jittered, seeded, wanderingLine } from '../support/randomLine';

test.each(bufferExamples)(
  '$name',
  ({ tested, reference, shares, tolerance = 1e-6, width95, directedHausdorff: farthest }) => {
    const [line, other] = [onEquator(tested), onEquator(reference)];
    for (const [width, share] of shares)
      expect(Math.abs(bufferShare(line, other, width) - share)).toBeLessThan(tolerance);
    if (width95 !== undefined) expect(Math.abs(bufferWidth(line, other) - width95)).toBeLessThan(1e-6);
    expect(Math.abs(bufferWidth(line, other, 1) - farthest!)).toBeLessThan(1e-6);
  },
);

const places: [string, Position][] = [
  ['in a town', [5, 60]],
  ['across the ±180° meridian', [179.9999, -17]],
  ['beside the pole', [30, 89.9998]],
];

test.each(places)('equals a count over fine steps %s', (_, start) => {
  const random = seeded(81);
  for (let round = 0; round < 3; round++) {
    const reference = wanderingLine(random, { start, count: 6, step: 50, turn: 90 });
    const tested = round % 2 ? jittered(random, reference, 30) : wanderingLine(random, { start, count: 5, step: 60 });
    // 700 places or so in equal steps: the share is off by one step at each passage of the buffer's edge
    const steps = densify(tested, { maxSpacing: 0.5 });
    const spans = steps.slice(1).map((to, i) => {
      const middle = [(steps[i][0] + to[0]) / 2, (steps[i][1] + to[1]) / 2];
      const length = exactToLine(to, [steps[i]]);
      return {
        length,
        away: exactToLine(Math.abs(steps[i][0] - to[0]) > 90 || Math.abs(to[1]) > 89.9 ? to : middle, reference),
      };
    });
    const total = spans.reduce((sum, { length }) => sum + length, 0);
    for (const width of [1, 8, 25]) {
      const inside = spans.filter(({ away }) => away <= width).reduce((sum, { length }) => sum + length, 0);
      expect(Math.abs(bufferShare(tested, reference, width) - inside / total)).toBeLessThan(4 / total);
    }
  }
});

test('the width holds the share, and no less width does', () => {
  const random = seeded(82);
  for (let round = 0; round < 30; round++) {
    const start = places[round % 3][1];
    const reference = wanderingLine(random, { start, count: 30, step: 40, turn: 50 });
    const tested = jittered(random, reference, 20);
    let before = 0;
    for (const share of [0.2, 0.5, 0.95, 1]) {
      const width = bufferWidth(tested, reference, share);
      expect(bufferShare(tested, reference, width)).toBeGreaterThanOrEqual(share - 1e-9);
      if (width > 1e-5) expect(bufferShare(tested, reference, width - 2e-6)).toBeLessThan(share);
      expect(width).toBeGreaterThanOrEqual(before);
      before = width;
    }
    expect(Math.abs(before - directedHausdorff(tested, reference).distance)).toBeLessThan(1e-6);
  }
});

test('properties: reversal, inserted vertices, shifted longitude, a line in its own buffer', () => {
  const random = seeded(83);
  for (let round = 0; round < 30; round++) {
    const start = places[round % 3][1];
    const reference = wanderingLine(random, { start, count: 20, step: 40, turn: 80 });
    const tested = wanderingLine(random, { start, count: 20, step: 40, turn: 80 });
    const share = bufferShare(tested, reference, 12);
    expect(bufferShare([...tested].reverse(), [...reference].reverse(), 12)).toBeCloseTo(share, 6);
    expect(bufferShare(densify(tested, { maxSpacing: 7 }), densify(reference, { maxSpacing: 9 }), 12)).toBeCloseTo(
      share,
      6,
    );
    const shifted = (line: Position[]) => line.map(([lon, lat]) => [lon + 133, lat]);
    expect(bufferShare(shifted(tested), shifted(reference), 12)).toBeCloseTo(share, 6);
    expect(bufferShare(reference, reference, 0)).toBe(1);
    expect(bufferWidth(reference, reference)).toBeLessThan(1e-6);
  }
});

test('a tested line a micrometre outside is outside along its whole length', () => {
  const [reference] = [
    onEquator([
      [0, 0],
      [90, 0],
    ]),
  ];
  expect(
    bufferShare(
      onEquator([
        [0, 5.000002],
        [90, 5.000002],
      ]),
      reference,
      5,
    ),
  ).toBe(0);
});

test('wide buffers: 30 km around a line 25 km off', () => {
  const random = seeded(84);
  const reference = wanderingLine(random, { start: [5, 60], count: 4, step: 9000, turn: 40 });
  const tested = wanderingLine(random, { start: [5.45, 60], count: 4, step: 9000, turn: 40 });
  expect(bufferShare(tested, reference, 60_000)).toBe(1);
  expect(bufferShare(tested, reference, 1000)).toBe(0);
  const width = bufferWidth(tested, reference, 0.5);
  expect(bufferShare(tested, reference, width)).toBeCloseTo(0.5, 6);
});

test('gaps have no length and no buffer; points count by number', () => {
  const reference = { lon: [0, 0.001, 0.002, 0.003], lat: [0, 0, 0, 0], gapBefore: [1, 0, 1, 0] };
  const tested = [
    [0, 0],
    [0.003, 0],
  ];
  expect(bufferShare(tested, reference, 0)).toBeCloseTo(2 / 3, 6);
  expect(
    bufferShare(
      reference,
      [
        [0, 0],
        [0.0015, 0],
      ],
      0,
    ),
  ).toBeCloseTo(0.5, 6);
  expect(
    bufferShare(
      [[5, 60]],
      [
        [5, 60],
        [6, 60],
      ],
      0,
    ),
  ).toBe(1);
  expect(bufferShare({ lon: [0, 0.001], lat: [0, 0], gapBefore: [1, 1] }, [[0, 0]], 5)).toBe(0.5);
});

test('a reference with gaps: the width holds the share, and 2e-6 m less does not (2026-11-29: up to twice as wide)', () => {
  const random = seeded(86);
  for (let round = 0; round < 40; round++) {
    const [, start] = places[round % 3];
    const line = wanderingLine(random, { start, count: 24, step: 10, turn: 90 });
    const tested =
      round % 2 ? jittered(random, line, 3) : wanderingLine(random, { start, count: 40, step: 5, turn: 60 });
    const reference = {
      lon: line.map(([lon]) => lon),
      lat: line.map(([, lat]) => lat),
      gapBefore: line.map((_, i) => (i === 0 || random() < 0.2 ? 1 : 0)),
    };
    for (const share of [0.5, 0.9, 0.95]) {
      const width = bufferWidth(tested, reference, share);
      expect(bufferShare(tested, reference, width)).toBeGreaterThanOrEqual(share - 1e-7);
      expect(bufferShare(tested, reference, width - 2e-6)).toBeLessThan(share);
    }
  }
});

test.each([
  [[], [[5, 60]], 1, 'too-few', 'tested'],
  [[[5, 60]], [], 1, 'too-few', 'reference'],
  [[[5, 60]], [[5, 60]], -1, 'out-of-range', 'width'],
  [[[5, 60]], [[5, 60]], Number.NaN, 'not-finite', 'width'],
])('bufferShare refuses %j, %j, %j', (tested, reference, width, reason, argument) => {
  expect(() => bufferShare(tested, reference, width)).toThrow(expect.objectContaining({ reason, argument }));
});

test.each([
  [[], [[5, 60]], 'too-few', 'tested'],
  [[[5, 60]], [], 'too-few', 'reference'],
  [[[5, Number.NaN]], [[5, 60]], 'not-finite', 'tested[0] latitude'],
])('bufferWidth refuses %j, %j', (tested, reference, reason, argument) => {
  expect(() => bufferWidth(tested, reference)).toThrow(expect.objectContaining({ reason, argument }));
});

test('buffers of lines of 20 000 vertices', () => {
  const random = seeded(85);
  const reference = wanderingLine(random, { start: [5, 60], count: 20_000, step: 8, turn: 20 });
  const tested = jittered(random, reference, 2);
  const width = bufferWidth(tested, reference);
  expect(width).toBeGreaterThan(0.5);
  expect(width).toBeLessThan(2);
  expect(bufferShare(tested, reference, width)).toBeCloseTo(0.95, 6);
});

test.each([[0], [1.1], [-0.5]])('bufferWidth refuses a share of %j', (share) => {
  expect(() => bufferWidth([[5, 60]], [[5, 60]], share)).toThrow(
    expect.objectContaining({ reason: 'out-of-range', argument: 'share' }),
  );
});

describe('the work of bufferWidth grows with the lines (2026-11: 18 s for 4 000 vertices back and forth)', () => {
  const zigzag = (n: number, lat: number): Position[] =>
    Array.from({ length: n }, (_, i) => [5 + i * 2e-5, lat + (i % 2) * 5e-4]);
  const straight = (n: number, lat: number): Position[] => Array.from({ length: n }, (_, i) => [5 + i * 1e-4, lat]);
  const shuttle = (n: number, turn: number, lat: number): Position[] =>
    Array.from({ length: n }, (_, i) => [5 + 1e-4 * Math.abs((i % (2 * turn)) - turn), lat]);
  const standing = (n: number, seed: number): Position[] => {
    const random = seeded(seed);
    return Array.from({ length: n }, () => [5 + 5e-5 * random(), 60 + 3e-5 * random()]);
  };
  const lines: [string, (n: number) => [Position[], Position[]], most: number][] = [
    ['side by side', (n) => [straight(n, 60), straight(n, 60.0001)], 40],
    ['zigzag', (n) => [zigzag(n, 60), zigzag(n, 60.0003)], 40],
    ['back and forth', (n) => [shuttle(n, 50, 60), shuttle(n, 40, 60.0001)], 40],
    ['at one place', (n) => [Array.from({ length: n }, () => [5, 60]), straight(n, 60.001)], 40],
    // every edge passes nearly all others, which was n^2.8 (2026-11-29: four thousand took a minute)
    ['standing still', (n) => [standing(n, 1), standing(n, 2)], 300],
    ['a thousand kilometres apart', (n) => [straight(n, 60), straight(n, 69)], 1000],
  ];

  /** Edges measured, vertices and edges seen in a plane, and boxes looked at, for each vertex. */
  const work = ([tested, reference]: [Position[], Position[]]) => {
    let total = 0;
    const counted =
      <T extends object>(prototype: T, method: keyof T, run: () => unknown) =>
      () => {
        total += countCalls(prototype, method, run);
      };
    const inPlane = counted(SeenEdges.prototype, 'reach', () => bufferWidth(tested, reference));
    const seen = counted(PlaneView.prototype, 'seePlace', inPlane);
    counted(NearestEdge.prototype, 'measure', counted(EdgeBoxes.prototype, 'squaredGap', seen))();
    return total / tested.length;
  };

  test.each(lines)('%s', (_, make, most) => {
    const [once, twice] = [work(make(400)), work(make(800))];
    expect(once).toBeLessThan(most);
    expect(twice / once).toBeLessThan(2.3);
  });

  test('standing still, tangled: the width holds the share, and 2e-6 m less does not', () => {
    for (const n of [60, 150]) {
      const [tested, reference] = [standing(n, 1), standing(n, 2)];
      for (const share of [0.5, 0.95]) {
        const width = bufferWidth(tested, reference, share);
        expect(bufferShare(tested, reference, width)).toBeGreaterThanOrEqual(share - 1e-7);
        expect(bufferShare(tested, reference, width - 2e-6)).toBeLessThan(share);
      }
    }
  });

  test('standing still, and far off wherever the first looks do not go: the width holds the share', () => {
    const random = seeded(87);
    const [lon, lat]: [number[], number[]] = [[], []];
    for (let edge = 0; edge < 6400; edge++) {
      // 8 % of the edges, half a part away from the place that is looked at in each of 128 parts
      const looked = ((edge / 50) | 0) * ((Math.sqrt(5) - 1) / 2) + 0.5;
      const away = Math.abs((((((edge % 50) / 50 - looked) % 1) + 1.5) % 1) - 0.5) < 0.04;
      const [x, y, way] = [2e-4 * random(), 1e-4 * random(), 7 * random()];
      for (const step of [0, 3]) {
        lon.push(5 + x + (step / 55_800) * Math.sin(way));
        lat.push(60 + y + (step / 111_400) * Math.cos(way) + (away ? 6e-4 : 0));
      }
    }
    const tested = { lon, lat, gapBefore: lon.map((_, i) => (i % 2 === 0 ? 1 : 0)) };
    const reference = Array.from({ length: 600 }, () => [5 + 2e-4 * random(), 60 + 1e-4 * random()]);
    const width = bufferWidth(tested, reference);
    expect(width).toBeGreaterThan(40);
    expect(bufferShare(tested, reference, width)).toBeGreaterThanOrEqual(0.95 - 1e-7);
    expect(bufferShare(tested, reference, width - 2e-6)).toBeLessThan(0.95);
  });

  test('standing still: to what 100 places on each edge can say', () => {
    const [tested, reference] = [standing(250, 1), standing(250, 2)];
    const steps = densify(tested, { maxSpacing: 0.03 });
    const away = steps.map((place) => directedHausdorff([place], reference).distance).sort((a, b) => a - b);
    const width = bufferWidth(tested, reference);
    // three standard errors of a share of 0.95 of so many places
    const among = 3 * Math.sqrt(0.95 * 0.05 * away.length);
    expect(width).toBeGreaterThan(away[Math.floor(0.95 * away.length - among)]);
    expect(width).toBeLessThan(away[Math.ceil(0.95 * away.length + among)]);
  });

  test('a reference gone over again and again, either way, is gone over once', () => {
    const there = straight(50, 60);
    const [tested, back] = [zigzag(60, 60.0001), [...there].reverse()];
    const again = Array.from({ length: 40 }, () => [...there, ...back.slice(1, -1)]).flat();
    expect(Math.abs(bufferWidth(tested, again) - bufferWidth(tested, there))).toBeLessThan(1e-6);
    const [once, often] = [there, again].map((line) =>
      countCalls(NearestEdge.prototype, 'measure', () => bufferWidth(tested, line)),
    );
    expect(often).toBeLessThan(60 * once);
  });

  test('and so it is for the share within: it took minutes for 3000 fixes at one place (2026-11-28)', () => {
    const there = straight(50, 60);
    const tested = zigzag(60, 60.0001);
    const again = Array.from({ length: 40 }, () => [...there, ...there.slice(1, -1).reverse()]).flat();
    const share = bufferShare(tested, there, 20);
    expect(share).toBeGreaterThan(0.1);
    expect(share).toBeLessThan(0.9);
    expect(Math.abs(bufferShare(tested, again, 20) - share)).toBeLessThan(1e-9);
    const [once, often] = [there, again].map((line) =>
      countCalls(NearestEdge.prototype, 'measure', () => bufferShare(tested, line, 20)),
    );
    expect(often).toBe(once);
  });

  test('a thousand kilometres apart', () => {
    const [a, b] = [straight(300, 60), straight(300, 69)];
    const width = bufferWidth(a, b);
    const farthest = directedHausdorff(a, b).distance;
    expect(Math.abs(width - farthest) / farthest).toBeLessThan(2e-5);
  });
});

test('a line of micrometres is as far off everywhere, whatever the share', () => {
  for (const size of [1e-13, 1e-12, 3e-12]) {
    const tiny = Array.from({ length: 7 }, (_, i) => [5 + size * Math.cos(2 * i), 60 + size * Math.sin(3 * i)]);
    const away = [5, 5.00001, 5.00002].map((lon) => [lon, 60.0003]);
    const { distance } = directedHausdorff(tiny, away);
    for (const share of [1e-9, 0.05, 0.2, 0.5, 0.95, 1]) {
      expect(Math.abs(bufferWidth(tiny, away, share) - distance)).toBeLessThan(6e-6);
    }
  }
});
