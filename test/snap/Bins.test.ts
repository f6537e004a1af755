import { expect, test } from 'vitest';
import { earthCentred } from '../../src/geodesy/earthCentred';
import { Bins } from '../../src/snap/Bins';
import { inverse } from '../../src/subpaths/geodesy';
import { pointAt, routeFromLine } from '../../src/subpaths/route';
import { figureOfEight, lapsThenOutAndBack } from '../support/planeRoute';
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
