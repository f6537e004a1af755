import { describe, expect, test } from 'vitest';
import { localPlane } from '../../src/geodesy/localPlane';
import { offsetLine, wideOffsetMessage } from '../../src/route/offsetLine';
import { onEquator } from '../support/onEquator';
import { planeCrossings } from '../support/planeCrossings';
import { seeded } from '../support/randomLine';

type Point = readonly [x: number, y: number];
type Side = 'left' | 'right';

/** Metres by which the line beside another may be nearer or farther than asked, and figures of some 100 m from plane. */
const PROMISED = 1e-3;
const PLANE = 1e-6;

const plane = localPlane([20, 0]);

/** The line beside a plane one, in that plane. */
function beside(line: readonly Point[], side: Side, metres: number, options?: Parameters<typeof offsetLine>[3]) {
  const { vertices, ...rest } = offsetLine(onEquator(line.map(([x, y]) => [x, y])), side, metres, options);
  return { ...rest, vertices: vertices.map((position) => plane.toPlane(position)) };
}

const apart = ([x, y]: Point, [u, v]: Point) => Math.hypot(x - u, y - v);
const between = ([x, y]: Point, [u, v]: Point, share: number): Point => [x + share * (u - x), y + share * (v - y)];
const lengthOf = (line: readonly Point[]) => line.slice(1).reduce((sum, to, i) => sum + apart(line[i], to), 0);

function fromEdge(p: Point, a: Point, b: Point): number {
  const [ex, ey] = [b[0] - a[0], b[1] - a[1]];
  const square = ex * ex + ey * ey;
  const share = square > 0 ? ((p[0] - a[0]) * ex + (p[1] - a[1]) * ey) / square : 0;
  return apart(p, between(a, b, Math.min(Math.max(share, 0), 1)));
}

const fromLine = (p: Point, line: readonly Point[]) =>
  Math.min(...line.slice(1).map((to, i) => fromEdge(p, line[i], to)));

/** Every so many metres of a line. */
function samples(line: readonly Point[], spacing: number): Point[] {
  return line.slice(1).flatMap((to, i) => {
    const count = Math.ceil(apart(line[i], to) / spacing);
    return Array.from({ length: count }, (_, k) => between(line[i], to, k / count));
  });
}

/** The place of a line that a vertex was made of. */
function sourceAt(line: readonly Point[], source: number): Point {
  const edge = Math.min(Math.floor(source), line.length - 2);
  return between(line[edge], line[edge + 1], source - edge);
}

/** Points at the distance from edges and, outside, from corners that lie nowhere nearer to the line: all of a true parallel. */
function parallel(line: readonly Point[], side: Side, metres: number, ring: boolean): Point[] {
  const right = side === 'right' ? 1 : -1;
  const found: Point[] = [];
  for (let i = 0; i + 1 < line.length; i++) {
    const [a, b] = [line[i], line[i + 1]];
    const length = apart(a, b);
    const [nx, ny] = [(right * (b[1] - a[1])) / length, (right * (a[0] - b[0])) / length];
    for (const [x, y] of samples([a, b], 2.3)) found.push([x + metres * nx, y + metres * ny]);
    const next = i + 2 < line.length ? line[i + 2] : ring ? line[1] : undefined;
    if (next === undefined) continue;
    const [first, second] = [Math.atan2(b[1] - a[1], b[0] - a[0]), Math.atan2(next[1] - b[1], next[0] - b[0])];
    const turn = ((second - first + 3 * Math.PI) % (2 * Math.PI)) - Math.PI;
    if (turn * right < 0) continue;
    for (let k = 0; k <= 6; k++) {
      const normal = first - (right * Math.PI) / 2 + (turn * k) / 6;
      found.push([b[0] + metres * Math.cos(normal), b[1] + metres * Math.sin(normal)]);
    }
  }
  return found.filter((p) => fromLine(p, line) > metres - PLANE);
}

/** Against the true parallel: nothing nearer or farther, nothing of it left out, nothing crossed. */
function judge(line: readonly Point[], side: Side, metres: number, ring: boolean) {
  const found = beside(line, side, metres);
  const trace = JSON.stringify({ line, side, metres });
  expect(found.metres).toBe(metres);
  for (const p of samples(found.vertices, 1.7)) {
    expect(Math.abs(fromLine(p, line) - metres), trace).toBeLessThan(PROMISED);
  }
  for (const p of parallel(line, side, metres, ring)) expect(fromLine(p, found.vertices), trace).toBeLessThan(PROMISED);
  expect(planeCrossings(found.vertices), trace).toEqual([]);
  expect(found.source[0], trace).toBe(0);
  expect(found.source[found.source.length - 1], trace).toBe(line.length - 1);
  expect(found.smooth.length).toBe(found.vertices.length);
  expect(found.source.length).toBe(found.vertices.length);
  for (let k = 1; k < found.source.length; k++)
    expect(found.source[k], trace).toBeGreaterThanOrEqual(found.source[k - 1]);
  if (ring) expect(apart(found.vertices[0], found.vertices[found.vertices.length - 1]), trace).toBeLessThan(PLANE);
  return found;
}

const stairs: Point[] = [
  [0, 0],
  [100, 0],
  [100, 80],
  [160, 80],
];

describe('an open line', () => {
  test('the inside of a corner is its mitre, the outside an arc about it', () => {
    const { vertices, source, smooth, wide } = judge(stairs, 'left', 10, false);
    const arc = [...smooth.keys()].filter((k) => smooth[k]);
    // (0, 10), (90, 10), the arc about (100, 80), (160, 90)
    expect(arc).toEqual([...vertices.keys()].slice(2, -1));
    for (const [k, p] of [
      [0, [0, 10]],
      [1, [90, 10]],
      [2, [90, 80]],
      [vertices.length - 2, [100, 90]],
      [vertices.length - 1, [160, 90]],
    ] as const) {
      expect(apart(vertices[k], p)).toBeLessThan(PLANE);
    }
    for (const k of arc) expect(Math.abs(apart(vertices[k], [100, 80]) - 10)).toBeLessThan(PLANE);
    expect(source).toEqual([0, 1, ...arc.map(() => 2), 3]);
    expect(wide).toEqual([]);
  });

  test('joined straight across where that is asked, or by a mitre', () => {
    const bevel = beside(stairs, 'left', 10, { join: 'bevel' });
    expect(bevel.source).toEqual([0, 1, 2, 2, 3]);
    expect(Math.abs(lengthOf(bevel.vertices) - (90 + 70 + 10 * Math.SQRT2 + 60))).toBeLessThan(PLANE);
    const mitre = beside(stairs, 'left', 10, { join: 'mitre' });
    expect(mitre.source).toEqual([0, 1, 2, 3]);
    expect(apart(mitre.vertices[2], [90, 90])).toBeLessThan(PLANE);
  });

  test('random lines with room for it, on either side', () => {
    const random = seeded(311);
    for (let round = 0; round < 6; round++) {
      const line: Point[] = [[0, 0]];
      for (let azimuth = 0, k = 0; k < 5; k++, azimuth += (random() - 0.5) * 1.6) {
        const [x, y] = line[k];
        const length = 20 + 30 * random();
        line.push([x + length * Math.cos(azimuth), y + length * Math.sin(azimuth)]);
      }
      const { source, vertices, wide } = judge(line, round % 2 ? 'left' : 'right', 1 + 7 * random(), false);
      expect(wide).toEqual([]);
      expect(new Set(source)).toEqual(new Set(line.keys()));
      for (const [k, at] of source.entries())
        expect(apart(vertices[k], sourceAt(line, at))).toBeLessThan(8 * Math.SQRT2);
    }
  });

  const notch: Point[] = [
    [0, 0],
    [50, 0],
    [50, 8],
    [58, 8],
    [58, 0],
    [110, 0],
  ];

  test('what is too near is cut from it, and said beside which stretch', () => {
    for (const [side, metres, corners] of [
      ['left', 9, [1, 4]],
      ['right', 6, [2, 3]],
    ] as const) {
      const { wide } = judge(notch, side, metres, false);
      for (const [from, to] of wide) {
        expect(from).toBeGreaterThanOrEqual(0);
        expect(to).toBeLessThanOrEqual(5);
      }
      for (const corner of corners) expect(wide.some(([from, to]) => from <= corner && corner <= to)).toBe(true);
    }
  });

  test('repeated points are one: places of the source are between those that differ', () => {
    const once = beside(notch, 'left', 9);
    const [a, b, c, d, e, f] = notch;
    const twice = beside([a, a, b, b, b, c, d, d, e, e, f, f], 'left', 9);
    expect(twice.vertices).toEqual(once.vertices);
    const repeated = [a, a, b, b, b, c, d, d, e, e, f, f];
    for (const [k, at] of twice.source.entries()) {
      expect(apart(sourceAt(repeated, at), sourceAt(notch, once.source[k])), `${at}`).toBeLessThan(PLANE);
    }
    expect(once.source.some((at) => at % 1 !== 0)).toBe(true);
    for (const [k, stretch] of twice.wide.entries()) {
      for (const end of [0, 1]) {
        expect(apart(sourceAt(repeated, stretch[end]), sourceAt(notch, once.wide[k][end]))).toBeLessThan(PLANE);
      }
    }
  });

  test('azimuths at its ends say where beside them it begins and ends', () => {
    const line: Point[] = [
      [0, 0],
      [60, 0],
      [120, 0],
    ];
    const { vertices } = beside(line, 'right', 10, { ends: [120, 60] });
    const [sine, cosine] = [Math.sin(Math.PI / 6), Math.cos(Math.PI / 6)];
    expect(apart(vertices[0], [-10 * sine, -10 * cosine])).toBeLessThan(PLANE);
    expect(apart(vertices[1], [60, -10])).toBeLessThan(PLANE);
    expect(apart(vertices[2], [120 + 10 * sine, -10 * cosine])).toBeLessThan(PLANE);
    // one edge has both
    const short = beside(
      [
        [0, 0],
        [60, 0],
      ],
      'left',
      10,
      { ends: [60, 120] },
    ).vertices;
    expect(apart(short[0], [-10 * sine, 10 * cosine])).toBeLessThan(PLANE);
    expect(apart(short[1], [60 + 10 * sine, 10 * cosine])).toBeLessThan(PLANE);
  });

  test('a line that is closed is open where azimuths of its ends are given', () => {
    const square: Point[] = [
      [0, 0],
      [60, 0],
      [60, 60],
      [0, 60],
      [0, 0],
    ];
    const { vertices, source } = beside(square, 'left', 10, { ends: [90, 180] });
    expect(source).toEqual([0, 1, 2, 3, 4]);
    expect(apart(vertices[0], [0, 10])).toBeLessThan(PLANE);
    expect(apart(vertices[4], [10, 0])).toBeLessThan(PLANE);
  });
});

/** Corners of a convex ring about the origin, clockwise or counter-clockwise, begun at any of them, closed. */
function convexRing(random: () => number, clockwise: boolean): Point[] {
  const count = 3 + Math.floor(random() * 4);
  const angles = Array.from({ length: count }, (_, k) => ((k + 0.6 * random()) / count) * 2 * Math.PI);
  const corners = angles.map((angle): Point => [60 * Math.cos(angle), 45 * Math.sin(angle)]);
  if (clockwise) corners.reverse();
  const first = Math.floor(random() * count);
  const begun = [...corners.slice(first), ...corners.slice(0, first)];
  return [...begun, begun[0]];
}

const areaOf = (ring: readonly Point[]) =>
  Math.abs(ring.slice(1).reduce((sum, [x, y], i) => sum + ring[i][0] * y - x * ring[i][1], 0) / 2);

describe('a ring', () => {
  test('outside a convex one: Steiner’s formulas for its length and area, and corner after corner', () => {
    const random = seeded(312);
    for (let round = 0; round < 8; round++) {
      const clockwise = round % 2 === 0;
      const ring = convexRing(random, clockwise);
      const metres = 1 + 20 * random();
      const { vertices, source, smooth, wide } = judge(ring, clockwise ? 'left' : 'right', metres, true);
      const [length, area] = [lengthOf(ring), areaOf(ring)];
      expect(Math.abs(lengthOf(vertices) - (length + 2 * Math.PI * metres))).toBeLessThan(0.02);
      const chords = PROMISED * lengthOf(vertices);
      expect(Math.abs(areaOf(vertices) - (area + length * metres + Math.PI * metres ** 2))).toBeLessThan(chords);
      for (const [k, at] of source.entries()) {
        expect(at % 1).toBe(0);
        expect(smooth[k]).toBe(true);
        expect(Math.abs(apart(vertices[k], ring[at]) - metres)).toBeLessThan(PROMISED);
      }
      expect(wide).toEqual([]);
    }
  });

  test('inside a convex one: a corner for each, where the parallels of its edges meet', () => {
    const random = seeded(313);
    for (let round = 0; round < 8; round++) {
      const clockwise = round % 2 === 0;
      const ring = convexRing(random, clockwise);
      // room enough: what is left is a ring with as many corners
      const { vertices, source, smooth, wide } = judge(ring, clockwise ? 'right' : 'left', 1 + random(), true);
      expect(source).toEqual([...ring.keys()]);
      expect(smooth).toEqual(ring.map(() => false));
      expect(vertices.length).toBe(ring.length);
      expect(wide).toEqual([]);
    }
  });

  /** Stretches of a ring from one place to a later one, among them those beside some of its corners. */
  function expectWide(wide: readonly (readonly [number, number])[], ring: readonly Point[], corners: readonly Point[]) {
    for (const [from, to] of wide) {
      expect(from).toBeGreaterThanOrEqual(0);
      expect(to).toBeGreaterThan(from);
      expect(to).toBeLessThanOrEqual(ring.length - 1);
    }
    for (const corner of corners) {
      const at = ring.findIndex((point) => apart(point, corner) === 0);
      expect(
        wide.some(([from, to]) => from <= at && at <= to),
        `${at} of ${JSON.stringify(wide)}`,
      ).toBe(true);
    }
  }

  const begun = (corners: readonly Point[], first: number) => [...corners.slice(first), ...corners.slice(0, first + 1)];

  /** A street block with a bay, whose bends are too tight for the offsets below. */
  const bay: Point[] = [
    [0, 0],
    [50, 0],
    [50, 8],
    [58, 8],
    [58, 0],
    [100, 0],
    [100, 70],
    [0, 70],
  ];

  test.each([...bay.keys()])('that leaves little room in a bay, begun at its corner %d, is cut there', (first) => {
    const ring = begun(bay, first);
    for (const [side, metres, corners] of [
      ['left', 9, [1, 4]],
      ['right', 6, [2, 3]],
    ] as const) {
      const { wide, source, vertices } = judge(ring, side, metres, true);
      expectWide(
        wide,
        ring,
        corners.map((corner) => bay[corner]),
      );
      // nothing is cut but beside the side that has the bay
      for (const at of wide.flat()) expect(fromLine(sourceAt(ring, at), bay.slice(0, 6))).toBeLessThan(PLANE);
      for (const [k, at] of source.entries()) expect(apart(vertices[k], sourceAt(ring, at))).toBeLessThan(3 * metres);
    }
  });

  /** Both ends of its longest edge have a step that is too low for the offset. */
  const steps: Point[] = [
    [0, 0],
    [100, 0],
    [100, 8],
    [108, 8],
    [108, 60],
    [50, 60],
    [-8, 60],
    [-8, 8],
    [0, 8],
  ];

  test.each([0, 1, 2, 5, 8])('cut at both ends of its longest edge, begun at corner %d', (first) => {
    const ring = begun(steps, first);
    const { wide } = judge(ring, 'left', 9, true);
    expectWide(wide, ring, [steps[0], steps[1]]);
    // not as far as the middles of the edges around, that of the longest among them
    const middle = ring.findIndex((point) => apart(point, steps[0]) === 0) + 0.5;
    expect(wide.some(([from, to]) => from < middle && middle < to)).toBe(false);
    for (const at of [4, 5, 6]) {
      const there = ring.findIndex((point) => apart(point, steps[at]) === 0);
      expect(wide.some(([from, to]) => from < there && there < to)).toBe(false);
    }
  });

  /** Its longest edge is the bottom of a bay 20 m wide and deep. */
  const deep: Point[] = [
    [0, 0],
    [15, 0],
    [30, 0],
    [45, 0],
    [60, 0],
    [60, 15],
    [60, 30],
    [60, 40],
    [50, 40],
    [40, 40],
    [40, 20],
    [19.9, 20],
    [20, 40],
    [10, 40],
    [0, 40],
    [0, 30],
    [0, 15],
  ];

  test.each([0, 9, 10, 11, 14])(
    'beside the middle of whose longest edge there is no room, begun at corner %d',
    (first) => {
      const ring = begun(deep, first);
      const { wide, vertices } = judge(ring, 'right', 11, true);
      expectWide(wide, ring, [deep[10], deep[11]]);
      // the cut is one corner, not two a hair apart
      for (let k = 1; k < vertices.length; k++) expect(apart(vertices[k - 1], vertices[k])).toBeGreaterThan(0.01);
    },
  );

  /** Twelve teeth as deep as a bay between two of them is wide. */
  const star = Array.from({ length: 24 }, (_, k): Point => {
    const radius = k % 2 ? 30 : 20;
    return [radius * Math.cos((k * Math.PI) / 12), radius * Math.sin((k * Math.PI) / 12)];
  });

  test.each([0, 1, 12, 23])(
    'beside no edge of which there is room, but beside its corners, begun at corner %d',
    (first) => {
      const ring = begun(star, first);
      const { wide } = judge(ring, 'right', 20, true);
      expectWide(
        wide,
        ring,
        star.filter((_, k) => k % 2 === 0),
      );
    },
  );

  test.each([
    ['4 cm before its start', 0.04, true],
    ['6 cm before its start', 0.06, false],
  ])('is one that ends %s: %s', (_, gap, closed) => {
    const square: Point[] = [
      [0, 0],
      [60, 0],
      [60, 60],
      [0, 60],
      [0, gap],
    ];
    const { vertices } = beside(square, 'left', 10);
    expect(apart(vertices[0], closed ? [10, 10] : [0, 10])).toBeLessThan(0.1);
    expect(apart(vertices[vertices.length - 1], closed ? [10, 10] : [10, gap])).toBeLessThan(0.1);
  });

  test.each([
    [149, true],
    [-149, true],
    [151, false],
    [-151, false],
  ])('is not one that turns back at its start: by %d°', (turn, closed) => {
    const corner = ((180 - Math.abs(turn)) * Math.PI) / 180;
    const wing: Point = [100 * Math.cos(corner), 100 * Math.sin(corner)];
    const triangle: Point[] = turn > 0 ? [[0, 0], [100, 0], wing, [0, 0]] : [[0, 0], wing, [100, 0], [0, 0]];
    const { vertices } = beside(triangle, turn > 0 ? 'right' : 'left', 5);
    expect(apart(vertices[0], vertices[vertices.length - 1]) < PLANE).toBe(closed);
  });
});

describe('where nothing would be left', () => {
  const square: Point[] = [
    [0, 0],
    [20, 0],
    [20, 20],
    [0, 20],
    [0, 0],
  ];

  test.each([
    [10, 5],
    [12, 6],
    [18, 9],
    [50, 6.25],
    [9.9, 9.9],
  ])('%d m inside a square of 20 m runs %d m inside', (asked, metres) => {
    const found = beside(square, 'left', asked);
    expect(found.metres).toBe(metres);
    expect(Math.abs(lengthOf(found.vertices) - 4 * (20 - 2 * metres))).toBeLessThan(PLANE);
    expect(found.wide).toEqual(metres < asked ? [[0, 4]] : []);
  });

  test('nor inside a circle of chords: at half the distance, or half of that', () => {
    const circle = Array.from(
      { length: 37 },
      (_, k): Point => [10 * Math.cos((k * Math.PI) / 18), 10 * Math.sin((k * Math.PI) / 18)],
    );
    for (const [asked, metres] of [
      [15, 7.5],
      [30, 7.5],
      [44, 5.5],
    ]) {
      const found = beside(circle, 'left', asked);
      expect(found.metres).toBe(metres);
      // chords of a circle within the chords: their distance from the middle less so much
      const inside = 10 * Math.cos(Math.PI / 36) - metres;
      expect(Math.abs(lengthOf(found.vertices) - 72 * inside * Math.tan(Math.PI / 36))).toBeLessThan(1e-5);
      expect(found.wide).toEqual([[0, 36]]);
    }
  });

  test('nor inside half a circle, which is open', () => {
    const half = Array.from(
      { length: 19 },
      (_, k): Point => [10 * Math.cos((k * Math.PI) / 18), 10 * Math.sin((k * Math.PI) / 18)],
    );
    for (const [asked, metres] of [
      [9, 9],
      [15, 7.5],
      [38, 9.5],
    ]) {
      const found = beside(half, 'left', asked);
      expect(found.metres).toBe(metres);
      for (const vertex of found.vertices) expect(Math.abs(fromLine(vertex, half) - metres)).toBeLessThan(PROMISED);
      // 18 chords, each shorter by a tangent at either end, but for both ends of the line
      const [chord, trim] = [20 * Math.sin(Math.PI / 36), metres * Math.tan(Math.PI / 36)];
      expect(Math.abs(lengthOf(found.vertices) - (18 * chord - 34 * trim))).toBeLessThan(1e-5);
    }
  });

  test('the whole of its source is said to be too tight, however its points are repeated', () => {
    const [a, b, c, d] = square;
    expect(beside([a, a, b, c, c, d, a], 'left', 12).wide).toEqual([[0, 6]]);
  });
});

test('what is told the author says how far beside the line it runs, or that it is cut', () => {
  expect(wideOffsetMessage(12, 6)).toBe(
    '12 m beside the line is more than its bends leave room for; the line runs 6 m beside it.',
  );
  expect(wideOffsetMessage(6, 6)).toBe(
    '6 m beside the line is more than its bends leave room for; the line is cut short there.',
  );
});

describe('lines of next to no length', () => {
  test('where nothing can be told apart, the line itself, and so said', () => {
    for (const line of [
      [
        [0, 0],
        [1e-7, 0],
        [0, 1e-7],
      ],
      [
        [5, 5],
        [5, 5],
      ],
    ] as const) {
      const still = beside(line, 'left', 3);
      line.forEach((point, i) => {
        expect(apart(still.vertices[i] as unknown as Point, point)).toBeLessThan(PLANE);
      });
      expect(still.vertices).toHaveLength(line.length);
      expect(still).toMatchObject({
        source: line.map((_, i) => i),
        smooth: line.map(() => false),
        wide: [[0, line.length - 1]],
        metres: 0,
      });
    }
  });

  test('a line of centimetres is no ring, though its ends are as near each other as a ring’s: it is offset as a line', () => {
    const open = beside(
      [
        [0, 0],
        [0.02, 0],
        [0.04, 0],
      ],
      'left',
      1,
    );
    expect(open.metres).toBe(1);
    expect(lengthOf(open.vertices as unknown as Point[])).toBeCloseTo(0.04, 4);
    for (const [, y] of open.vertices) expect(y).toBeCloseTo(1, 4);
  });

  test('nor where it bends: a quarter of a circle about its corner and nothing about its ends', () => {
    const bent = beside(
      [
        [0, 0],
        [0.02, 0],
        [0.02, 0.02],
      ],
      'right',
      1,
    );
    expect(bent.metres).toBe(1);
    // the chords of the curve are shorter than it by less than 1 %
    expect(lengthOf(bent.vertices as unknown as Point[])).toBeGreaterThan(0.99 * (0.04 + Math.PI / 2));
    expect(lengthOf(bent.vertices as unknown as Point[])).toBeLessThan(0.04 + Math.PI / 2 + PLANE);
  });
});

test('beside a line there is nothing further off than 10 km', () => {
  const line = [
    [0, 0],
    [100, 0],
  ] as const;
  expect(() => beside(line, 'left', 10_001)).toThrow(/^metres beside a line must be .*10000/);
  expect(() => beside(line, 'left', Number.NaN)).toThrow(/^metres beside a line must be /);
});
