import { lineSplit, booleanPointInPolygon, lineString, polygon as turfPolygon } from '@turf/turf';
import type { MultiPolygon, Polygon, Position } from 'geojson';
import GeoJSONReader from 'jsts/org/locationtech/jts/io/GeoJSONReader.js';
import BufferOp from 'jsts/org/locationtech/jts/operation/buffer/BufferOp.js';
import DistanceOp from 'jsts/org/locationtech/jts/operation/distance/DistanceOp.js';
import OverlayOp from 'jsts/org/locationtech/jts/operation/overlay/OverlayOp.js';
import { expect, test } from 'vitest';
import { type Area, AreaIndex, checkAreas, Region, type Standing, walkLine } from '../../src/areas';
import { degreeMetres } from '../../src/areas/degreeMetres';
import { seeded } from '../support/randomLine';

/** Where plane figures are laid: degrees are metres over these, so that straight lines of the plane are straight in degrees. */
const [LON, LAT] = [5, 0];
const scale = degreeMetres(LAT);
const laid = ([x, y]: Position): Position => [LON + x / scale.east, LAT + y / scale.north];

const closed = (ring: readonly Position[]): Position[] => [...ring, ring[0]];
const area = (rings: readonly (readonly Position[])[], doubt95 = 0, name = 'ground'): Area => ({
  name,
  kind: 'allowed',
  geometry: { type: 'Polygon', coordinates: rings.map((ring) => closed(ring.map(laid))) },
  doubt95,
});

function regionOf(areas: readonly Area[]): Region {
  return new Region(new AreaIndex(checkAreas(areas, 'areas'), LON), () => true);
}

/** Metres of a line in the plane by how they stand to areas. */
function metresOf(areas: readonly Area[], line: readonly Position[]): Record<Standing, number> {
  const positions = line.map(laid);
  const sum = { inside: 0, outside: 0, undecided: 0 };
  const lengths = line.slice(1).map(([x, y], i) => Math.hypot(x - line[i][0], y - line[i][1]));
  const walked = walkLine(
    regionOf(areas),
    positions.map(([lon]) => lon),
    positions.map(([, lat]) => lat),
    line.slice(1).map((_, i) => i + 1),
  );
  for (const { vertex, from, to, standing } of walked) sum[standing] += (to - from) * lengths[vertex - 1];
  return sum;
}

const box = (west: number, south: number, east: number, north: number): Position[] => [
  [west, south],
  [east, south],
  [east, north],
  [west, north],
];

const street: Position[] = [
  [0, 0],
  [40, 0],
];

/** A star about a place: no ring that crosses itself. */
function star(random: () => number, [x, y]: Position, size: number): Position[] {
  const count = 5 + Math.floor(random() * 8);
  return Array.from({ length: count }, (_, i) => {
    const angle = (2 * Math.PI * (i + 0.8 * random())) / count;
    const radius = size * (0.3 + 0.7 * random());
    return [x + radius * Math.cos(angle), y + radius * Math.sin(angle)];
  });
}

interface Geometry {
  getLength(): number;
}
const reader = new GeoJSONReader();
const jts = (geometry: object): Geometry => reader.read(geometry as never) as unknown as Geometry;
const overlay = OverlayOp as unknown as Record<'intersection' | 'union' | 'difference', (a: Geometry, b: Geometry) => Geometry>;
const buffered = (geometry: Geometry, metres: number, quadrant: number) =>
  (BufferOp as unknown as { bufferOp(g: Geometry, d: number, q: number): Geometry }).bufferOp(geometry, metres, quadrant);

/** A seeded case: overlapping stars with a hole each, and a line through them, in plane metres. */
function seededCase(seed: number) {
  const random = seeded(seed);
  const polygons = Array.from({ length: 1 + Math.floor(random() * 4) }, () => {
    const centre = [120 * random() - 60, 120 * random() - 60];
    const outer = star(random, centre, 60);
    const hole = star(random, centre, 5).map(([x, y]): Position => [x, y]);
    return random() < 0.5 ? [outer] : [outer, hole];
  });
  const line = Array.from({ length: 6 }, (): Position => [200 * random() - 100, 200 * random() - 100]);
  return { polygons, line };
}

const geometryOf = (rings: readonly (readonly Position[])[]): Polygon => ({
  type: 'Polygon',
  coordinates: rings.map((ring) => closed(ring)),
});

test('as many metres inside as jsts has in the plane, on 500 seeded cases', () => {
  let worst = 0;
  for (let seed = 1; seed <= 500; seed++) {
    const { polygons, line } = seededCase(seed);
    const union = polygons.map((rings) => jts(geometryOf(rings))).reduce((a, b) => overlay.union(a, b));
    const lineJts = jts({ type: 'LineString', coordinates: line });
    const theirs = overlay.intersection(lineJts, union).getLength();
    const ours = metresOf(
      polygons.map((rings) => area(rings)),
      line,
    );
    const off = Math.abs(ours.inside - theirs);
    if (off > 0.005) console.log(seed, ours, theirs);
    worst = Math.max(worst, off);
  }
  console.log('worst', worst);
  expect(worst).toBeLessThan(0.005);
});


const distance = (DistanceOp as unknown as { distance(a: Geometry, b: Geometry): number }).distance;

/** Metres of a line nearer than so many metres to a boundary, by asking jsts for the distance every so many metres. */
function nearBy(line: readonly Position[], boundary: Geometry, metres: number, step: number): number {
  let sum = 0;
  for (let i = 1; i < line.length; i++) {
    const [ax, ay] = line[i - 1];
    const [dx, dy] = [line[i][0] - ax, line[i][1] - ay];
    const length = Math.hypot(dx, dy);
    const count = Math.ceil(length / step);
    for (let k = 0; k < count; k++) {
      const at = (k + 0.5) / count;
      const point = jts({ type: 'Point', coordinates: [ax + at * dx, ay + at * dy] });
      if (distance(boundary, point) <= metres) sum += length / count;
    }
  }
  return sum;
}

test('undecided', () => {
  for (const seed of [306]) {
    const { polygons, line } = seededCase(seed);
    const union = polygons.map((rings) => jts(geometryOf(rings))).reduce((a, b) => overlay.union(a, b));
    const boundary = (union as unknown as { getBoundary(): Geometry }).getBoundary();
    const lineJts = jts({ type: 'LineString', coordinates: line });
    for (const q of [8,16,32,64,200,500]) console.log(q, overlay.intersection(lineJts, buffered(boundary, 3, q)).getLength());
    console.log(nearBy(line, boundary, 3, 0.01), metresOf(polygons.map((rings) => area(rings, 3)), line));
  }
});
