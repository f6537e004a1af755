import { direct, intersection, inverse, pointToGeodesic } from 'datumline/geodesy';
import type { Position } from 'geojson';
import { describe, expect, test } from 'vitest';
import { type GeodesicLine, WGS84 } from '../../src/geodesy/ellipsoid';
import { closestCrossing } from '../../src/geodesy/intersection';
import { crossingInSeconds, intersections } from '../published/baselgaMartinez2018';
import { intersectTool } from '../published/intersectTool';
import { section8 } from '../published/karney2013';
import { angleBetween, degrees, halfUnit } from '../support/printed';
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

  test('an edge so short that it lies on the other line as far as positions can tell: undefined, in either order', () => {
    const middle = [5, 52];
    const short = [-5e-3, 5e-3].map((along) => direct(middle, 33, along).position);
    const long = [-1e6, 1e6].map((along) => direct(middle, 33.0001, along).position);
    expect(intersection(short[0], short[1], long[0], long[1])).toBeUndefined();
    expect(intersection(long[0], long[1], short[0], short[1])).toBeUndefined();
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
    // half a printed unit, and the 15 nm to which geodesics of such lengths are good
    const tolerance = (text: string, metres: number) => halfUnit(text) + 15e-9 / metres;
    expect(Math.abs(found.position[1] - Number(crossing[0]))).toBeLessThan(tolerance(crossing[0], 111e3));
    expect(Math.abs(found.position[0] - Number(crossing[1]))).toBeLessThan(tolerance(crossing[1], 64e3));
    expect(Math.abs(found.alongFirst - Number(alongFirst))).toBeLessThan(tolerance(alongFirst, 1));
    expect(Math.abs(found.alongSecond - Number(alongSecond))).toBeLessThan(tolerance(alongSecond, 1));
  });

  test('Baselga & Martínez-Llario, case 3 in seconds', () => {
    const [, a, b, c, d] = intersections[2];
    const { position } = intersection(lonLat(a), lonLat(b), lonLat(c), lonLat(d))!;
    expect(Math.abs(position[1] - degrees(crossingInSeconds[0])) * 3600).toBeLessThan(halfUnit(crossingInSeconds[0]));
    expect(Math.abs(position[0] - degrees(crossingInSeconds[1])) * 3600).toBeLessThan(halfUnit(crossingInSeconds[1]));
  });

  test('Karney 2013, section 8: intersection', () => {
    const [a, b, c, d] = [section8.a, section8.b, section8.c, section8.d].map(lonLat);
    const { position, alongFirst, alongSecond } = intersection(a, b, c, d)!;
    // printed to 1e-13° and 1e-14°; the rounding of a position is 3e-14°
    expect(Math.abs(position[1] - section8.crossing[0])).toBeLessThan(8e-14);
    expect(Math.abs(position[0] - section8.crossing[1])).toBeLessThan(3e-14);
    // GeodesicExact in long double; 15 nm is the accuracy of geodesics so long
    expect(Math.abs(alongFirst - 3454490.281725286)).toBeLessThan(15e-9);
    expect(Math.abs(alongSecond - 1115509.640105844)).toBeLessThan(15e-9);
  });

  test.each(intersectTool)(
    'IntersectTool $first × $second, printed to 1 m and 1e-5°',
    ({ first, second, crossings }) => {
      const edge = ([lat, lon, azimuth]: readonly [number, number, number], from: number) =>
        [from - 5e4, from + 5e4].map((along) => direct([lon, lat], azimuth, along).position);
      // edges of 100 km with their middles at the starts, then at each further crossing
      for (const [i, { alongFirst, alongSecond, at }] of crossings.entries()) {
        const [x, y] = i === 0 ? [0, 0] : [alongFirst, alongSecond];
        const [[a, b], [c, d]] = [edge(first, x), edge(second, y)];
        const found = intersection(a, b, c, d)!;
        expect(Math.abs(x + found.alongFirst - 5e4 - alongFirst)).toBeLessThan(0.5);
        expect(Math.abs(y + found.alongSecond - 5e4 - alongSecond)).toBeLessThan(0.5);
        if (!at) continue;
        expect(Math.abs(found.position[1] - at[0])).toBeLessThan(5e-6);
        expect(angleBetween(found.position[0], at[1])).toBeLessThan(5e-6);
      }
    },
  );
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

const NEVER_PARALLEL = 1e-13;

/**
 * Two edges that make it hard: 1 cm to 10 000 km long, from a pole, the equator or anywhere, along meridians, the equator or
 * anywhere; the second starts on the first, beside it, at its end or round the globe, and turns off by an angle down to
 * `least`, in degrees, or runs against it.
 */
function awkwardLines(draw: () => number, least: number) {
  const lat = [0, 90, -90, 1e-9, draw() * 180 - 90][Math.floor(draw() * 5)];
  const azimuth = [0, 90, 180, draw() * 360][Math.floor(draw() * 4)];
  const first = WGS84.DirectLine(lat, draw() * 360 - 180, azimuth, 10 ** (9 * draw() - 2));
  const along = [0, (draw() - 0.5) * 4e7, (draw() - 0.5) * 1e4, first.s13][Math.floor(draw() * 4)];
  const { lat2, lon2, azi2 } = first.Position(along);
  const aside = draw() < 0.4 ? 0 : 10 ** (9 * draw() - 4);
  const start = WGS84.Direct(lat2!, lon2!, azi2! + 90, aside);
  const turn = 10 ** (Math.log10(least) * draw()) * (draw() < 0.5 ? 45 : -45);
  const back = draw() < 0.5 ? 180 : 0;
  return [first, WGS84.DirectLine(start.lat2!, start.lon2!, start.azi2! - 90 + turn + back, 10 ** (9 * draw() - 2))];
}

const gap = (first: GeodesicLine, second: GeodesicLine, crossing: readonly number[]) => {
  const [p, q] = [first.Position(crossing[0]), second.Position(crossing[1])];
  return WGS84.Inverse(p.lat2!, p.lon2!, q.lat2!, q.lon2!).s12!;
};

test.each([0, 1, 2, 3])('always found, and both lines are there: kind %d', (kind) => {
  const draw = seeded(40 + kind);
  for (let k = 0; k < 2000; k++) {
    const [first, second] = twoLines(draw, kind);
    const crossing = closestCrossing(first, second);
    // edges of 1 cm can lie on the other line as far as positions can tell
    if (!crossing) expect(liesAlong(first, second) || liesAlong(second, first), `round ${k}`).toBe(true);
    else expect(gap(first, second, crossing)).toBeLessThan(3e-8);
  }
});

/** Whether positions, rounded by 3e-9 m, and geodesics, good to 15 nm, leave an edge on a line all along. */
function liesAlong(line: GeodesicLine, edge: GeodesicLine): boolean {
  const start = [line.lon1, line.lat1];
  const ahead = direct(start, line.azi1, 1e6).position;
  return [0, 0.25, 0.5, 0.75, 1].every((share) => {
    const { lat2, lon2 } = edge.Position(share * edge.s13);
    return pointToGeodesic([lon2!, lat2!], start, ahead).distance < 3e-8;
  });
}

test('a search needs no bracket behind it: all but coincident lines, shared ends, poles, far sides', () => {
  const draw = seeded(71);
  let undecided = 0;
  for (let k = 0; k < 10_000; k++) {
    const [first, second] = awkwardLines(draw, NEVER_PARALLEL);
    const crossing = closestCrossing(first, second);
    if (crossing) expect(gap(first, second, crossing), `round ${k}`).toBeLessThan(3e-8);
    else {
      undecided++;
      expect(liesAlong(first, second) || liesAlong(second, first), `round ${k}`).toBe(true);
    }
  }
  expect(undecided).toBeGreaterThan(100);
});

test('lines within 1e-13 rad of each other: undefined, or a place where both are', () => {
  const draw = seeded(72);
  for (let k = 0; k < 3000; k++) {
    const [first, second] = awkwardLines(draw, 1e-18);
    const crossing = closestCrossing(first, second);
    if (crossing) expect(gap(first, second, crossing), `round ${k}`).toBeLessThan(1e-7);
  }
});

/**
 * Every crossing within a turn either way of the second edge's middle, by nothing but signs: where the second line changes
 * from one side of the first to the other, halved until it is sharp.
 */
function bracketedCrossings(first: GeodesicLine, second: GeodesicLine): [number, number][] {
  const start = [first.lon1, first.lat1];
  const { position: ahead } = direct(start, first.azi1, 1e6);
  const seen = (along: number) => {
    const { lat2, lon2 } = second.Position(along);
    return pointToGeodesic([lon2!, lat2!], start, ahead);
  };
  const turn = 2 * Math.PI * WGS84.a;
  const samples = 160;
  const crossings: [number, number][] = [];
  for (let n = 0; n < samples; n++) {
    let low = second.s13 / 2 + turn * ((2 * n) / samples - 1);
    let high = low + (2 * turn) / samples;
    const side = Math.sign(seen(low).crossTrack);
    if (side === Math.sign(seen(high).crossTrack)) continue;
    for (let i = 0; i < 60; i++) {
      const middle = (low + high) / 2;
      if (Math.sign(seen(middle).crossTrack) === side) low = middle;
      else high = middle;
    }
    const { crossTrack, alongTrack } = seen(low);
    if (Math.abs(crossTrack) < 1) crossings.push([alongTrack, low]); // else it went round a pole of the first
  }
  return crossings;
}

test('no crossing is closer, and it is one of those that signs bracket', () => {
  const draw = seeded(99);
  for (let k = 0; k < 30; k++) {
    const [first, second] = k % 3 ? twoLines(draw, k % 2) : awkwardLines(draw, 0.01);
    const found = closestCrossing(first, second)!;
    const far = ([x, y]: readonly number[]) => Math.abs(x - first.s13 / 2) + Math.abs(y - second.s13 / 2);
    const turn = Math.abs(first.Position(found[0]).azi2! - second.Position(found[1]).azi2!);
    const sine = Math.abs(Math.sin((turn * Math.PI) / 180));
    const brackets = bracketedCrossings(first, second);
    for (const other of brackets) expect(far(other)).toBeGreaterThan(far(found) - 1e-7 / sine);
    // 15 nm across a line is as much over the sine along it
    const nearest = Math.min(...brackets.map(([x, y]) => Math.abs(x - found[0]) + Math.abs(y - found[1])));
    expect(nearest).toBeLessThan(1e-7 / sine);
  }
});

test('shifting every longitude changes nothing, ±180° included', () => {
  const draw = seeded(6);
  for (let k = 0; k < 300; k++) {
    const anywhere = () => [draw() * 360 - 180, (Math.asin(2 * draw() - 1) * 180) / Math.PI];
    const [a, c] = [anywhere(), anywhere()];
    const [b, d] = [a, c].map((start) => direct(start, draw() * 360, 1e6 * (1 + draw())).position);
    const shift = Math.floor(draw() * 361) - 180;
    const moved = (place: Position) => [place[0] + shift, place[1]];
    const there = intersection(a, b, c, d)!;
    const shifted = intersection(moved(a), moved(b), moved(c), moved(d))!;
    const sine = Math.abs(Math.sin(crossingAngle(there.position, [a, b], [c, d])));
    // longitudes are rounded by up to 3.2e-9 m anew, which turns lines of 1000 km about, see pointToGeodesic.test.ts
    expect(Math.abs(shifted.alongFirst - there.alongFirst)).toBeLessThan((2 * 15 * 3.2e-9 + 2 * 15e-9) / sine);
    expect(inverse(moved(there.position), shifted.position).distance).toBeLessThan(
      (2 * 15 * 3.2e-9 + 2 * 15e-9) / sine,
    );
  }
});

/** Radians between two lines where they cross. */
function crossingAngle(at: Position, [a, b]: Position[], [c, d]: Position[]): number {
  const heading = (from: Position, to: Position) => {
    const { alongTrack } = pointToGeodesic(at, from, to);
    const { initialAzimuth } = inverse(from, to);
    return direct(from, initialAzimuth, alongTrack).finalAzimuth;
  };
  return ((heading(a, b) - heading(c, d)) * Math.PI) / 180;
}

test('the order of the two geodesics changes nothing', () => {
  const draw = seeded(5);
  for (let k = 0; k < 600; k++) {
    const [first, second] = twoLines(draw, [0, 0, 3][k % 3]);
    const there = closestCrossing(first, second);
    const back = closestCrossing(second, first);
    expect(back === undefined).toBe(there === undefined);
    if (!there || !back) continue;
    const [p, q] = [first.Position(there[0]), first.Position(back[1])];
    const turn = Math.abs(Math.sin(((p.azi2! - second.Position(there[1]).azi2!) * Math.PI) / 180));
    expect(WGS84.Inverse(p.lat2!, p.lon2!, q.lat2!, q.lon2!).s12!).toBeLessThan(2e-8 / turn);
  }
});
