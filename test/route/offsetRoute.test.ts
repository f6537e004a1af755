import { direct, inverse, localPlane, pointToSegment } from 'datumline/geodesy';
import { offsetRoute, pointAt, routeBuilder, routeFromLine, routeFromRecipe, sliceRoute } from 'datumline/route';
import type { Position } from 'geojson';
import { describe, expect, test, vi } from 'vitest';
import { WGS84 } from '../../src/geodesy/ellipsoid';
import { athleticsOval } from '../published/athleticsOval';
import { bruteFoot } from '../support/bruteFoot';
import { onEquator } from '../support/onEquator';
import { planeCrossings } from '../support/planeCrossings';

const { straight, kerbRadius, fromKerb, lengths } = athleticsOval;

const ovalAt = (start: Position) =>
  routeBuilder({ maxSagitta: 0.0001 })
    .start(start)
    .lineBy({ azimuth: 0, distance: straight })
    .arc({ turn: 'left', radius: kerbRadius, sweep: 180 })
    .lineBy({ azimuth: 180, distance: straight })
    .arc({ turn: 'left', radius: kerbRadius, sweep: 180 })
    .build();
const kerb = ovalAt([8, 47]);
const kerbOnEquator = ovalAt([8, 0]);

test.each(lengths.map((length, i) => ({ lane: i + 1, length })))(
  'lane $lane of the athletics oval is $length m long',
  ({ lane, length }) => {
    const metres = fromKerb(lane);
    const closedForm = 2 * straight + 2 * Math.PI * (kerbRadius + metres);
    // The closed form itself lies up to 5.8 mm from the printed centimetre (lane 7: 445.3658 m).
    const { length: built } = offsetRoute(kerbOnEquator, { side: 'right', metres });
    expect(Math.abs(built - length)).toBeLessThan(0.0058 + 0.0003);
    expect(Math.abs(built - closedForm)).toBeLessThan(0.0003);
    // At 47° two straights that run due north and due south converge by 1 mm.
    expect(Math.abs(offsetRoute(kerb, { side: 'right', metres }).length - closedForm)).toBeLessThan(0.002);
  },
);

test('a closed loop offset by d differs by 2πd', () => {
  for (const metres of [0.5, 5, 30]) {
    const { length } = offsetRoute(kerb, { side: 'left', metres });
    expect(Math.abs(length - (kerb.length - 2 * Math.PI * metres))).toBeLessThan(0.01);
  }
});

test('the recipe of an offset gives the identical route', () => {
  const offset = offsetRoute(kerb, { side: 'left', metres: 3 });
  expect(routeFromRecipe(JSON.parse(JSON.stringify(offset.recipe)))).toEqual(offset);
});

/** Bends both ways up to 60°, edges of 40 to 90 m: room for 20 m on either side. */
const wiggle = (start: Position) => {
  const turns = [0, 35, -50, 60, -20, -45, 30, -8];
  let azimuth = 70;
  const line = [start];
  turns.forEach((turn, i) => {
    azimuth += turn;
    line.push(direct(line[i], azimuth, 40 + ((i * 37) % 50)).position);
  });
  return line;
};

test.each([0, 60, 80, -80].flatMap((lat) => [8, 179.9995].map((lon) => ({ lon, lat }))))(
  'every point of the offset is the asked distance away within 1 mm, at $lon, $lat',
  ({ lon, lat }) => {
    const line = wiggle([lon, lat]);
    const route = routeFromLine(line, { maxSpacing: 1000 });
    for (const [side, metres] of [
      ['left', 0.5],
      ['right', 5],
      ['left', 20],
    ] as const) {
      const offset = offsetRoute(route, { side, metres });
      expect(offset.warnings.map(({ reason }) => reason)).not.toContain('wide-offset');
      for (let at = 0; at <= offset.length; at += 7.3) {
        const { position } = pointAt(offset, at);
        const distances = line.slice(1).map((to, i) => {
          const length = inverse(line[i], to).distance;
          return bruteFoot(position, line[i], to, { low: 0, high: length, samples: 12 }).distance;
        });
        expect(Math.abs(Math.min(...distances) - metres), `${side} ${metres} at ${at}`).toBeLessThan(1e-3);
      }
      const plane = localPlane(line[0]);
      expect(planeCrossings(Array.from(offset.lon, (x, i) => plane.toPlane([x, offset.lat[i]])))).toEqual([]);
    }
  },
);

test('a closed loop offset by d differs by 2πd at latitude 80 and across ±180° too', () => {
  for (const start of [
    [8, 80],
    [179.9995, -60],
  ]) {
    const loop = routeBuilder({ maxSagitta: 1e-4 })
      .start(start, { azimuth: 20 })
      .arc({ turn: 'right', radius: 60, sweep: 360 })
      .build();
    for (const metres of [1, 25]) {
      const { length } = offsetRoute(loop, { side: 'left', metres });
      expect(Math.abs(length - loop.length - 2 * Math.PI * metres)).toBeLessThan(2e-3);
    }
  }
});

const corner = onEquator([
  [0, 0],
  [100, 0],
  [100, 100],
]);

test.each([
  // outside: an arc, both sides prolonged, straight across; inside all the same: two tangents less
  ['right', 'round', 200 + (10 * Math.PI) / 2],
  ['right', 'mitre', 220],
  ['right', 'bevel', 200 + 10 * Math.SQRT2],
  ['left', 'round', 180],
  ['left', 'mitre', 180],
  ['left', 'bevel', 180],
] as const)('round a right angle to the %s with join %s', (side, join, length) => {
  const offset = offsetRoute(routeFromLine(corner), { side, metres: 10, join });
  expect(Math.abs(offset.length - length)).toBeLessThan(2e-3);
});

test('a mitre longer than twice the distance is cut off as a bevel', () => {
  // turned by 130°: the mitre would be 2.37 times as far away
  const turn = (130 * Math.PI) / 180;
  const sharp = onEquator([
    [0, 0],
    [100, 0],
    [100 + 100 * Math.cos(turn), 100 * Math.sin(turn)],
  ]);
  const { length } = offsetRoute(routeFromLine(sharp), { side: 'right', metres: 10, join: 'mitre' });
  expect(Math.abs(length - (200 + 20 * Math.sin(turn / 2)))).toBeLessThan(1e-3);
});

test('a U-turn is gone round by a semicircle at its tip, on either side', () => {
  const [a, b] = onEquator([
    [0, 0],
    [100, 0],
  ]);
  for (const side of ['left', 'right'] as const) {
    const { length } = offsetRoute(routeFromLine([a, b, a]), { side, metres: 5 });
    expect(Math.abs(length - (200 + 5 * Math.PI))).toBeLessThan(5e-3);
  }
});

test('repeated points change nothing', () => {
  const [a, b, c] = corner;
  const once = offsetRoute(routeFromLine([a, b, c]), { side: 'right', metres: 3 });
  const twice = offsetRoute(routeFromLine([a, a, b, b, b, c, c]), { side: 'right', metres: 3 });
  expect([...twice.lon, ...twice.lat]).toEqual([...once.lon, ...once.lat]);
});

test('where bends leave less room than asked, what is too near is cut, with a warning; no loop is left', () => {
  const notch = onEquator([
    [0, 0],
    [50, 0],
    [50, 8],
    [58, 8],
    [58, 0],
    [110, 0],
  ]);
  const source = routeFromLine(notch, { lateral95: 0.5 });
  for (const side of ['left', 'right'] as const) {
    const offset = offsetRoute(source, { side, metres: 6 });
    expect(offset.warnings.map(({ reason }) => reason)).toContain('wide-offset');
    const plane = localPlane(notch[0]);
    expect(planeCrossings(Array.from(offset.lon, (x, i) => plane.toPlane([x, offset.lat[i]])))).toEqual([]);
    for (let i = 0; i < offset.lon.length; i++) {
      const distances = notch
        .slice(1)
        .map((to, k) => pointToSegment([offset.lon[i], offset.lat[i]], notch[k], to).distance);
      expect(Math.abs(Math.min(...distances) - 6)).toBeLessThan(1e-3);
    }
  }
});

test.each<[string, unknown, string, string]>([
  ['no options', undefined, 'missing', 'options must be a side and metres'],
  ['no side', { metres: 3 }, 'wrong-type', "options.side must be 'left' or 'right'"],
  [
    'a signed distance',
    { side: 'left', metres: -3 },
    'out-of-range',
    'options.metres must be a number above 0, not -3',
  ],
  ['not a number', { side: 'left', metres: Number.NaN }, 'not-finite', 'options.metres'],
  ['another join', { side: 'left', metres: 3, join: 'square' }, 'wrong-type', 'options.join'],
  ['an unknown key', { side: 'left', metres: 3, radius: 2 }, 'unknown-key', 'options.radius'],
])('%s is refused', (_, options, reason, message) => {
  const offset = () => offsetRoute(kerb, options as never);
  expect(offset).toThrow(expect.objectContaining({ name: 'InputError', reason }));
  expect(offset).toThrow(message);
});

describe('a route of next to nothing (never ended, 2026-11)', () => {
  const corner = routeFromLine([
    [5, 60],
    [5.01, 60],
    [5.01, 60.01],
  ]);

  test.each([1e-9, 1e-7, 1e-6, 1.5e-6, 2e-6, 1e-5, 1e-3, 0.04])('%d metres of a straight line', (length) => {
    for (const metres of [1e-7, 1e-3, 3, 50, 1e4]) {
      const look = vi.spyOn(WGS84, 'Inverse');
      const piece = sliceRoute(corner, 3, 3 + length);
      const beside = offsetRoute(piece, { side: 'right', metres });
      // a few for each halving of 10 km down to a micrometre
      expect(look.mock.calls.length).toBeLessThan(1500);
      look.mockRestore();
      // ends are doubles of degrees; 10 km aside a line is shorter by the cosine of that angle
      expect(Math.abs(beside.length - piece.length), `${metres}`).toBeLessThan(1e-8 + 2e-2 * piece.length);
      const moved = inverse([beside.lon[0], beside.lat[0]], [piece.lon[0], piece.lat[0]]).distance;
      // it keeps to the distance, or says by how much it doesn't
      if (Math.abs(moved - metres) > 1e-3) {
        expect(beside.warnings.map(({ reason }) => reason)).toContain('wide-offset');
        expect(moved).toBeLessThan(metres);
      }
      if (length > 1e-5) expect(moved).toBeCloseTo(metres, 3);
    }
  });

  test('and about a corner', () => {
    const along = corner.alongTrack.find((_, i) => corner.lon[i] === 5.01)!;
    for (const length of [2e-6, 1e-3, 0.04]) {
      const piece = sliceRoute(corner, along - length / 2, along + length / 2);
      for (const side of ['left', 'right'] as const) {
        const beside = offsetRoute(piece, { side, metres: 3 });
        expect(beside.length).toBeGreaterThan(0);
        expect([...beside.lon, ...beside.lat, ...beside.alongTrack].every(Number.isFinite)).toBe(true);
      }
    }
  });
});
