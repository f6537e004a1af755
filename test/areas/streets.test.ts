/**
 * Every street line of one city as a roadway 8 m wide: © OpenStreetMap contributors, ODbL 1.0, as shipped with the npm package
 * geojson-path-finder 2.1.0. Read where it is installed; nothing of it is kept here.
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import type { FeatureCollection, LineString, Polygon, Position } from 'geojson';
import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import GeoJSONReader from 'jsts/org/locationtech/jts/io/GeoJSONReader.js';
import GeoJSONWriter from 'jsts/org/locationtech/jts/io/GeoJSONWriter.js';
import BufferOp from 'jsts/org/locationtech/jts/operation/buffer/BufferOp.js';
import OverlayOp from 'jsts/org/locationtech/jts/operation/overlay/OverlayOp.js';
import { expect, test } from 'vitest';
import { AreaIndex, checkAreas, degreeMetres, Region, walkLine } from '../../src/areas';
import { seeded } from '../support/randomLine';

const entry = createRequire(import.meta.url).resolve('geojson-path-finder');
const folder = entry.slice(0, entry.lastIndexOf('geojson-path-finder') + 'geojson-path-finder'.length);
const network: FeatureCollection = JSON.parse(readFileSync(join(folder, 'test/large-network.json'), 'utf8'));
const streets = network.features
  .filter(({ geometry }) => geometry.type === 'LineString')
  .map(({ geometry }) => (geometry as LineString).coordinates.map(([lon, lat]): Position => [lon, lat]));

const HALF_WIDTH = 4;

interface Geometry {
  getLength(): number;
}
const reader = new GeoJSONReader(new GeometryFactory());
const writer = new GeoJSONWriter();
const jts = (geometry: object): Geometry => reader.read(geometry as never) as unknown as Geometry;
const operations = OverlayOp as unknown as Record<'intersection', (a: Geometry, b: Geometry) => Geometry>;
const { bufferOp } = BufferOp as unknown as { bufferOp(line: Geometry, metres: number, quadrant: number): Geometry };

/** Metres in a plane in which what is straight in degrees stays straight, as jsts has it. */
const [west, south] = streets[0][0];
const scale = degreeMetres(south);
const toPlane = ([lon, lat]: Position): Position => [(lon - west) * scale.east, (lat - south) * scale.north];
const toDegrees = ([x, y]: Position): Position => [west + x / scale.east, south + y / scale.north];

const planeRoads = streets.map((line) =>
  bufferOp(jts({ type: 'LineString', coordinates: line.map(toPlane) }), HALF_WIDTH, 4),
);
const areas = planeRoads.map((road) => {
  const { coordinates } = writer.write(road as never) as unknown as Polygon;
  const geometry: Polygon = { type: 'Polygon', coordinates: coordinates.map((ring) => ring.map(toDegrees)) };
  return { name: 'roadway', kind: 'allowed' as const, geometry };
});
const region = new Region(new AreaIndex(checkAreas(areas, 'areas'), west));

/** Shares of a line's edges inside, in metres of the plane. */
function metresInside(line: readonly Position[]): number {
  const plane = line.map(toPlane);
  const walked = walkLine(
    region,
    line.map(([lon]) => lon),
    line.map(([, lat]) => lat),
    line.slice(1).map((_, i) => i + 1),
  );
  return walked.reduce((sum, { vertex, from, to, standing }) => {
    const [a, b] = [plane[vertex - 1], plane[vertex]];
    return standing === 'inside' ? sum + (to - from) * Math.hypot(b[0] - a[0], b[1] - a[1]) : sum;
  }, 0);
}

/** Metres along a leg of a place on it. */
function along([[ax, ay], [bx, by]]: readonly Position[], [x, y]: Position): number {
  return ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / Math.hypot(bx - ax, by - ay);
}

/** What stretches cover, each metre once. */
function joinedLength(stretches: readonly number[][]): number {
  let [sum, end] = [0, -Infinity];
  for (const [from, to] of [...stretches].sort((a, b) => a[0] - b[0])) {
    sum += Math.max(0, to - Math.max(from, end));
    end = Math.max(end, to);
  }
  return sum;
}

test('every street lies on the roadways, all of it: where they meet there is no edge', () => {
  let lost = 0;
  for (const line of streets) {
    const length = jts({ type: 'LineString', coordinates: line.map(toPlane) }).getLength();
    lost = Math.max(lost, length - metresInside(line));
  }
  expect(lost).toBeLessThan(1e-6);
}, 120_000);

test('lines across the city are on the roadways for as many metres as jsts says', () => {
  const random = seeded(7);
  const pick = () => streets[Math.floor(random() * streets.length)][0];
  for (let k = 0; k < 60; k++) {
    const from = toPlane(pick());
    const angle = 2 * Math.PI * random();
    // legs of 25 m: the geodesic lies 7 µm off the line that is straight in degrees
    const line = Array.from(
      { length: 21 },
      (_, i): Position => [from[0] + 25 * i * Math.cos(angle), from[1] + 25 * i * Math.sin(angle)],
    );
    const positions = line.map(toDegrees);
    const [xs, ys] = [positions.map(([x]) => x), positions.map(([, y]) => y)];
    const near = region.index.polygonsIn({
      ...{ minX: Math.min(...xs), minY: Math.min(...ys), maxX: Math.max(...xs), maxY: Math.max(...ys) },
    });
    let theirs = 0;
    for (let i = 1; i < line.length; i++) {
      const leg = [line[i - 1], line[i]];
      const pieces = near.flatMap((polygon) => {
        const found = operations.intersection(jts({ type: 'LineString', coordinates: leg }), planeRoads[polygon]);
        const { type, coordinates } = writer.write(found as never) as unknown as { type: string; coordinates: unknown };
        const lines = (
          type === 'LineString' ? [coordinates] : type === 'MultiLineString' ? coordinates : []
        ) as Position[][];
        return lines.map((one) => one.map((place) => along(leg, place)).sort((a, b) => a - b));
      });
      theirs += joinedLength(
        pieces.filter((piece) => piece.length > 1).map((piece) => [piece[0], piece[piece.length - 1]]),
      );
    }
    expect(Math.abs(metresInside(positions) - theirs), `line ${k}`).toBeLessThan(0.002);
  }
}, 120_000);
