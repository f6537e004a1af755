import { booleanPointInPolygon, lineSplit, lineString, polygon as turfPolygon } from '@turf/turf';
import { inverse } from 'datumline';
import type { Polygon, Position } from 'geojson';
import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import GeoJSONReader from 'jsts/org/locationtech/jts/io/GeoJSONReader.js';
import BufferOp from 'jsts/org/locationtech/jts/operation/buffer/BufferOp.js';
import DistanceOp from 'jsts/org/locationtech/jts/operation/distance/DistanceOp.js';
import OverlayOp from 'jsts/org/locationtech/jts/operation/overlay/OverlayOp.js';
import { describe, expect, test } from 'vitest';
import { type Area, AreaIndex, checkAreas, Region, type Standing, walkLine } from '../../src/areas';
import { degreeMetres } from '../../src/areas/degreeMetres';
import { seeded } from '../support/randomLine';

/**
 * Where plane figures are laid, metres over a degree so that straight lines of the plane are straight in degrees: at the equator
 * a geodesic of 300 m is straight there too, and the plane true, to a micrometre.
 */
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
  return new Region(new AreaIndex(checkAreas(areas, 'areas'), LON));
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
const reader = new GeoJSONReader(new GeometryFactory());
const jts = (geometry: object): Geometry => reader.read(geometry as never) as unknown as Geometry;
const overlay = OverlayOp as unknown as Record<
  'intersection' | 'union' | 'difference',
  (a: Geometry, b: Geometry) => Geometry
>;
/** Of 100 chords a quarter: 0.1 mm within the circle at 3 m. */
const buffered = (geometry: Geometry, metres: number) =>
  (BufferOp as unknown as { bufferOp(g: Geometry, d: number, quadrant: number): Geometry }).bufferOp(
    geometry,
    metres,
    100,
  );

const distance = (DistanceOp as unknown as { distance(a: Geometry, b: Geometry): number }).distance;

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

/** The areas of a case as one geometry of jsts, and its boundary. */
function joined(polygons: readonly (readonly (readonly Position[])[])[]): { union: Geometry; boundary: Geometry } {
  const union = polygons.map((rings) => jts(geometryOf(rings))).reduce((a, b) => overlay.union(a, b));
  return { union, boundary: (union as unknown as { getBoundary(): Geometry }).getBoundary() };
}

test('as many metres inside as jsts has in the plane, on 500 seeded cases: 0.1 mm', () => {
  for (let seed = 1; seed <= 500; seed++) {
    const { polygons, line } = seededCase(seed);
    const { union } = joined(polygons);
    const theirs = overlay.intersection(jts({ type: 'LineString', coordinates: line }), union).getLength();
    const { inside } = metresOf(
      polygons.map((rings) => area(rings)),
      line,
    );
    expect(Math.abs(inside - theirs), `seed ${seed}`).toBeLessThan(1e-4);
  }
});

test('as many metres inside one polygon as turf has, on 500 seeded cases: 5 mm', () => {
  // turf works in the plane of degrees and cuts positions to 7 decimals: a metre is a hundredth of a degree for it, 0.01 mm a step
  const large = ([x, y]: Position): Position => [x / 100, y / 100];
  for (let seed = 501; seed <= 1000; seed++) {
    const { polygons, line } = seededCase(seed);
    const [rings] = polygons;
    const theirs = turfPolygon(rings.map((ring) => closed(ring.map(large))));
    let metres = 0;
    for (let i = 1; i < line.length; i++) {
      const leg = lineString([large(line[i - 1]), large(line[i])]);
      const { features } = lineSplit(leg, theirs);
      for (const { geometry } of features.length > 0 ? features : [leg]) {
        const [from, to] = [geometry.coordinates[0], geometry.coordinates[geometry.coordinates.length - 1]];
        if (!booleanPointInPolygon([(from[0] + to[0]) / 2, (from[1] + to[1]) / 2], theirs)) continue;
        metres += 100 * Math.hypot(to[0] - from[0], to[1] - from[1]);
      }
    }
    expect(Math.abs(metresOf([area(rings)], line).inside - metres), `seed ${seed}`).toBeLessThan(5e-3);
  }
});

/** Metres of a line nearer than so many metres to a boundary, by the distance that jsts gives every 2 cm. */
function nearBy(line: readonly Position[], boundary: Geometry, metres: number): number {
  let sum = 0;
  for (let i = 1; i < line.length; i++) {
    const [[ax, ay], [bx, by]] = [line[i - 1], line[i]];
    const length = Math.hypot(bx - ax, by - ay);
    const count = Math.ceil(length / 0.02);
    for (let k = 0; k < count; k++) {
      const at = (k + 0.5) / count;
      const place = jts({ type: 'Point', coordinates: [ax + at * (bx - ax), ay + at * (by - ay)] });
      if (distance(boundary, place) <= metres) sum += length / count;
    }
  }
  return sum;
}

test('as many metres within 3 m of an edge as the buffer of jsts has, but for one of 500 seeded cases, which its distance decides', () => {
  const unlike: number[] = [];
  for (let seed = 1; seed <= 500; seed++) {
    const { polygons, line } = seededCase(seed);
    const { boundary } = joined(polygons);
    const theirs = overlay
      .intersection(jts({ type: 'LineString', coordinates: line }), buffered(boundary, 3))
      .getLength();
    const { undecided } = metresOf(
      polygons.map((rings) => area(rings, 3)),
      line,
    );
    // a line that grazes a circle enters the chords of it centimetres later
    if (Math.abs(undecided - theirs) < 0.05) continue;
    unlike.push(seed);
    // each end of a piece is 1 cm off at most by trying every 2 cm
    expect(Math.abs(undecided - nearBy(line, boundary, 3)), `seed ${seed}`).toBeLessThan(0.1);
    expect(Math.abs(theirs - nearBy(line, boundary, 3)), `seed ${seed}`).toBeGreaterThan(0.1);
  }
  // there its buffer lacks a piece within 3 m of an edge, however many chords it takes
  expect(unlike).toEqual([306]);
});

describe('places that decide', () => {
  const room = box(10, -5, 30, 5);
  const inside = (areas: readonly Area[], line: readonly Position[]) => {
    const found = metresOf(areas, line);
    return [found.inside, found.outside, found.undecided].map((metres) => Number(metres.toFixed(4)) + 0);
  };

  test.each<
    [what: string, areas: Area[], line: Position[], told: [inside: number, outside: number, undecided: number]]
  >([
    ['through a room', [area([room])], street, [20, 20, 0]],
    ['a hole is outside', [area([room, box(15, -2, 20, 2)])], street, [15, 25, 0]],
    ['rings may run either way', [area([[...room].reverse(), box(15, -2, 20, 2)])], street, [15, 25, 0]],
    [
      'two that touch are one: no edge between',
      [area([box(10, -5, 20, 5)], 3), area([box(20, -5, 30, 5)], 3)],
      street,
      [14, 14, 12],
    ],
    [
      'two that touch along a piece of a wall',
      [area([box(10, -5, 20, 5)], 3), area([box(20, -9, 30, 8)], 3)],
      street,
      [14, 14, 12],
    ],
    ['two that overlap are one', [area([box(10, -5, 22, 5)], 3), area([box(18, -5, 30, 5)], 3)], street, [14, 14, 12]],
    ['one in another is nothing', [area([room], 3), area([box(15, -1, 17, 1)], 3)], street, [14, 14, 12]],
    ['along an edge: undecided, neither in nor out', [area([box(10, 0, 30, 5)])], street, [0, 20, 20]],
    [
      'along an edge and on inside',
      [area([box(10, 0, 30, 5)])],
      [
        [0, 0],
        [20, 0],
        [20, 10],
      ],
      [5, 15, 10],
    ],
    ['along the seam of two: inside', [area([box(10, 0, 30, 5)]), area([box(10, -5, 30, 0)])], street, [20, 20, 0]],
    [
      'through two corners',
      [
        area([
          [
            [10, 0],
            [20, -5],
            [30, 0],
            [20, 5],
          ],
        ]),
      ],
      street,
      [20, 20, 0],
    ],
    [
      'touching a corner from outside',
      [
        area([
          [
            [10, 0],
            [20, 5],
            [0, 5],
          ],
        ]),
      ],
      street,
      [0, 40, 0],
    ],
    [
      'a vertex of the line on an edge',
      [area([room])],
      [
        [0, 0],
        [10, 0],
        [40, 0],
      ],
      [20, 20, 0],
    ],
    [
      'a vertex of the line on a vertex of the ring',
      [area([room])],
      [
        [0, -5],
        [10, -5],
        [40, 25],
      ],
      [14.1421, 42.4264 - 14.1421 + 10, 0],
    ],
    [
      'standing inside',
      [area([room])],
      [
        [20, 0],
        [20, 0],
      ],
      [0, 0, 0],
    ],
    [
      'beginning and ending inside',
      [area([room])],
      [
        [12, 0],
        [22, 0],
      ],
      [10, 0, 0],
    ],
    ['both sides of an edge by what it is known to', [area([room], 2)], street, [16, 16, 8]],
    ['everywhere nearer to an edge than it is known to', [area([room], 6)], street, [0, 8, 32]],
  ])('%s', (_, areas, line, told) => {
    const found = inside(areas, line);
    // a crossing takes the micrometre within which a place is on the edge
    for (const [k, metres] of told.entries()) expect(Math.abs(found[k] - metres), `${found}`).toBeLessThan(2e-4);
  });
});

test('across ±180°, whichever way it is written', () => {
  const ring = (west: number, east: number): Position[] => closed(box(west, -0.001, east, 0.001));
  const one: Area = {
    name: 'strait',
    kind: 'allowed',
    geometry: { type: 'Polygon', coordinates: [ring(179.999, 180.001)] },
  };
  const wrapped: Area = { ...one, geometry: { type: 'Polygon', coordinates: [ring(179.999, -179.999)] } };
  // RFC 7946, 3.1.9: cut at the meridian
  const cut: Area = {
    ...one,
    geometry: { type: 'MultiPolygon', coordinates: [[ring(179.999, 180)], [ring(-180, -179.999)]] },
  };
  const far = inverse([179.998, 0], [-179.998, 0]).distance;
  for (const given of [one, wrapped, cut]) {
    for (const near of [179.998, -179.998]) {
      const region = new Region(new AreaIndex(checkAreas([given], 'areas'), near));
      for (const lon of [
        [179.998, -179.998],
        [-179.998, 179.998],
      ]) {
        const walked = walkLine(region, lon, [0, 0], [1]);
        const shares = walked.filter(({ standing }) => standing === 'inside').map(({ from, to }) => to - from);
        expect(shares.reduce((sum, share) => sum + share, 0) * far).toBeCloseTo(far / 2, 3);
      }
    }
  }
});

test('at 60° north the line is the geodesic, not the straight line in degrees', () => {
  // a geodesic of 20 km along a parallel bulges poleward by s² tan φ / 8R, 13.6 m: an area that ends 5 m north of the parallel
  const [west, east] = [5, 5 + 20_000 / degreeMetres(60).east];
  const north = 60 + 5 / degreeMetres(60).north;
  const given: Area = {
    name: 'strip',
    kind: 'allowed',
    geometry: { type: 'Polygon', coordinates: [closed(box(4, 59, 7, north))] },
  };
  const region = new Region(new AreaIndex(checkAreas([given], 'areas'), 5));
  const walked = walkLine(region, [west, east], [60, 60], [1]);
  const outside = walked.filter(({ standing }) => standing === 'outside');
  const share = outside.reduce((sum, { from, to }) => sum + to - from, 0);
  // where the sagitta 4 h u (1 − u) is more than 5 m
  const sagitta = (20_000 ** 2 * Math.tan(Math.PI / 3)) / ((8 * 6_378_137) / Math.sqrt(1 - 0.00669438 * 0.75));
  expect(share).toBeCloseTo(Math.sqrt(1 - 5 / sagitta), 3);
});
