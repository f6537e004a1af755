import { describe, expect, test } from 'vitest';
import { EdgeFeet, PLANE_REACH } from '../../src/geodesy/EdgeFeet';
import { Geodesic, WGS84 } from '../../src/geodesy/ellipsoid';
import { pointToSegment } from '../../src/geodesy/pointToSegment';
import { bruteFoot } from '../support/bruteFoot';
import { seeded } from '../support/randomLine';

type Place = readonly [lon: number, lat: number];

function measured(point: Place, from: Place, to: Place) {
  const feet = new EdgeFeet([from[0], to[0]], [from[1], to[1]]);
  feet.moveTo(point[0], point[1]);
  const returned = feet.measure(0);
  expect(returned).toBe(feet.distance);
  expect(Math.abs(feet.crossTrack)).toBe(feet.distance);
  return feet;
}

const away = (from: Place, azimuth: number, distance: number): Place => {
  const { lon2, lat2 } = WGS84.Direct(from[1], from[0], azimuth, distance);
  return [lon2!, lat2!];
};

interface Reach {
  readonly edge: readonly [least: number, most: number];
  readonly offset: readonly [least: number, most: number];
  readonly rounds: number;
}

/** Largest differences in metres from the exact foot: of the distance, and of the place on the edge. */
function largestErrors(seed: number, lat: number, { edge, offset, rounds }: Reach) {
  const draw = seeded(seed);
  const between = ([least, most]: readonly [number, number]) => least + (most - least) * draw();
  let distance = 0;
  let place = 0;
  for (let k = 0; k < rounds; k++) {
    const lon = draw() < 0.3 ? 179.999 : draw() * 360 - 180;
    const from: Place = [lon, Math.abs(lat) === 90 ? Math.sign(lat) * (90 - draw() * 0.01) : lat];
    const to = away(from, draw() * 360, between(edge));
    const line = WGS84.InverseLine(from[1], from[0], to[1], to[0]);
    const at = line.Position(line.s13 * (draw() * 1.4 - 0.2), Geodesic.STANDARD);
    const aside = draw() < 0.7 ? at.azi2! + (draw() < 0.5 ? 90 : -90) : draw() * 360;
    const point = away([at.lon2!, at.lat2!], aside, between(offset));
    const feet = measured(point, from, to);
    const exact = pointToSegment([...point], [...from], [...to]);
    distance = Math.max(distance, Math.abs(feet.distance - exact.distance));
    place = Math.max(place, Math.abs(feet.fraction * line.s13 - exact.alongTrack));
    if (exact.distance > 1e-6 && !exact.beyond) expect(Math.sign(feet.crossTrack)).toBe(Math.sign(exact.crossTrack));
  }
  return { distance, place };
}

describe('what the docs say', () => {
  test.each([0, 15, 45, 60, 75, 89, 90, -33, -90])('edges to 500 m, points to 1 km, at latitude %d', (lat) => {
    const errors = largestErrors(100 + lat, lat, { edge: [25, 500], offset: [0, 1000], rounds: 1500 });
    expect(errors.distance).toBeLessThan(2e-8);
    // most of it geographiclib's: 1e-9 m at the ends of 25 m turn the edge so that a foot 1 km off moves by 4e-8 m
    expect(errors.place).toBeLessThan(1e-7);
  });

  test.each([0, 45, 80, 90])('edges of 1 cm to 25 m, points to 1 km, at latitude %d', (lat) => {
    const errors = largestErrors(200 + lat, lat, { edge: [0.01, 25], offset: [0, 1000], rounds: 1500 });
    expect(errors.distance).toBeLessThan(2e-8);
    // The rounding of the ends by 3e-9 m each turns a short edge, for fast and exact foot alike: a foot 1 km off moves by
    // that much times 1 km over the edge, but never off the edge.
    for (const length of [0.1, 1, 5]) {
      const { place } = largestErrors(250 + lat, lat, { edge: [length, 25], offset: [0, 1000], rounds: 500 });
      expect(place).toBeLessThan(1e-7 + (2 * 3e-9 * 1000) / length);
    }
  });

  test.each([0, 30, 45, 60, 89.9, -90])('both ends just within the reach of the plane, at latitude %d', (lat) => {
    for (const [edge, offset] of [
      [100, PLANE_REACH - 200],
      [PLANE_REACH, PLANE_REACH / 2],
      [PLANE_REACH * 1.5, PLANE_REACH / 4],
    ]) {
      const errors = largestErrors(300 + lat, lat, { edge: [edge * 0.9, edge], offset: [0, offset], rounds: 600 });
      expect(errors.distance).toBeLessThan(1e-6);
      expect(errors.place).toBeLessThan(1e-6);
    }
  });

  test.each([0, 30, 45, 60, 89.9, -90])('an end out of reach: the exact foot, at latitude %d', (lat) => {
    for (const [edge, offset] of [
      [500, 2 * PLANE_REACH],
      [3 * PLANE_REACH, 1000],
      [1e6, 1e6],
    ]) {
      const errors = largestErrors(400 + lat, lat, {
        edge: [edge * 0.9, edge],
        offset: [offset * 0.9, offset],
        rounds: 100,
      });
      expect(errors.distance).toBeLessThan(1e-8);
      expect(errors.place).toBeLessThan(1e-6);
    }
  });

  test('the switch is where the docs put it: a step across it is seamless', () => {
    for (const lat of [0, 45, 89, 90]) {
      const from: Place = [12, lat];
      const to = away(from, 77, 400);
      const [inside, outside] = [-0.05, 0.05].map((step) => measured(away(from, 300, PLANE_REACH + step), from, to));
      expect(outside.distance - inside.distance).toBeGreaterThan(0.09);
      expect(outside.distance - inside.distance).toBeLessThan(0.11);
    }
  });

  test('an edge of no length has fraction 0 and counts right', () => {
    for (const offset of [0, 100, 1e5]) {
      const feet = measured(away([5, 52], 200, offset), [5, 52], [5, 52]);
      expect(feet.fraction).toBe(0);
      expect(feet.crossTrack).toBeCloseTo(offset, 8);
    }
  });

  test('on a vertex the distance is 0, never -0', () => {
    const feet = new EdgeFeet([5, 5.001, 5.002], [52, 52.001, 52]);
    feet.moveTo(5.001, 52.001);
    expect(feet.measure(1)).toBe(0);
    expect(feet.crossTrack).toBe(0);
    expect(feet.fraction).toBe(0);
    expect(feet.measure(0)).toBeLessThan(1e-8);
    expect(feet.fraction).toBeCloseTo(1, 9);
  });

  test('past an end the foot is the end', () => {
    const before = measured([4.99, 52], [5, 52], [5.001, 52]);
    expect(before.fraction).toBe(0);
    expect(before.distance).toBeCloseTo(WGS84.Inverse(52, 4.99, 52, 5).s12!, 7);
    expect(measured([5.01, 52], [5, 52], [5.001, 52]).fraction).toBe(1);
  });
});

test('brute force agrees, knowing nothing of planes', () => {
  const draw = seeded(21);
  for (let k = 0; k < 60; k++) {
    const from: Place = [draw() < 0.3 ? 179.9995 : draw() * 360 - 180, [0, 45, 89.9999, -90, 70, -20][k % 6]];
    const to = away(from, draw() * 360, 20 + 480 * draw());
    const point = away(from, draw() * 360, 1000 * draw());
    const feet = measured(point, from, to);
    const length = WGS84.Inverse(from[1], from[0], to[1], to[0]).s12!;
    const brute = bruteFoot([...point], [...from], [...to], { low: 0, high: length, samples: 20 });
    expect(Math.abs(feet.distance - brute.distance)).toBeLessThan(2e-8);
    if (feet.fraction > 0 && feet.fraction < 1) {
      expect(Math.abs(feet.fraction * length - brute.alongTrack)).toBeLessThan(2e-7);
    }
  }
});

test('longitudes in any turn are the same place', () => {
  const draw = seeded(22);
  for (let k = 0; k < 300; k++) {
    const from: Place = [179.9999, draw() * 180 - 90];
    const to = away(from, draw() * 360, 200);
    const point = away(from, draw() * 360, 500);
    const turned = ([lon, lat]: Place, turns: number): Place => [lon + 360 * turns, lat];
    const plain = measured(point, from, to);
    const other = measured(turned(point, 1), turned(from, -1), to);
    expect(Math.abs(other.crossTrack - plain.crossTrack)).toBeLessThan(2e-8);
    expect(Math.abs(other.fraction - plain.fraction) * 200).toBeLessThan(2e-8);
  }
});

test('never NaN: edges from pole to pole, round the globe, points anywhere', () => {
  const lons = [-180, -90, 0, 90, 180, 180, 45, 45, 45];
  const lats = [-90, 90, 0, 0, 0, 0, 89.99999, -89.99999, 0];
  const feet = new EdgeFeet(lons, lats);
  for (const lon of [-180, 0, 1e-9, 90, 179.9999, 540]) {
    for (const lat of [-90, -1e-9, 0, 45, 90]) {
      feet.moveTo(lon, lat);
      for (let edge = 0; edge + 1 < lons.length; edge++) {
        feet.measure(edge);
        expect(Number.isFinite(feet.distance + feet.fraction + feet.crossTrack)).toBe(true);
        expect(feet.fraction).toBeGreaterThanOrEqual(0);
        expect(feet.fraction).toBeLessThanOrEqual(1);
      }
    }
  }
});
