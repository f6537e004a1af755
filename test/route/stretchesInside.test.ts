import { localPlane } from 'datumline/geodesy';
import { pointAt, type Route, type RouteOptions, routeBuilder } from 'datumline/route';
import type { MultiPolygon, Polygon, Position } from 'geojson';
import { expect, test } from 'vitest';
import { onEquator } from '../support/onEquator';
import { seeded, wanderingLine } from '../support/randomLine';

const polygon = (...rings: Position[][]): Polygon => ({
  type: 'Polygon',
  coordinates: rings.map((ring) => onEquator([...ring, ring[0]])),
});
const box = (west: number, south: number, east: number, north: number): Position[] => [
  [west, south],
  [east, south],
  [east, north],
  [west, north],
];

function sectionsIn(line: Position[], inside: Polygon | MultiPolygon, options: RouteOptions = {}): Route {
  return routeBuilder({ lateral95: 0.5, ...options })
    .follow(line)
    .section('area', { inside })
    .build();
}

const places = ({ sections }: Route) => sections.map(({ name, from, to }) => [name, from.toFixed(3), to.toFixed(3)]);
/** Edges as long as the legs: no vertex inside. */
const long = { maxSpacing: 1e6 };

const straight = onEquator([
  [0, 0],
  [1000, 0],
]);

test('a long edge with no vertex inside passes through', () => {
  expect(places(sectionsIn(straight, polygon(box(400, -50, 600, 50)), long))).toEqual([['area', '400.000', '600.000']]);
  // narrower than the spacing, between two vertices
  expect(places(sectionsIn(straight, polygon(box(401, -5, 403, 5))))).toEqual([['area', '401.000', '403.000']]);
});

test('a hole is outside: two passages', () => {
  const ring = polygon(box(300, -50, 700, 50), box(450, -20, 550, 20));
  expect(places(sectionsIn(straight, ring, long))).toEqual([
    ['area', '300.000', '450.000'],
    ['area (2)', '550.000', '700.000'],
  ]);
});

test('each passage of a route that comes again is a section, numbered', () => {
  const back = onEquator([
    [0, 0],
    [1000, 0],
    [1000, 10],
    [0, 10],
  ]);
  expect(places(sectionsIn(back, polygon(box(400, -50, 600, 50)), long))).toEqual([
    ['area', '400.000', '600.000'],
    ['area (2)', '1410.000', '1610.000'],
  ]);
});

test('an area that the route starts or ends in begins or ends with it; one it only touches has no section', () => {
  expect(places(sectionsIn(straight, polygon(box(-10, -5, 50, 5)), long))).toEqual([['area', '0.000', '50.000']]);
  expect(places(sectionsIn(straight, polygon(box(900, -5, 2000, 5)), long))).toEqual([['area', '900.000', '1000.000']]);
  expect(places(sectionsIn(straight, polygon(box(-10, -5, 2000, 5)), long))).toEqual([['area', '0.000', '1000.000']]);
  const tip = polygon([
    [400, 0],
    [450, 30],
    [350, 30],
  ]);
  const touched = sectionsIn(straight, tip, long);
  expect(touched.sections).toEqual([]);
  expect(touched.warnings.map(({ reason }) => reason)).toEqual(['empty-section']);
});

test('an area cut at ±180° as RFC 7946 wants it, or drawn across, is one area', () => {
  const line = [
    [179.99, 0],
    [-179.99, 0],
  ];
  const ring = (west: number, east: number): Position[][] => [
    [
      [west, -0.01],
      [east, -0.01],
      [east, 0.01],
      [west, 0.01],
      [west, -0.01],
    ],
  ];
  const cut: MultiPolygon = { type: 'MultiPolygon', coordinates: [ring(179.995, 180), ring(-180, -179.995)] };
  const across: Polygon = { type: 'Polygon', coordinates: ring(179.995, 180.005) };
  const expected = places(sectionsIn(line, across, long));
  expect(expected.length).toBe(1);
  for (const area of [cut, across]) {
    for (const options of [long, {}]) expect(places(sectionsIn(line, area, options))).toEqual(expected);
  }
});

test('in laps every passage has its lap', () => {
  const gate = polygon(box(90, -5, 110, 5));
  const { sections } = routeBuilder(long)
    .start(onEquator([[0, 0]])[0], { azimuth: 90 })
    .laps(3, (lap) => {
      for (const [x, y] of [
        [200, 0],
        [200, 100],
        [0, 0],
      ]) {
        lap.lineTo(onEquator([[x, y]])[0]);
      }
    })
    .section('gate', { inside: gate })
    .build();
  expect(sections.map(({ name, lap }) => [name, lap])).toEqual([
    ['gate', 1],
    ['gate', 2],
    ['gate', 3],
  ]);
});

test('what every third of a metre says is what the sections say, for wandering lines and ragged areas', () => {
  const random = seeded(12);
  for (let round = 0; round < 12; round++) {
    const latitude = 80 * Math.sin(round);
    const line = wanderingLine(random, { start: [20, latitude], count: 8, step: 300, turn: 90 });
    const plane = localPlane(line[3]);
    const corners = Array.from({ length: 9 }, (_, k) => {
      const reach = 20 + 200 * random();
      return plane.toPosition([reach * Math.cos((k * 2 * Math.PI) / 9), reach * Math.sin((k * 2 * Math.PI) / 9)]);
    });
    const inside: Polygon = { type: 'Polygon', coordinates: [[...corners, corners[0]]] };
    const route = sectionsIn(line, inside, round % 2 === 0 ? long : {});
    expect(route.sections.length).toBeGreaterThan(0);
    for (let at = 0.05; at < route.length; at += 0.33) {
      const named = route.sections.find(({ from, to }) => at >= from && at <= to);
      const edge = Math.min(...route.sections.map(({ from, to }) => Math.min(Math.abs(at - from), Math.abs(at - to))));
      if (edge < 1e-3) continue;
      expect(named !== undefined, `round ${round} at ${at}`).toBe(evenOdd(pointAt(route, at).position, corners));
    }
  }
});

/** Whether a ray to the east crosses the ring an odd number of times. */
function evenOdd([x, y]: Position, ring: readonly Position[]): boolean {
  let inside = false;
  ring.forEach(([ax, ay], i) => {
    const [bx, by] = ring[(i + 1) % ring.length];
    if (ay > y !== by > y && x < ax + ((y - ay) * (bx - ax)) / (by - ay)) inside = !inside;
  });
  return inside;
}

test('an area of 140 000 vertices is an area like any other (its bounds overflowed the stack)', () => {
  const radius = 50;
  const ring = Array.from({ length: 140_000 }, (_, i): Position => {
    const angle = (2 * Math.PI * i) / 140_000;
    return [150 + radius * Math.cos(angle), radius * Math.sin(angle)];
  });
  const [section] = sectionsIn(straight, polygon(ring), long).sections;
  // a straight line through the centre of a circle at 150 m
  expect(Math.abs(section.from - 100)).toBeLessThan(0.01);
  expect(Math.abs(section.to - 200)).toBeLessThan(0.01);
});
