import { areaBetween } from 'datumline/metrics';
import type { Route } from 'datumline/route';
import { routeFromLine } from 'datumline/route';
import type { Snapped } from 'datumline/snap';
import type { Position } from 'geojson';
import { describe, expect, test } from 'vitest';
import { Moments } from '../../src/metrics/Moments';
import { areaByStretches } from '../support/areaByStretches';
import { countCalls } from '../support/countCalls';
import { onEquator } from '../support/onEquator';
import { seeded } from '../support/randomLine';

/** A recording placed at these along- and cross-tracks. */
function placed(along: readonly number[], cross: readonly number[]): Pick<Snapped, 'alongTrack' | 'crossTrack'> {
  return { alongTrack: Float64Array.from(along), crossTrack: Float64Array.from(cross) };
}

const straight = routeFromLine(
  onEquator([
    [0, 0],
    [100, 0],
  ]),
);

test.each([
  ['a strip to the right', [0, 100], [3, 3], 300, 300],
  ['a strip to the left', [0, 100], [-3, -3], 300, -300],
  ['two triangles that cancel', [0, 100], [5, -5], 250, 0],
  ['two triangles of 75 and 25 m', [0, 100], [6, -2], 225 + 25, 200],
  ['a stop counts no ground', [0, 50, 50, 50, 100], [3, 3, 9, 3, 3], 300, 300],
  ['a backtrack counts its ground once, the mean of three passes', [0, 60, 40, 100], [3, 3, 3, 3], 300, 300],
  [
    'fixes off the route are left out, with the legs to them',
    [0, 40, Number.NaN, 60, 100],
    [3, 3, Number.NaN, 3, 3],
    240,
    240,
  ],
  ['a fix without an offset is off the route too', [0, 40, 50, 60, 100], [3, 3, Number.NaN, 3, 3], 240, 240],
  ['nothing on the route', [Number.NaN, Number.NaN], [Number.NaN, Number.NaN], 0, 0],
  ['a single fix', [50], [3], 0, 0],
  ['no fix', [], [], 0, 0],
])('%s', (_, along, cross, area, signed) => {
  const result = areaBetween(straight, placed(along, cross));
  expect(result.area).toBeCloseTo(area, 6);
  expect(result.signed).toBeCloseTo(signed, 6);
});

test('gaps are left out where the recording says so', () => {
  const snapped = placed([0, 40, 60, 100], [3, 3, 3, 3]);
  expect(areaBetween(straight, snapped).area).toBeCloseTo(300, 6);
  const apart = areaBetween(straight, snapped, { gapBefore: [1, 0, 1, 0] });
  expect(apart.area).toBeCloseTo(240, 6);
  expect(apart.length).toBeCloseTo(80, 6);
});

test.each([
  ['left', 3, Math.PI * (63 ** 2 - 60 ** 2)],
  ['left', -3, Math.PI * (60 ** 2 - 57 ** 2)],
  ['right', 3, Math.PI * (60 ** 2 - 57 ** 2)],
  ['right', -3, Math.PI * (63 ** 2 - 60 ** 2)],
] as const)('a lap of radius 60 m turning %s, run at %d m: the ring by its closed form', (turn, offset, ring) => {
  const side = turn === 'left' ? 1 : -1;
  const corners = 720;
  const route = routeFromLine(
    onEquator(
      Array.from({ length: corners + 1 }, (_, i) => {
        const angle = (2 * Math.PI * i) / corners;
        return [60 * Math.sin(angle), side * (60 - 60 * Math.cos(angle))];
      }),
    ),
  );
  const along = [...Array.from({ length: 376 }, (_, i) => i), route.length];
  const { area, signed } = areaBetween(
    route,
    placed(
      along,
      along.map(() => offset),
    ),
  );
  // a polygon turns in its corners, of which the first is not one of the line
  const outside = Math.sign(offset) * side;
  const turned = (2 * Math.PI * (corners - 1)) / corners;
  expect(Math.abs(area - (route.length * 3 + (outside * turned * 9) / 2))).toBeLessThan(1e-4);
  expect(Math.abs(area / ring - 1)).toBeLessThan(1e-4);
  expect(Math.sign(signed)).toBe(Math.sign(offset));
  expect(Math.abs(signed)).toBeCloseTo(area, 9);
  // without the curvature term it would be off by a fortieth
  expect(Math.abs((route.length * 3) / ring - 1)).toBeGreaterThan(0.02);
});

test.each([
  ['outside', 3, 1],
  ['inside', -3, -1],
] as const)('%s of a right angle at 3 m: a quarter of a disk more or less than the strip', (_, offset, outside) => {
  // the route turns left, so that its right is outside
  const route = routeFromLine(
    onEquator([
      [0, 0],
      [50, 0],
      [50, 50],
    ]),
  );
  const { area, signed, length } = areaBetween(route, placed([0, 100], [offset, offset]));
  expect(length).toBeCloseTo(100, 6);
  expect(Math.abs(area - (300 + (outside * Math.PI * 9) / 4))).toBeLessThan(1e-4);
  expect(signed).toBeCloseTo(Math.sign(offset) * area, 9);
});

/** A left turn of so many degrees and 60 m radius, in 0.5 m chords. */
function bend(sweep: number) {
  const radius = 60;
  const turn = (sweep * Math.PI) / 180;
  const corners = Math.ceil((radius * turn) / 0.5);
  const plane = Array.from({ length: corners + 1 }, (_, i) => {
    const angle = (turn * i) / corners;
    return [radius * Math.sin(angle), radius - radius * Math.cos(angle)];
  });
  return { route: routeFromLine(onEquator(plane)), radius, turn, corners };
}

test.each([90, 180, 270])('closed forms on a bend of %d° and 60 m radius', (sweep) => {
  const { route, radius, turn, corners } = bend(sweep);
  const [length, h] = [radius * turn, 8];
  const along = Array.from({ length: 401 }, (_, i) => (route.length * i) / 400);
  const of = (offset: (share: number) => number) =>
    areaBetween(
      route,
      placed(
        along,
        along.map((_, i) => offset(i / 400)),
      ),
    );
  // a sector of a ring
  const ring = of(() => h);
  expect(Math.abs(ring.area / ((turn / 2) * ((radius + h) ** 2 - radius ** 2)) - 1)).toBeLessThan(1e-3);
  // a spiral from 0 to h: ∫ n + n² / 2R
  const spiral = of((share) => share * h);
  expect(Math.abs(spiral.signed / ((length * h) / 2 + (length * h * h) / (6 * radius)) - 1)).toBeLessThan(1e-3);
  // across the route, from h left to h right: the sides' curvature terms cancel in the area, and are all of the signed one
  const across = of((share) => (2 * share - 1) * h);
  expect(Math.abs(across.area / ((length * h) / 2) - 1)).toBeLessThan(1e-3);
  // but for half a corner's turn at each end, where the line has none: 3 / corners of it
  expect(Math.abs(across.signed / ((length * h * h) / (6 * radius)) - (1 - 3 / corners))).toBeLessThan(1e-3);
});

test('the polygon between a winding route and what was recorded beside it, by its corners', () => {
  // y = 30 sin (x / 40), and a line at a varying offset along its normals
  const steps = 4000;
  const centre = Array.from({ length: steps + 1 }, (_, i) => [i / 10, 30 * Math.sin(i / 400)]);
  const route = routeFromLine(onEquator(centre.filter((_, i) => i % 10 === 0)));
  const offset = (x: number) => 4 + 2 * Math.cos(x / 13);
  const beside = centre.map(([x, y]) => {
    const slope = 0.75 * Math.cos(x / 40);
    const scale = offset(x) / Math.hypot(1, slope);
    return [x + slope * scale, y - scale];
  });
  const corners = [...centre, ...[...beside].reverse()];
  const twice = corners.reduce((sum, [x, y], i) => {
    const [u, v] = corners[(i + 1) % corners.length];
    return sum + x * v - u * y;
  }, 0);
  let travelled = 0;
  const along = centre.map(([x, y], i) => {
    if (i > 0) travelled += Math.hypot(x - centre[i - 1][0], y - centre[i - 1][1]);
    return travelled;
  });
  const scale = route.length / travelled;
  const { area } = areaBetween(
    route,
    placed(
      along.map((s) => s * scale),
      centre.map(([x]) => offset(x)),
    ),
  );
  expect(Math.abs(area / (Math.abs(twice) / 2) - 1)).toBeLessThan(1e-3);
});

test('reversed: the area stays, the signed one changes its sign', () => {
  const line = onEquator([
    [0, 0],
    [40, 30],
    [90, 10],
    [120, 60],
  ]);
  const [there, back] = [routeFromLine(line), routeFromLine([...line].reverse())];
  const along = Array.from({ length: 30 }, (_, i) => (i * there.length) / 29);
  const cross = along.map((s) => 4 * Math.sin(s / 9));
  const first = areaBetween(there, placed(along, cross));
  const second = areaBetween(
    back,
    placed(
      along.map((s) => there.length - s),
      cross.map((n) => -n),
    ),
  );
  expect(second.area).toBeCloseTo(first.area, 6);
  expect(second.signed).toBeCloseTo(-first.signed, 6);
});

test('refuses what is no placed recording', () => {
  for (const [route, snapped, options, reason, argument] of [
    [straight, {}, undefined, 'wrong-type', 'snapped'],
    [undefined, placed([], []), undefined, 'wrong-type', 'route'],
    [
      straight,
      { ...placed([0, 1], [0, 1]), crossTrack: new Float64Array(1) },
      undefined,
      'out-of-range',
      'snapped.crossTrack length',
    ],
    [straight, placed([], []), { gaps: 1 }, 'unknown-key', 'options.gaps'],
    [straight, placed([0, 1], [0, 1]), { gapBefore: [1] }, 'out-of-range', 'options.gapBefore length'],
    [straight, placed([0, 1], [0, Infinity]), undefined, 'not-finite', 'snapped.crossTrack[1]'],
    [straight, placed([0, -Infinity], [0, 1]), undefined, 'not-finite', 'snapped.alongTrack[1]'],
  ] as const) {
    expect(() => areaBetween(route as Route, snapped as Snapped, options as object)).toThrow(
      expect.objectContaining({ reason, argument }),
    );
  }
});

describe('a recording that goes back and forth', () => {
  const route = routeFromLine(
    onEquator(Array.from({ length: 61 }, (_, i): Position => [60 * Math.sin(i / 20), 60 - 60 * Math.cos(i / 20)])),
  );
  const shuttle = (fixes: number, seed: number, step: (random: () => number) => number) => {
    const random = seeded(seed);
    const [alongTrack, crossTrack] = [new Float64Array(fixes), new Float64Array(fixes)];
    for (let i = 1; i < fixes; i++) {
      const at = alongTrack[i - 1] + step(random);
      alongTrack[i] = at < 0 || at > route.length ? alongTrack[i - 1] : at;
      crossTrack[i] = 8 * (random() - 0.5);
    }
    return { alongTrack, crossTrack };
  };

  test.each([
    ['in long steps', (random: () => number) => 60 * (random() - 0.5)],
    ['on the whole forward', (random: () => number) => 4 * (random() - 0.3)],
    [
      'with steps of a micrometre among them',
      (random: () => number) => (random() - 0.45) * (random() < 0.5 ? 1e-6 : 9),
    ],
    ['from whole metre to whole metre', (random: () => number) => Math.round(12 * (random() - 0.45))],
  ])('%s: as the passes one by one say', (_, step) => {
    for (const seed of [1, 2]) {
      const snapped = shuttle(400, seed, step);
      const found = areaBetween(route, snapped);
      const told = areaByStretches(route, snapped.alongTrack, snapped.crossTrack);
      for (const key of ['area', 'signed', 'length'] as const) {
        expect(Math.abs(found[key] - told[key])).toBeLessThan(1e-9 * (1 + told.area));
      }
    }
  });

  test('two looks for each fix, and one more where it changes sides, however often a stretch is passed', () => {
    const snapped = shuttle(2000, 4, (random) => 60 * (random() - 0.5));
    expect(countCalls(Moments.prototype, 'about', () => areaBetween(route, snapped))).toBeLessThanOrEqual(4 * 2000);
  });
});
