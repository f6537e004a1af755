import { direct, intersection, inverse, pointToGeodesic } from 'datumline/geodesy';
import type { Position } from 'geojson';
import { describe, expect, test } from 'vitest';
import { WGS84 } from '../../src/geodesy/ellipsoid';
import { closestCrossing } from '../../src/geodesy/intersection';
import { intersections } from '../published/baselgaMartinez2018';
import { intersectTool } from '../published/intersectTool';
import { section8 } from '../published/karney2013';
import { seeded } from '../support/randomLine';

const lonLat = ([lat, lon]: readonly [number, number]): Position => [lon, lat];

describe('what the docs say', () => {
  test('edges that cross: the crossing lies on both', () => {
    const { position, alongFirst, alongSecond } = intersection([-1, 0], [1, 0], [0, -1], [0, 1])!;
    expect(position[0]).toBeCloseTo(0, 13);
    expect(position[1]).toBeCloseTo(0, 13);
    expect(alongFirst).toBeCloseTo(inverse([-1, 0], [0, 0]).distance, 8);
    expect(alongSecond).toBeCloseTo(inverse([0, -1], [0, 0]).distance, 8);
  });

  test('edges that do not cross: behind a start is negative', () => {
    const { alongFirst, alongSecond } = intersection([1, 0], [2, 0], [0, 1], [0, 2])!;
    expect(alongFirst).toBeCloseTo(-inverse([0, 0], [1, 0]).distance, 8);
    expect(alongSecond).toBeCloseTo(-inverse([0, 0], [0, 1]).distance, 8);
  });

  test('edges that share an end cross there', () => {
    const shared = [179.9999, 60];
    const { position } = intersection([179, 59], shared, shared, [-179, 60])!;
    expect(inverse(position, shared).distance).toBeLessThan(2e-8);
  });

  test('meridians cross at the nearer pole', () => {
    expect(intersection([0, 10], [0, 20], [5, 10], [5, 20])!.position[1]).toBeCloseTo(90, 12);
    expect(intersection([0, -10], [0, -20], [5, -10], [5, -20])!.position[1]).toBeCloseTo(-90, 12);
  });

  test('no direction, or one geodesic: undefined', () => {
    expect(intersection([5, 52], [5, 52], [4, 52], [6, 52.1])).toBeUndefined();
    expect(intersection([4, 52], [6, 52.1], [5, 90], [77, 90])).toBeUndefined();
    expect(intersection([0, 0], [1, 0], [3, 0], [2, 0])).toBeUndefined();
    expect(intersection([5, 52], [6, 51.4], [5, 52], [6, 51.4])).toBeUndefined();
    expect(intersection([5, 52], [6, 51.4], [6, 51.4], [5, 52])).toBeUndefined();
    const [c, d] = [2e4, 5e4].map((along) => direct([5, 52], 33, along).position);
    expect(intersection([5, 52], direct([5, 52], 33, 1e4).position, c, d)).toBeUndefined();
  });

  test('all but parallel lines do cross, far off', () => {
    const found = intersection([0, 45], [0.001, 45], [0, 45.00001], [0.001, 45.00001])!;
    expect(Math.abs(found.alongFirst)).toBeGreaterThan(1e6);
    expect(pointToGeodesic(found.position, [0, 45.00001], [0.001, 45.00001]).distance).toBeLessThan(1e-6);
  });

  test('bad positions are named', () => {
    expect(() => intersection([0, 0], [1, 0], [0, -91], [0, 1])).toThrow(
      expect.objectContaining({ reason: 'swapped', argument: 'c latitude' }),
    );
  });
});

describe('published', () => {
  test.each(intersections)('Baselga & Martínez-Llario, case %d', (_, a, b, c, d, crossing, alongFirst, alongSecond) => {
    const found = intersection(lonLat(a), lonLat(b), lonLat(c), lonLat(d))!;
    expect(Math.abs(found.position[1] - crossing[0])).toBeLessThan(1e-12);
    expect(Math.abs(found.position[0] - crossing[1])).toBeLessThan(1e-12);
    expect(Math.abs(found.alongFirst - alongFirst)).toBeLessThan(6e-8);
    expect(Math.abs(found.alongSecond - alongSecond)).toBeLessThan(6e-8);
  });

  test('Karney 2013, section 8: intersection', () => {
    const [a, b, c, d] = [section8.a, section8.b, section8.c, section8.d].map(lonLat);
    const { position } = intersection(a, b, c, d)!;
    expect(Math.abs(position[1] - section8.crossing[0])).toBeLessThan(1e-12);
    expect(Math.abs(position[0] - section8.crossing[1])).toBeLessThan(1e-12);
  });

  test.each(intersectTool)('IntersectTool $first × $second', ({ first, second, alongFirst, alongSecond }) => {
    const edge = ([lat, lon, azimuth]: readonly [number, number, number]) => [
      [lon, lat],
      direct([lon, lat], azimuth, 1e5).position,
    ];
    const [[a, b], [c, d]] = [edge(first), edge(second)];
    const found = intersection(a, b, c, d)!;
    expect(Math.abs(found.alongFirst - alongFirst)).toBeLessThan(0.5);
    expect(Math.abs(found.alongSecond - alongSecond)).toBeLessThan(0.5);
  });
});

/** Two edges of one of four kinds: any; near the equator; near a pole; all but coincident starts and directions. */
function twoLines(draw: () => number, kind: number) {
  const anywhere = () => [(Math.asin(2 * draw() - 1) * 180) / Math.PI, draw() * 360 - 180];
  const length = () => [1e-2, 100, 1e5, 1e7][Math.floor(draw() * 4)];
  const equatorial = () => [draw() * 2 - 1, draw() * 360 - 180];
  const a = kind === 1 ? equatorial() : kind === 2 ? [90 - draw() * 0.1, draw() * 360] : anywhere();
  const nudge = () => (draw() - 0.5) * 1e-6;
  const c = kind === 3 ? [a[0] + nudge(), a[1] + nudge()] : kind === 1 ? equatorial() : anywhere();
  const azimuth = draw() < 0.2 ? 90 : draw() * 360;
  const other = draw() < 0.2 ? azimuth + draw() * 1e-5 : draw() * 360;
  return [
    WGS84.DirectLine(Math.min(a[0], 90), a[1], azimuth, length()),
    WGS84.DirectLine(Math.max(Math.min(c[0], 90), -90), c[1], other, length()),
  ];
}

test.each([0, 1, 2, 3])('always found, and both lines are there: kind %d', (kind) => {
  const draw = seeded(40 + kind);
  for (let k = 0; k < 2000; k++) {
    const [first, second] = twoLines(draw, kind);
    const crossing = closestCrossing(first, second);
    expect(crossing, `round ${k}`).toBeDefined();
    const [p, q] = [first.Position(crossing![0]), second.Position(crossing![1])];
    expect(WGS84.Inverse(p.lat2!, p.lon2!, q.lat2!, q.lon2!).s12).toBeLessThan(3e-8);
  }
});

test('no crossing is closer: signed cross-tracks of the second line, sampled two turns round, change sign nowhere nearer', () => {
  const draw = seeded(99);
  for (let k = 0; k < 12; k++) {
    const [first, second] = twoLines(draw, k % 2);
    const [x, y] = closestCrossing(first, second)!;
    const far = (u: number, v: number) => Math.abs(u - first.s13 / 2) + Math.abs(v - second.s13 / 2);
    const start = [first.lon1, first.lat1];
    const ahead = direct(start, first.azi1, 1e6).position;
    const reach = far(x, y) + 1e5;
    const seen = (along: number) => {
      const { lat2, lon2 } = second.Position(along);
      return { along, ...pointToGeodesic([lon2!, lat2!], start, ahead) };
    };
    let before = seen(second.s13 / 2 - reach);
    for (let n = 1; n <= 200; n++) {
      const now = seen(second.s13 / 2 - reach + (2 * reach * n) / 200);
      const crosses = Math.sign(before.crossTrack) !== Math.sign(now.crossTrack);
      // a jump from a pole's one side to the other is no crossing
      if (crosses && before.distance + now.distance < 5e5) {
        expect(far(now.alongTrack, now.along)).toBeGreaterThan(far(x, y) - 6e5);
      }
      before = now;
    }
  }
});

test('the order of the two geodesics changes nothing', () => {
  const draw = seeded(5);
  for (let k = 0; k < 200; k++) {
    const [first, second] = twoLines(draw, 0);
    const there = closestCrossing(first, second)!;
    const back = closestCrossing(second, first)!;
    const [p, q] = [first.Position(there[0]), first.Position(back[1])];
    const turn = Math.abs(Math.sin(((p.azi2! - second.Position(there[1]).azi2!) * Math.PI) / 180));
    expect(WGS84.Inverse(p.lat2!, p.lon2!, q.lat2!, q.lon2!).s12!).toBeLessThan(2e-8 / turn);
  }
});
