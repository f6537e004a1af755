/**
 * Every street line of one city: © OpenStreetMap contributors, ODbL 1.0, as shipped with the npm package geojson-path-finder
 * 2.1.0. Read where it is installed; nothing of it is kept here.
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { densify, inverse, lineLength, localPlane } from 'datumline/geodesy';
import { routeBuilder, routeFromLine } from 'datumline/route';
import type { FeatureCollection, LineString, Position } from 'geojson';
import { expect, test } from 'vitest';
import { offsetLine } from '../../src/route/offsetLine';
import { planeCrossings } from '../support/planeCrossings';

const entry = createRequire(import.meta.url).resolve('geojson-path-finder');
const folder = entry.slice(0, entry.lastIndexOf('geojson-path-finder') + 'geojson-path-finder'.length);
const network: FeatureCollection = JSON.parse(readFileSync(join(folder, 'test/large-network.json'), 'utf8'));
const streets = network.features
  .filter(({ geometry }) => geometry.type === 'LineString')
  .map(({ geometry }) => (geometry as LineString).coordinates);

const METRES = 4;

/** Milliseconds for 20 120 lines on a busy machine; some 6 s of work each. */
const TIMEOUT = 300_000;

const sideOf = (i: number) => (i % 2 === 0 ? 'left' : 'right');

test('there are 20 120 street lines', () => {
  expect(dirname(folder)).toContain('node_modules');
  expect(streets.length).toBe(20120);
});

test(
  'every street line, followed and densified, keeps its vertices and its metres',
  () => {
    let lost = 0;
    for (const line of streets) {
      const route = routeFromLine(line, { maxSpacing: 10 });
      const length = lineLength(line);
      lost = Math.max(
        lost,
        Math.abs(route.length - length) / Math.max(length, 1),
        lineLength(densify(line, { maxSpacing: 10 })) - length,
      );
      if (!route.alongTrack.every((at, i) => i === 0 || at > route.alongTrack[i - 1])) lost = Number.NaN;
    }
    // rounding of positions to the double nearest, 1e-9 m a vertex
    expect(lost).toBeLessThan(1e-6);
  },
  TIMEOUT,
);

test.each([4, 12])(
  'beside every street line runs a line %i m away, without a NaN, a loop or a lost metre',
  (metres) => {
    const faults: string[] = [];
    let wide = 0;
    streets.forEach((line, i) => {
      const beside = offsetLine(line, sideOf(i), metres);
      const { vertices, metres: asked } = beside;
      if (vertices.some(([lon, lat]) => !Number.isFinite(lon) || !Number.isFinite(lat))) faults.push(`${i} NaN`);
      if (beside.wide.length > 0) wide++;
      const plane = localPlane(line[0]);
      const onPlane = vertices.map((position) => plane.toPlane(position));
      const street = line.map((position) => plane.toPlane(position));
      const distances = onPlane.map((point) => distanceTo(point, street));
      if (distances.some((distance) => distance > asked + 1e-3)) faults.push(`${i} too far`);
      // A crossing is a loop left over when all that it encloses is too near the street.
      for (const [a, b] of planeCrossings(onPlane)) {
        if (distances.slice(a + 1, b + 1).every((distance) => distance < asked - 1e-3)) faults.push(`${i} loop`);
      }
      // What the corners take and give is known where nothing had to be cut.
      if (metres !== METRES || beside.wide.length > 0) return;
      const lost = lineLength(vertices) - lengthBeside(line, sideOf(i) === 'right' ? 1 : -1);
      if (!(Math.abs(lost) <= 1e-3 * line.length)) faults.push(`${i} lost ${lost}`);
    });
    expect(faults).toEqual([]);
    // one in 40 has bends tighter than 4 m, one in 9 tighter than 12 m; more would mean that lines are cut which need not be
    expect(wide / streets.length).toBeLessThan(metres === 4 ? 0.025 : 0.12);
  },
  TIMEOUT,
);

test(
  'beside every street line a route is built',
  () => {
    let vertices = 0;
    for (const [i, line] of streets.entries()) {
      const side = i % 2 === 0 ? 'right' : 'left';
      const route = routeBuilder({ cornerRadius: 3, maxSpacing: 25 }).follow(line, { side, metres: 3 }).build();
      for (let k = 0; k < route.lon.length; k++) {
        if (!(Number.isFinite(route.lon[k]) && Number.isFinite(route.lat[k]) && Number.isFinite(route.alongTrack[k]))) {
          throw new Error(`street ${i}, vertex ${k} is not a number`);
        }
      }
      vertices += route.lon.length;
    }
    expect(vertices).toBeGreaterThan(200_000);
  },
  TIMEOUT,
);

/** Length beside a line by the corner rules: an arc round each outside corner, two tangents less at each inside one. */
function lengthBeside(line: readonly Position[], right: number): number {
  const edges = line.slice(1).map((to, i) => inverse(line[i], to));
  let total = edges.reduce((sum, { distance }) => sum + distance, 0);
  const last = edges.length - 1;
  const turn = (a: number, b: number) => {
    const degrees = ((((edges[b].initialAzimuth - edges[a].finalAzimuth + 540) % 360) + 360) % 360) - 180;
    return degrees;
  };
  const corner = (degrees: number) => {
    const radians = (degrees * Math.PI) / 180;
    if (right * radians <= 0 || Math.abs(degrees) >= 179)
      return METRES * (right * radians > 0 ? 2 * Math.PI - Math.abs(radians) : Math.abs(radians));
    return -2 * METRES * Math.tan(Math.abs(radians) / 2);
  };
  for (let i = 1; i <= last; i++) total += corner(turn(i - 1, i));
  const gap = inverse(line[0], line[last + 1]).distance;
  if (gap < 0.05 && Math.abs(turn(last, 0)) < 150) total += corner(turn(last, 0));
  return total;
}

function distanceTo([x, y]: readonly [number, number], line: readonly (readonly [number, number])[]): number {
  let best = Number.POSITIVE_INFINITY;
  for (let i = 0; i + 1 < line.length; i++) {
    const [[ax, ay], [bx, by]] = [line[i], line[i + 1]];
    const length2 = (bx - ax) ** 2 + (by - ay) ** 2;
    const t = length2 === 0 ? 0 : Math.min(Math.max(((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / length2, 0), 1);
    best = Math.min(best, Math.hypot(x - ax - t * (bx - ax), y - ay - t * (by - ay)));
  }
  return best;
}
