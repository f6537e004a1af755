import { localPlane } from 'datumline';
import { expect, test } from 'vitest';
import { linePath } from '../../src/report/linePath';
import { Painted } from '../../src/report/Painted';
import { peaksOf } from '../../src/report/peaksOf';
import { routePlane } from '../../src/report/routePlane';
import { traceOf } from '../../src/report/traceOf';
import { seeded } from '../support/randomLine';
import { pathPoints } from './pathPoints';

/** Distance of a place to a line of straight pieces, every piece tried. */
function distanceTo([x, y]: readonly [number, number], line: readonly (readonly [number, number])[]): number {
  let least = Infinity;
  for (let i = 1; i < line.length; i++) {
    const [[ax, ay], [bx, by]] = [line[i - 1], line[i]];
    const [dx, dy] = [bx - ax, by - ay];
    const square = dx * dx + dy * dy;
    const share = square > 0 ? Math.max(0, Math.min(1, ((x - ax) * dx + (y - ay) * dy) / square)) : 0;
    least = Math.min(least, Math.hypot(x - ax - share * dx, y - ay - share * dy));
  }
  return least;
}

test.each([
  [[], ''],
  [[[3, 4]], ''],
  [
    [
      [0, 0],
      [10, 0.3],
    ],
    'M0,0l10 .3',
  ],
  [
    [
      [-1.25, 2],
      [-1.55, 0],
      [8, 0],
    ],
    'M-1.2,2l-.3-2 9.5 0',
  ],
  // a line without length is still to be seen
  [
    [
      [5, 5],
      [5.01, 5.02],
    ],
    'M5,5l0 0',
  ],
] as [[number, number][], string][])('%j is drawn as %s', (points, d) => {
  expect(linePath(traceOf(points))).toBe(d);
});

test('drawn, no point of a line is further off than a pixel can show, however many came before it', () => {
  const random = seeded(71);
  let [x, y] = [20, 300];
  const points = Array.from({ length: 4000 }, (): [number, number] => {
    x += 3 * random();
    y += 8 * (random() - 0.5);
    return [x, y];
  });
  const [drawn] = pathPoints(linePath(traceOf(points)));
  expect(drawn.length).toBeLessThan(points.length);
  for (const point of points) expect(distanceTo(point, drawn)).toBeLessThan(0.35 + 0.08);
  expect(drawn.at(-1)![0]).toBeCloseTo(points.at(-1)![0], 0);
  for (const value of drawn.flat()) expect(Math.abs(10 * value - Math.round(10 * value))).toBeLessThan(1e-6);
});

test('a line that goes round and round is drawn where it can be seen: nothing of it further off, at a bounded length', () => {
  const random = seeded(13);
  const laps = (count: number) =>
    Array.from({ length: 200 * count }, (_, k): [number, number] => {
      const radius = 90 + 25 * (random() - 0.5);
      return [150 + radius * Math.cos(k / 31.8), 150 + radius * Math.sin(k / 31.8)];
    });
  const points = laps(150);
  const whole = linePath(traceOf(points));
  const seen = linePath(traceOf(points), new Painted(300, 300));
  const lines = pathPoints(seen);
  const pixels = new Set(
    lines.flatMap((line) =>
      line.slice(1).flatMap(([x, y], k) => {
        const [fromX, fromY] = line[k];
        const steps = Math.ceil(Math.hypot(x - fromX, y - fromY) / 0.2) + 1;
        return Array.from({ length: steps + 1 }, (_, i) =>
          [fromX + (i / steps) * (x - fromX), fromY + (i / steps) * (y - fromY)].map(Math.floor).join(),
        );
      }),
    ),
  );
  const isNear = ([x, y]: [number, number]) =>
    [-1, 0, 1].some((dx) => [-1, 0, 1].some((dy) => pixels.has([Math.floor(x) + dx, Math.floor(y) + dy].join())));
  expect(points.filter((point) => !isNear(point))).toEqual([]);
  expect(seen.length).toBeLessThan(0.6 * whole.length);
  const twice = linePath(traceOf([...points, ...laps(150)]), new Painted(300, 300));
  expect(twice.length).toBeLessThan(1.2 * seen.length);
});

test('of each cell the least and the greatest offset stay, in their order', () => {
  const random = seeded(5);
  const along = Float64Array.from({ length: 500 }, (_, i) => 7 + i + random() / 2);
  const offset = along.map(() => 20 * (random() - 0.5));
  const kept = peaksOf({ along, offset }, 7, 12.5);
  for (let cell = 0; cell < 40; cell++) {
    const inCell = (run: typeof kept) =>
      [...run.offset].filter((_, i) => Math.floor((run.along[i] - 7) / 12.5) === cell);
    const [all, shown] = [inCell({ along, offset }), inCell(kept)];
    expect(Math.min(...shown)).toBe(Math.min(...all));
    expect(Math.max(...shown)).toBe(Math.max(...all));
    expect(shown.length).toBeLessThanOrEqual(2);
  }
  expect([...kept.along]).toEqual([...kept.along].sort((a, b) => a - b));
});

test.each([-89.95, -60, 0, 30, 61.4, 89.9])(
  'the plane of the maps is that of localPlane to a millimetre, further off to less than a picture shows, about latitude %f',
  (latitude) => {
    const random = seeded(3);
    const exact = localPlane([179.99, latitude]);
    const { toPlane } = routePlane({ lon: [179.99, 179.99], lat: [latitude, latitude], alongTrack: [0, 1] });
    for (const reach of [10, 20_000, 28_000, 200_000, 2_000_000]) {
      for (let k = 0; k < 50; k++) {
        const [longitude, at] = exact.toPosition([reach * (random() - 0.5) * 2, reach * (random() - 0.5) * 2]);
        const [east, north] = exact.toPlane([longitude, at]);
        const [x, y] = toPlane(longitude, at);
        expect(Math.hypot(x - east, y - north)).toBeLessThan(1e-3 * Math.max(1, reach / 28_000) ** 3);
      }
    }
  },
);
