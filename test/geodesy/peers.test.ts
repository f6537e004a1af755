import { lineString, nearestPointOnLine, length as turfLength, point as turfPoint } from '@turf/turf';
import CheapRuler from 'cheap-ruler';
import { direct, inverse, lineLength, pointToSegment } from 'datumline/geodesy';
import type { Position } from 'geojson';
import { expect, test } from 'vitest';
import { SEMI_MAJOR, WGS84 } from '../../src/geodesy/ellipsoid';
import { seeded, wanderingLine } from '../support/randomLine';

/** General-purpose libraries know no ellipsoid: they must agree within the error that their own model has, and no better. */

/** The mean radius of the ellipsoid, (2a + b)/3, on which Turf computes. */
const TURF_RADIUS = 6371008.8;

/** Radii of curvature range from b²/a, along the equator's meridians, to a²/b, at the poles. */
const b = SEMI_MAJOR * (1 - WGS84.f);
const [LEAST, MOST] = [b ** 2 / SEMI_MAJOR, SEMI_MAJOR ** 2 / b];

/** Edges and points up to `away` metres from their starts, latitudes to ±`lat`. */
function* trials(seed: number, { count, lat, edge, away }: { count: number; lat: number; edge: number; away: number }) {
  const draw = seeded(seed);
  for (let k = 0; k < count; k++) {
    const from = [draw() * 340 - 170, (2 * draw() - 1) * lat]; // neither library joins longitudes across ±180°
    const length = edge * (0.1 + 0.9 * draw());
    const to = direct(from, draw() * 360, length).position;
    const point = direct(from, draw() * 360, away * draw()).position;
    yield { from, to, point, length };
  }
}

test.each([
  { edge: 500, away: 1000 },
  { edge: 10_000, away: 20_000 },
])('Turf, a sphere: edges to $edge m, points to $away m', ({ edge, away }) => {
  let widest = 0;
  for (const { from, to, point, length } of trials(edge, { count: 400, lat: 85, edge, away })) {
    const ours = pointToSegment(point, from, to).distance;
    const turf = nearestPointOnLine(lineString([from, to]), turfPoint(point), { units: 'meters' });
    // Every way on the sphere is to that on the ellipsoid as its radius to one of the radii of curvature. The geodesic and
    // the great circle of one edge lie apart by a share e² of how far either bulges, L²/8R.
    const bulge =
      ((length * length) / (8 * LEAST)) * 0.0067 * Math.max(1, Math.tan((Math.abs(from[1]) + 1) * (Math.PI / 180)));
    expect(turf.properties.pointDistance).toBeGreaterThan((ours - bulge) * (TURF_RADIUS / MOST));
    expect(turf.properties.pointDistance).toBeLessThan((ours + bulge) * (TURF_RADIUS / LEAST));
    widest = Math.max(widest, Math.abs(turf.properties.pointDistance / ours - 1));
  }
  expect(widest).toBeGreaterThan(0.003); // the error is theirs, and real
});

test.each([
  { edge: 500, away: 1000 },
  { edge: 5000, away: 10_000 },
])('cheap-ruler, a plane of one latitude: edges to $edge m, points to $away m', ({ edge, away }) => {
  let widest = 0;
  for (const { from, to, point, length } of trials(edge + 1, { count: 400, lat: 75, edge, away })) {
    const ours = pointToSegment(point, from, to).distance;
    const ruler = new CheapRuler(from[1], 'meters').pointToSegmentDistance(pair(point), pair(from), pair(to));
    // With the reach of the three places from the ruler's latitude, r, the parallels are too long or short by a share
    // tan φ r/M + r²/2M², over up to r; the meridians by 3e²/2 r/M; and a straight line in degrees bulges from the
    // geodesic by L²/8 tan φ/N. To second order, hence the 2 % of room.
    const reach = Math.max(length, inverse(from, point).distance);
    const tan = Math.tan((Math.abs(from[1]) * Math.PI) / 180);
    const share = (reach / LEAST) * (tan + 0.01) + (reach / LEAST) ** 2 * (1 + tan * tan);
    const bound = 1.02 * (share * reach + ((length * length) / 8) * (tan / LEAST)) + 1e-8;
    expect(Math.abs(ruler - ours)).toBeLessThan(bound);
    widest = Math.max(widest, Math.abs(ruler - ours) / bound);
  }
  expect(widest).toBeGreaterThan(0.3); // the bound is near what a plane really does
});

test('lengths: a sphere within ½ %, a plane within the latitudes that the line crosses', () => {
  const line = wanderingLine(seeded(7), { start: [5, 48], count: 2000, step: 50 });
  const ours = lineLength(line);
  const turf = turfLength(lineString(line), { units: 'meters' });
  expect(turf / ours).toBeGreaterThan(TURF_RADIUS / MOST);
  expect(turf / ours).toBeLessThan(TURF_RADIUS / LEAST);
  expect(Math.abs(turf / ours - 1)).toBeGreaterThan(1e-4);
  const lats = line.map(([, lat]) => lat);
  const reach = (Math.max(...lats.map((lat) => Math.abs(lat - 48))) * Math.PI) / 180;
  const ruler = new CheapRuler(48, 'meters').lineDistance(line.map(pair));
  expect(Math.abs(ruler / ours - 1)).toBeLessThan(reach * (Math.tan((48 * Math.PI) / 180) + 0.01 + reach));
});

function pair([lon, lat]: Position): [number, number] {
  return [lon, lat];
}
