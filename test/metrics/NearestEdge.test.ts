import type { Position } from 'geojson';
import { expect, test } from 'vitest';
import { WGS84 } from '../../src/geodesy/ellipsoid';
import { positionOf } from '../../src/index/surfaceDistance';
import { verticesOf } from '../../src/index/Vertices';
import { MAX_EDGE } from '../../src/metrics/Curve';
import { convexPiece } from '../../src/metrics/convexPiece';
import { curveOf } from '../../src/metrics/curveOf';
import { FreeInterval } from '../../src/metrics/FreeInterval';
import { NearestEdge } from '../../src/metrics/NearestEdge';
import { lineOf } from '../../src/model';
import { exactToEdge } from '../support/denseHausdorff';
import { seeded } from '../support/randomLine';

const go = ([lon, lat]: Position, azimuth: number, metres: number): Position => {
  const { lon2, lat2 } = WGS84.Direct(lat, lon, azimuth, metres);
  return [lon2!, lat2!];
};

/** An edge, as often as not of the longest that is not cut, and a point so far off it: beside it, or askew beyond its ends. */
function placed(random: () => number, distance: number) {
  const from: Position = [random() * 360 - 180, (Math.asin(random() * 2 - 1) * 180) / Math.PI];
  const azimuth = random() * 360;
  const length = MAX_EDGE * (random() < 0.5 ? 1 - 1e-6 : random());
  const to = go(from, azimuth, length);
  const side = random() < 0.8 ? 90 : random() * 360;
  const along = (random() * 1.2 - 0.1) * length;
  return { from, to, point: go(go(from, azimuth, along), azimuth + side, distance) };
}

test.each([
  [0, 1e-7],
  [0.01, 1e-7],
  [1, 1e-7],
  [30, 1e-7],
  [300, 1e-7],
  [999, 1e-7],
  [1010, 1e-7],
  [4000, 1e-7],
  [20_000, 1e-7],
  [99_000, 5e-7],
  [101_000, 5e-7],
  [1_000_000, 5e-7],
  [6_000_000, 5e-7],
  [9_900_000, 5e-7],
])('the distance to edges up to the longest, %d m off, to %d m', (distance, tolerance) => {
  const random = seeded(95);
  for (let round = 0; round < 60; round++) {
    const { from, to, point } = placed(random, distance);
    const curve = curveOf([from, to], 'a', 'open');
    expect(curve.edges).toBe(1);
    const near = new NearestEdge(curve);
    const { x, y, z } = verticesOf(lineOf([point]));
    near.moveTo(x[0], y[0], z[0]);
    expect(Math.abs(Math.sqrt(near.measure(0)) - exactToEdge(point, from, to))).toBeLessThan(tolerance);
  }
});

test.each([0.5, 30, 300, 999, 1001, 30_000, 2_000_000])(
  'the part of an edge within %d m ends where that is the distance, on the longest used for it',
  (distance) => {
    const random = seeded(96);
    const longest = Math.min(MAX_EDGE, convexPiece(distance));
    let ends = 0;
    for (let round = 0; round < 100; round++) {
      const from: Position = [random() * 360 - 180, (Math.asin(random() * 2 - 1) * 180) / Math.PI];
      const azimuth = random() * 360;
      const point = go(go(from, azimuth, random() * longest), random() * 360, distance);
      const { vertices } = curveOf([from, go(from, azimuth, longest)], 'a', 'open');
      const free = new FreeInterval(distance, longest);
      free.measure(vertices, 0, verticesOf(lineOf([point])), 0);
      expect(free.low).toBeLessThanOrEqual(free.high + 1e-9);
      for (const fraction of [free.low, free.high]) {
        if (fraction === 0 || fraction === 1) continue;
        const place = new Float64Array(3);
        vertices.between(0, fraction, place);
        const [lon, lat] = positionOf(place[0], place[1], place[2]);
        const there = WGS84.Inverse(point[1], point[0], lat, lon).s12!;
        expect(Math.abs(there - distance)).toBeLessThan(2e-7);
        ends++;
      }
    }
    expect(ends).toBeGreaterThan(90);
  },
);

test('a short edge rises from its chord to the geodesic', () => {
  const random = seeded(97);
  for (let round = 0; round < 100; round++) {
    const from: Position = [random() * 360 - 180, (Math.asin(random() * 2 - 1) * 180) / Math.PI];
    const to = go(from, random() * 360, MAX_EDGE);
    const place = new Float64Array(3);
    verticesOf(lineOf([from, to])).between(0, random(), place);
    expect(exactToEdge(positionOf(place[0], place[1], place[2]), from, to)).toBeLessThan(2e-8);
  }
});
