import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { EdgeFeet } from '../../src/geodesy/EdgeFeet';
import { Geodesic, WGS84 } from '../../src/geodesy/ellipsoid';
import { SegmentTree } from '../../src/route/SegmentTree';

/** Lines of short geodesic edges, wandering, standing still, turning back, about places that are hard for longitudes. */
const shortLine = fc
  .record({
    start: fc.constantFrom([5, 52], [179.9995, 12], [-179.999, -60], [20, 89.9999], [-70, -89.998], [0, 0], [100, 80]),
    steps: fc.array(
      fc.record({
        turn: fc.oneof(fc.constantFrom(0, 0, 180, 90), fc.double({ min: -180, max: 180, noNaN: true })),
        length: fc.oneof(fc.constantFrom(0, 5, 5, 5), fc.double({ min: 0.001, max: 400, noNaN: true })),
      }),
      { minLength: 1, maxLength: 120 },
    ),
  })
  .map(({ start, steps }) => {
    let [lon, lat]: readonly number[] = start;
    let azimuth = 40;
    const line = [[lon, lat]];
    for (const { turn, length } of steps) {
      const { lat2, lon2, azi2 } = WGS84.Direct(lat, lon, azimuth + turn, length, Geodesic.STANDARD);
      [lon, lat, azimuth] = [lon2!, lat2!, azi2!];
      line.push([lon, lat]);
    }
    return line;
  });

function columns(line: number[][]) {
  return { lon: Float64Array.from(line, ([lon]) => lon), lat: Float64Array.from(line, ([, lat]) => lat) };
}

function near([lon, lat]: number[], azimuth: number, distance: number) {
  const { lat2, lon2 } = WGS84.Direct(lat, lon, azimuth, distance, Geodesic.STANDARD);
  return [lon2!, lat2!];
}

const query = fc.record({
  vertex: fc.nat(),
  azimuth: fc.double({ min: 0, max: 360, noNaN: true }),
  away: fc.oneof(fc.constant(0), fc.double({ min: 0, max: 900, noNaN: true })),
});

describe('SegmentTree', () => {
  test('finds what a scan of every segment finds', () => {
    fc.assert(
      fc.property(shortLine, fc.array(query, { minLength: 5, maxLength: 5 }), (line, queries) => {
        const { lon, lat } = columns(line);
        const tree = new SegmentTree(lon, lat);
        const feet = new EdgeFeet(lon, lat);
        for (const { vertex, azimuth, away } of queries) {
          const [x, y] = near(line[vertex % line.length], azimuth, away);
          feet.moveTo(x, y);
          const distances = Array.from({ length: tree.size }, (_, segment) => feet.measure(segment));
          const least = Math.min(...distances);
          const found = tree.nearest(x, y);
          expect(Math.abs(tree.distance - least)).toBeLessThanOrEqual(2e-6);
          expect(Math.abs(tree.crossTrack)).toBe(tree.distance);
          // the first of those equally near, or the one that starts where it ends
          const first = distances.findIndex((distance) => distance <= least + 1e-6);
          expect(found).toBeGreaterThanOrEqual(first);
          expect(distances.slice(first, found + 1).every((distance) => distance <= least + 2e-6)).toBe(true);
          expect(tree.within(x, y, least + 7.3)).toEqual(
            distances.flatMap((distance, segment) => (distance <= least + 7.3 ? [segment] : [])),
          );
        }
      }),
      { seed: 1, numRuns: 300 },
    );
  });
});
