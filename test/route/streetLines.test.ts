/**
 * Every street line of one city: © OpenStreetMap contributors, ODbL 1.0, as shipped with the npm package geojson-path-finder
 * 2.1.0. Read where it is installed; nothing of it is kept here.
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { densify, inverse, lineLength, localPlane } from 'datumline/geodesy';
import { offsetRoute, type Route, routeBuilder, routeFromLine } from 'datumline/route';
import type { FeatureCollection, LineString, Position } from 'geojson';
import { expect, test } from 'vitest';
import { planeCrossings } from '../support/planeCrossings';

const entry = createRequire(import.meta.url).resolve('geojson-path-finder');
const folder = entry.slice(0, entry.lastIndexOf('geojson-path-finder') + 'geojson-path-finder'.length);
const network: FeatureCollection = JSON.parse(readFileSync(join(folder, 'test/large-network.json'), 'utf8'));
const streets = network.features
  .filter(({ geometry }) => geometry.type === 'LineString')
  .map(({ geometry }) => (geometry as LineString).coordinates);

const METRES = 4;

const positionsOf = ({ lon, lat }: Route): Position[] => Array.from(lon, (x, i) => [x, lat[i]]);
const plain = { maxSpacing: 1e6 };

test('there are 20 120 street lines', () => {
  expect(dirname(folder)).toContain('node_modules');
  expect(streets.length).toBe(20120);
});

test('every street line, followed and densified, keeps its vertices and its metres', () => {
  let lost = 0;
  for (const line of streets) {
    const route = routeFromLine(line);
    const length = lineLength(line);
    lost = Math.max(
      lost,
      Math.abs(route.length - length) / Math.max(length, 1),
      lineLength(densify(line, { maxSpacing: 5 })) - length,
    );
    if (!route.alongTrack.every((at, i) => i === 0 || at > route.alongTrack[i - 1])) lost = Number.NaN;
  }
  // rounding of positions to the double nearest, 1e-9 m a vertex
  expect(lost).toBeLessThan(1e-6);
});

test('beside every street line runs a line 4 m away, without a NaN, a loop or a lost metre', () => {
  const faults: string[] = [];
  let wide = 0;
  streets.forEach((line, i) => {
    const side = i % 2 === 0 ? 'left' : 'right';
    const source = routeFromLine(line, plain);
    const beside = offsetRoute(source, { side, metres: METRES });
    const points = positionsOf(beside);
    if (points.some(([lon, lat]) => !Number.isFinite(lon) || !Number.isFinite(lat))) faults.push(`${i} NaN`);
    const trimmed = beside.warnings.some(({ reason }) => reason === 'wide-offset');
    if (trimmed) wide++;
    // A crossing is a loop left over when all that it encloses is too near the street.
    const plane = localPlane(line[0]);
    const onPlane = points.map((position) => plane.toPlane(position));
    const street = line.map((position) => plane.toPlane(position));
    const distances = onPlane.map((point) => distanceTo(point, street));
    const asked = trimmed ? Math.max(...distances) : METRES;
    if (distances.some((distance) => distance > METRES + 1e-3)) faults.push(`${i} too far`);
    for (const [a, b] of planeCrossings(onPlane)) {
      if (distances.slice(a + 1, b + 1).every((distance) => distance < asked - 1e-3)) faults.push(`${i} loop`);
    }
    // What the corners take and give is known where nothing had to be cut.
    if (!trimmed && Math.abs(beside.length - lengthBeside(source, side === 'right' ? 1 : -1)) > 1e-3 * line.length) {
      faults.push(`${i} lost ${beside.length - lengthBeside(source, side === 'right' ? 1 : -1)}`);
    }
  });
  expect(faults).toEqual([]);
  // one in 40 has bends tighter than 4 m; more would mean that lines are cut which need not be
  expect(wide / streets.length).toBeLessThan(0.025);
});

test('beside every street line a route is built', () => {
  let vertices = 0;
  for (const [i, line] of streets.entries()) {
    const side = i % 2 === 0 ? 'right' : 'left';
    const route = routeBuilder({ cornerRadius: 3 }).follow(line, { side, metres: 3 }).build();
    for (let k = 0; k < route.lon.length; k++) {
      if (!(Number.isFinite(route.lon[k]) && Number.isFinite(route.lat[k]) && Number.isFinite(route.alongTrack[k]))) {
        throw new Error(`street ${i}, vertex ${k} is not a number`);
      }
    }
    vertices += route.lon.length;
  }
  expect(vertices).toBeGreaterThan(400_000);
});

/** Length beside a line by the corner rules: an arc round each outside corner, two tangents less at each inside one. */
function lengthBeside({ lon, lat, length }: Route, right: number): number {
  let total = length;
  const edges = Array.from({ length: lon.length - 1 }, (_, i) => inverse([lon[i], lat[i]], [lon[i + 1], lat[i + 1]]));
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
  const gap = inverse([lon[0], lat[0]], [lon[last + 1], lat[last + 1]]).distance;
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
