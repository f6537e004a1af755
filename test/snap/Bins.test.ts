import { expect, test } from 'vitest';
import { earthCentred } from '../../src/geodesy/earthCentred';
import { Bins } from '../../src/snap/Bins';
import { inverse } from '../../src/subpaths/geodesy';
import { pointAt, routeFromLine } from '../../src/subpaths/route';
import { lapLine } from '../support/hardRides';
import { circle, figureOfEight, lapsThenOutAndBack, planeRoute } from '../support/planeRoute';
import { seeded, wanderingLine } from '../support/randomLine';

const routes = [
  lapsThenOutAndBack([180, -17]),
  figureOfEight([20, 80]),
  routeFromLine(wanderingLine(seeded(4), { start: [11, 48], count: 300, step: 40, turn: 30 })),
  routeFromLine([
    [5, 60],
    [5.00001, 60],
  ]),
  routeFromLine(
    [
      [5, 60],
      [6, 61],
    ],
    { maxSpacing: 20_000 },
  ),
];

test.each(routes.map((route) => [Math.round(route.length), route] as const))(
  'route of %d m: bins stand on it, equally far apart, and those near a place are those of a scan',
  (_, route) => {
    const bins = new Bins(route);
    expect(bins.spacing * (bins.count - 1)).toBeCloseTo(route.length, 6);
    expect(bins.spacing).toBeLessThanOrEqual(5);
    const random = seeded(route.lon.length);
    for (let round = 0; round < 200; round++) {
      const bin = Math.floor(random() * bins.count);
      const { position } = pointAt(route, bin * bins.spacing, { outside: 'clamp' });
      const [x, y, z] = earthCentred(position[0], position[1]);
      expect(Math.hypot(x - bins.x[bin], y - bins.y[bin], z - bins.z[bin])).toBeLessThan(0.006);
      const distance = 3 + 150 * random();
      const place = [position[0] + (random() - 0.5) * 2e-3, position[1] + (random() - 0.5) * 2e-3];
      const [px, py, pz] = earthCentred(place[0], place[1]);
      const near: number[] = [];
      const squares: number[] = [];
      const found = bins.near(px, py, pz, distance, near, squares);
      const scan = Array.from(bins.x, (_, k) => Math.hypot(bins.x[k] - px, bins.y[k] - py, bins.z[k] - pz));
      const limit = distance + bins.spacing / 2;
      expect(near.slice(0, found)).toEqual([...scan.keys()].filter((k) => scan[k] <= limit));
      const first = Math.floor(random() * bins.count);
      const last = first + Math.floor(random() * 60);
      const within = [...scan.keys()].filter((k) => scan[k] <= limit && k >= first && k <= last);
      const some: number[] = [];
      const count = bins.near(px, py, pz, distance, some, [], first, Math.min(last, bins.count - 1));
      expect(some.slice(0, count)).toEqual(within);
      for (let k = 0; k < found; k++) expect(Math.sqrt(squares[k])).toBeCloseTo(scan[near[k]], 9);
      if (found > 0) {
        const at = pointAt(route, near[0] * bins.spacing, { outside: 'clamp' }).position;
        expect(Math.abs(inverse(place, at).distance - scan[near[0]])).toBeLessThan(0.01);
      }
    }
  },
);

test.each([
  ['a straight with a loop at its crossing', [[-300, 0], ...circle([0, 50], 50, -90, 360), [300, 0]], [300, 614]],
  ['four laps and a tail: where they begin and end, not amid them', lapLine(4).points, [200, 602, 1004, 1406, 1808]],
  [
    'a way that meets none',
    [
      [0, 0],
      [500, 0],
      [500, 500],
    ],
    [],
  ],
  ['loops too long for a skip', [[-300, 0], ...circle([0, 800], 800, -90, 360), [300, 0]], []],
] as const)('skips weigh e^2 more at either end where passes meet and part: %s', (_, points, ends) => {
  const bins = new Bins(planeRoute([5, 52], points));
  const near = (k: number) => Math.min(...ends.map((end) => Math.abs(k * bins.spacing - end)));
  expect(bins.partings).toHaveLength(bins.count);
  expect(bins.partings).toBe(bins.partings);
  for (const [k, weight] of bins.partings.entries()) {
    if (near(k) <= 15) expect(weight, `bin ${k}`).toBe(1);
    else if (near(k) > 75) expect(weight, `bin ${k}`).toBeCloseTo(Math.exp(-2), 6);
    else expect([1, Math.fround(Math.exp(-2))]).toContain(weight);
  }
});
