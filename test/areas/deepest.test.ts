import type { Position } from 'geojson';
import { expect, test } from 'vitest';
import { type Area, AreaIndex, checkAreas, deepest, degreeMetres, Region, walkLine } from '../../src/areas';
import { seeded } from '../support/randomLine';

const scale = degreeMetres(0);
const laid = ([x, y]: Position): Position => [5 + x / scale.east, y / scale.north];

const box = (west: number, south: number, east: number, north: number): Position[] => [
  [west, south],
  [east, south],
  [east, north],
  [west, north],
  [west, south],
];

const region = (rings: readonly (readonly Position[])[], name = 'ground') => {
  const areas = rings.map((ring): Area => {
    return { name, kind: 'impossible', geometry: { type: 'Polygon', coordinates: [ring.map(laid)] } };
  });
  return new Region(new AreaIndex(checkAreas(areas, 'areas'), 5));
};

function depthOf(rings: readonly (readonly Position[])[], line: readonly Position[], standing = 'inside') {
  const positions = line.map(laid);
  const own = region(rings);
  const [lon, lat] = [positions.map(([x]) => x), positions.map(([, y]) => y)];
  const vertices = line.slice(1).map((_, i) => i + 1);
  const parts = walkLine(own, lon, lat, vertices).filter((part) => part.standing === standing);
  return { ...deepest(own, parts), parts };
}

/** Metres from a place of the plane to a segment. */
function metresTo([px, py]: Position, [ax, ay]: Position, [bx, by]: Position): number {
  const [ex, ey] = [bx - ax, by - ay];
  const share = Math.min(1, Math.max(0, ((px - ax) * ex + (py - ay) * ey) / (ex * ex + ey * ey)));
  return Math.hypot(px - ax - share * ex, py - ay - share * ey);
}

test.each([
  {
    what: 'across the middle of a square',
    line: [
      [-20, 5],
      [20, 5],
    ],
    deep: 5,
  },
  {
    what: 'beside a wall',
    line: [
      [-8, 1],
      [8, 1],
    ],
    deep: 1,
  },
  {
    what: 'from corner to corner, the middle between two fixes',
    line: [
      [-15, -5],
      [15, 15],
    ],
    deep: 5,
  },
  {
    what: 'to a place inside and back',
    line: [
      [-20, 3],
      [-7, 3],
      [-20, 3],
    ],
    deep: 3,
  },
])('$what', ({ line, deep }) => {
  expect(depthOf([box(-10, 0, 10, 10)], line).distance).toBeCloseTo(deep, 2);
});

test('the wall between two houses of one name is none: the depth is that of both', () => {
  const two = [box(-10, 0, 0, 10), box(0, 0, 10, 10)];
  const crossing: Position[] = [
    [-20, 5],
    [20, 5],
  ];
  expect(depthOf(two, crossing).distance).toBeCloseTo(5, 2);
  expect(depthOf([two[0]], crossing).distance).toBeCloseTo(5, 2);
  // a house in another, sharing a piece of its wall, changes nothing either
  expect(depthOf([box(-10, 0, 10, 10), box(-5, 0, 5, 6)], crossing).distance).toBeCloseTo(5, 2);
});

test('outside: from the nearest of all', () => {
  const line: Position[] = [
    [0, 0],
    [100, 0],
  ];
  const found = depthOf([box(-10, -5, 0, 5), box(100, -5, 110, 5)], line, 'outside');
  expect(found.distance).toBeCloseTo(50, 2);
});

test('to a millimetre of trying every centimetre, on 100 seeded stays', () => {
  for (let seed = 1; seed <= 100; seed++) {
    const random = seeded(seed);
    const count = 5 + Math.floor(8 * random());
    const ring = Array.from({ length: count }, (_, i): Position => {
      const angle = (2 * Math.PI * (i + 0.7 * random())) / count;
      const radius = 15 + 25 * random();
      return [radius * Math.cos(angle), radius * Math.sin(angle)];
    });
    ring.push(ring[0]);
    const line = Array.from({ length: 6 }, (): Position => [80 * random() - 40, 80 * random() - 40]);
    const { distance, parts } = depthOf([ring], line);
    if (parts.length === 0) continue;
    let most = 0;
    for (const { x0, y0, x1, y1 } of parts) {
      const [a, b] = [
        [(x0 - 5) * scale.east, y0 * scale.north],
        [(x1 - 5) * scale.east, y1 * scale.north],
      ];
      const steps = Math.ceil(100 * Math.hypot(b[0] - a[0], b[1] - a[1]));
      for (let k = 0; k <= steps; k++) {
        const place = [a[0] + (k / steps) * (b[0] - a[0]), a[1] + (k / steps) * (b[1] - a[1])];
        most = Math.max(most, Math.min(...ring.slice(1).map((end, i) => metresTo(place, ring[i], end))));
      }
    }
    // between two places tried a centimetre apart it may be half of that deeper
    expect(distance).toBeGreaterThan(most - 0.001);
    expect(distance).toBeLessThan(most + 0.005 + 1e-6);
  }
});
