import { direct } from 'datumline/geodesy';
import {
  joinRoutes,
  type LegBuilder,
  offsetRoute,
  type Route,
  reverseRoute,
  routeBuilder,
  routeFromLine,
  sliceRoute,
} from 'datumline/route';
import type { Position } from 'geojson';
import { afterEach, describe, expect, test, vi } from 'vitest';
import { EdgeFeet } from '../../src/geodesy/EdgeFeet';
import { EdgeBoxes } from '../../src/index/EdgeBoxes';
import { seeded } from '../support/randomLine';

const start: Position = [8.1234567, 47.7654321];
const stated = { lateral95: 0.5 };
const reasons = ({ warnings }: Route) => [...new Set(warnings.map(({ reason }) => reason))];
const of = ({ warnings }: Route, reason: string) => warnings.filter((warning) => warning.reason === reason);
const total = (route: Route, reason: string) => of(route, reason).reduce((sum, { count = 1 }) => sum + count, 0);

const oval = (lap: LegBuilder) =>
  lap
    .lineBy({ azimuth: 90, distance: 84 })
    .arc({ turn: 'left', radius: 36.5, sweep: 180 })
    .lineBy({ azimuth: 270, distance: 84 })
    .arc({ turn: 'left', radius: 36.5, sweep: 180 });
const authored = (count: number) => routeBuilder(stated).start(start, { azimuth: 90 }).laps(count, oval).build();

/** So many laps of the oval as a hand that trembles by half a metre draws them. */
const drawn = (count: number) => {
  const { lon, lat } = authored(1);
  const random = seeded(3);
  const positions: Position[] = [];
  for (let lap = 0; lap < count; lap++) {
    for (let i = 0; i + 1 < lon.length; i++) {
      positions.push(direct([lon[i], lat[i]], 360 * random(), 0.5 * random()).position);
    }
  }
  return routeFromLine(positions, stated);
};

/** Legs of a kilometre through one place, each turned a little on. */
const star = (legs: number) => {
  const turn = 180 - 180 / legs;
  const tips = Array.from({ length: legs + 1 }, (_, i) => direct(start, i * turn, 500).position);
  return routeFromLine(tips, { ...stated, maxSpacing: 2000 });
};

const standing = (fixes: number) => {
  const random = seeded(5);
  const positions = Array.from({ length: fixes }, () => direct(start, 360 * random(), random()).position);
  return routeFromLine(positions, stated);
};

describe('laps that the author drew as laps are nothing to be warned of', () => {
  test.each([2, 3, 40])('%d of them', (count) => {
    expect(reasons(authored(count))).toEqual([]);
  });

  test('nor in what is made of the route', () => {
    const route = authored(6);
    expect(reasons(sliceRoute(route, 130, 1600))).toEqual([]);
    expect(reasons(reverseRoute(route))).toEqual([]);
    expect(reasons(offsetRoute(route, { side: 'right', metres: 3 }))).not.toContain('repeated-stretch');
    const [half, rest] = [sliceRoute(route, 0, 1000), sliceRoute(route, 1000, route.length)];
    expect(route.laps).toEqual([{ from: 0, to: route.length, count: 6 }]);
    expect(joinRoutes(half, rest).laps.reduce((sum, { count }) => sum + count, 0)).toBeCloseTo(6, 9);
  });

  test('laps within laps, and laps shorter than can be told from a crossing', () => {
    const nested = routeBuilder(stated)
      .start(start, { azimuth: 90 })
      .laps(3, (outer) => outer.laps(2, oval))
      .build();
    expect(reasons(nested)).toEqual([]);
    const square = (side: number) => (lap: LegBuilder) =>
      [0, 90, 180, 270].reduce((b, azimuth) => b.lineBy({ azimuth, distance: side }), lap);
    const tiny = routeBuilder(stated).start(start).laps(300, square(0.25)).build();
    expect(reasons(tiny)).toEqual([]);
  });

  test('nor is that the way into them runs along their end for a while', () => {
    // the last 40 m before the laps lie within metres of the last 40 m of each
    const route = routeBuilder(stated)
      .start(start)
      .lineBy({ azimuth: 100, distance: 300 })
      .arc({ turn: 'left', radius: 40, sweep: 10 })
      .laps(2, oval)
      .build();
    expect(reasons(route)).not.toContain('repeated-stretch');
  });

  test('but two runs of laps on the same ground are', () => {
    const twice = routeBuilder(stated)
      .start(start, { azimuth: 90 })
      .laps(2, oval)
      .lineBy({ azimuth: 225, distance: 300 })
      .lineBy({ azimuth: 45, distance: 300 })
      .laps(2, oval)
      .build();
    expect(reasons(twice)).toContain('repeated-stretch');
  });

  test('and so is a lap that runs along itself, once for all laps', () => {
    const route = routeBuilder(stated)
      .start(start)
      .laps(9, (lap) => lap.outAndBack((out) => out.lineBy({ azimuth: 20, distance: 200 })))
      .build();
    expect(of(route, 'repeated-stretch')).toMatchObject([{ from: 0, count: 17 }]);
  });
});

describe('a stretch run again and again is told once, with how often', () => {
  test.each([2, 3, 30])('%d laps drawn as a line', (count) => {
    const route = drawn(count);
    const [first] = of(route, 'repeated-stretch');
    expect(Math.abs(first.from)).toBeLessThan(6);
    expect(Math.abs(first.to - route.length / count)).toBeLessThan(6);
    // a hand so steady breaks no lap in two; the end of the last may be a stretch of its own
    expect(total(route, 'repeated-stretch')).toBeGreaterThanOrEqual(count - 1);
    expect(of(route, 'repeated-stretch').length).toBeLessThanOrEqual(3);
    expect(first.message).toMatch(count === 2 ? /is run again from/ : /times more: next from .* last from /);
  });

  test('a street used three times with other ways between', () => {
    const [a, b] = [start, direct(start, 90, 400).position];
    const round = (height: number) => [direct(b, 0, height).position, direct(a, 0, height).position];
    const route = routeFromLine([a, b, ...round(100), a, b, ...round(-200), a, b], stated);
    const [street] = of(route, 'repeated-stretch').filter(({ from, to }) => from < 6 && to - from > 380);
    expect(street).toMatchObject({ count: 2 });
  });
});

describe('crossings', () => {
  test.each([7, 40, 91])('of a star of %d legs are all counted, a hundred told at the most', (legs) => {
    const route = star(legs);
    const steep = [];
    for (let a = 0; a < legs; a++) {
      for (let b = a + 2; b < legs; b++) {
        const apart = ((b - a) * (180 - 180 / legs)) % 180;
        // tips that two legs share, at the whole turn, are no crossing
        if (Math.min(apart, 180 - apart) > 30 && crosses(route, a, b)) steep.push([a, b]);
      }
    }
    expect(total(route, 'self-crossing')).toBe(steep.length);
    expect(steep.length > 100).toBe(of(route, 'self-crossing').length === 100);
    expect(steep.length).toBeGreaterThan(2);
  });

  test('of a way back that winds about the way out are one warning', () => {
    const out = Array.from({ length: 2 }, (_, i) => direct(start, 0, 600 * i).position);
    const back = Array.from(
      { length: 21 },
      (_, i) => direct(direct(start, 0, 590 - 28 * i).position, 90, (i % 2 === 0 ? 1 : -1) * 30).position,
    );
    const route = routeFromLine([...out, ...back], stated);
    const crossings = of(route, 'self-crossing');
    expect(total(route, 'self-crossing')).toBe(20);
    expect(crossings.length).toBe(20); // the way winding is longer than the way out: each is a pair of its own
    const beside = routeFromLine(
      [...out, ...back.map(([lon, lat]) => [start[0] + (lon - start[0]) / 10, lat])],
      stated,
    );
    // under 30° they are stretches run again
    expect(of(beside, 'self-crossing')).toEqual([]);
    expect(of(beside, 'repeated-stretch').length).toBeGreaterThan(0);
  });
});

/** Whether two legs of a route cross, straight in degrees. */
function crosses({ lon, lat }: Route, a: number, b: number): boolean {
  const side = (p: number, q: number, r: number) =>
    Math.sign((lon[q] - lon[p]) * (lat[r] - lat[p]) - (lat[q] - lat[p]) * (lon[r] - lon[p]));
  return side(a, a + 1, b) !== side(a, a + 1, b + 1) && side(b, b + 1, a) !== side(b, b + 1, a + 1);
}

describe('the work grows with the route, however often it meets itself (2026-11: 17.9 s for 200 laps)', () => {
  afterEach(() => vi.restoreAllMocks());

  /** Boxes and edges looked at for the warnings. */
  const work = (route: Route) => {
    const box = vi.spyOn(EdgeBoxes.prototype, 'squaredDistance');
    const foot = vi.spyOn(EdgeFeet.prototype, 'measure');
    expect(route.warnings.length).toBeLessThan(400);
    const count = box.mock.calls.length + foot.mock.calls.length;
    vi.restoreAllMocks();
    return count;
  };

  test.each<[string, (n: number) => Route, number]>([
    ['authored laps', authored, 20],
    ['drawn laps', drawn, 20],
    ['legs 5 km long', (n) => routeFromLine(zigzag(n, 0.05), { ...stated, maxSpacing: 1e5 }), 500],
    ['rows of a field', (n) => routeFromLine(zigzag(n, 0.001), stated), 50],
  ])('%s', (_, make, n) => {
    const [once, twice, fourfold] = [work(make(n)), work(make(2 * n)), work(make(4 * n))];
    expect(twice / once).toBeLessThan(2.3);
    expect(fourfold / twice).toBeLessThan(2.3);
  });

  test.each<[string, (n: number) => Route, number]>([
    ['a star', star, 800],
    ['standing still', standing, 2000],
  ])('%s, which meets itself everywhere, is given up in time', (_, make, n) => {
    const route = make(n);
    expect(work(route)).toBeLessThan(2 * (1e6 + 1000 * route.lon.length) + 50 * route.lon.length);
  });
});

const zigzag = (n: number, height: number): Position[] =>
  Array.from({ length: n }, (_, i) => [start[0] + 0.001 * i, start[1] + (i % 2) * height]);

test('sections that all share a stretch: a hundred pairs told at the most, the others counted', () => {
  const builder = routeBuilder(stated).start(start).lineBy({ azimuth: 30, distance: 800 });
  const count = 3000;
  for (let k = 0; k < count; k++) builder.section(`s${k}`, { from: k / 10, to: 500 + k / 10, halfWidth: 0.1 });
  const route = builder.build();
  const pairs = of(route, 'overlapping-sections');
  expect(pairs.length).toBe(100);
  expect(total(route, 'overlapping-sections')).toBe((count * (count - 1)) / 2);
  expect(total(route, 'narrow-corridor')).toBe(count);
});
