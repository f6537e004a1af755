import type { Position } from 'geojson';
import { afterEach, describe, expect, test, vi } from 'vitest';
import { curveOf } from '../../src/metrics/curveOf';
import { FreeInterval } from '../../src/metrics/FreeInterval';
import { FreeSpace } from '../../src/metrics/FreeSpace';
import { NotedSweep, type Way } from '../../src/metrics/NotedSweep';
import { pathCrosses } from '../../src/metrics/pathCrosses';
import { SweepFront } from '../../src/metrics/SweepFront';
import { direct } from '../../src/subpaths/geodesy';
import { onEquator } from '../support/onEquator';
import { freePart, planeFrechet, reachedParts } from '../support/planeFrechet';
import { seeded } from '../support/randomLine';

vi.mock('../../src/metrics/pathCrosses', { spy: true });

const freeSpace = (a: readonly Position[], b: readonly Position[]) =>
  new FreeSpace(curveOf(onEquator(a), 'a', 'joined'), curveOf(onEquator(b), 'b', 'joined'));

/** Distances up to so much over the one asked for count as within. */
const SLACK = 1e-7;

/** Metres to which lines by the equator are plane. */
const PLANE = 1e-8;

/** By the whole diagram in the plane: whether it is crossed, and the last vertex of `a` with a place that is reached. */
function diagram(a: readonly Position[], b: readonly Position[], distance: number) {
  const reached = reachedParts(
    a.length - 1,
    b.length - 1,
    (i, j) => freePart(a[i], b[j], b[j + 1], distance),
    (i, j) => freePart(b[j], a[i], a[i + 1], distance),
  );
  const isReached = reached.map((column) => column.some((part) => part !== undefined));
  return { crossed: reached[a.length - 1][b.length - 2]?.[1] === 1, last: isReached.lastIndexOf(true) };
}

const apart = ([x, y]: Position, [u, v]: Position) => Math.hypot(x - u, y - v);

/** A line that goes on, stands, turns back and crosses itself; corners on a grid, so that right angles and ties come up. */
function restless(random: () => number, count: number): Position[] {
  const line: Position[] = [[Math.round(random() * 2), Math.round(random() * 2)]];
  while (line.length < count) {
    const [x, y] = line[line.length - 1];
    line.push([x + Math.round(random() * 5 - 1.8), y + Math.round(random() * 4 - 2)]);
  }
  return line;
}

afterEach(() => vi.restoreAllMocks());

test('crosses where the whole diagram is crossed, and is stuck at the last vertex that is reached', () => {
  const random = seeded(301);
  let [crossed, stuck] = [0, 0];
  for (let round = 0; round < 900; round++) {
    const a = restless(random, 2 + Math.floor(random() * 6));
    const b = restless(random, 2 + Math.floor(random() * 6));
    const space = freeSpace(a, b);
    for (let k = 0; k < 3; k++) {
      const distance = 0.3 + random() * 5;
      const found = space.crosses(distance);
      const [least, most] = [-PLANE, PLANE].map((more) => diagram(a, b, distance + SLACK + more));
      if (least.crossed !== most.crossed || least.last !== most.last) continue;
      const trace = JSON.stringify({ a, b, distance });
      expect(found, trace).toBe(most.crossed);
      const ends = apart(a[0], b[0]) <= distance && apart(a[a.length - 1], b[b.length - 1]) <= distance;
      if (found) crossed++;
      else expect(space.stuck, trace).toBe(ends ? most.last : 0);
      if (!found && ends) stuck++;
    }
  }
  expect(crossed).toBeGreaterThan(100);
  expect(stuck).toBeGreaterThan(100);
});

test('a hop past a place where the lines part is none', () => {
  const once: Position[] = [
    [0, 0],
    [10, 0],
  ];
  const twice: Position[] = [
    [0, 0],
    [10, 0.1],
    [0, 0],
    [10, 0],
  ];
  for (const [a, b] of [
    [once, twice],
    [twice, once],
  ]) {
    expect(freeSpace(a, b).crosses(2)).toBe(false);
    expect(freeSpace(a, b).crosses(5.1)).toBe(true);
  }
});

test('100 km apart every place of one line that is in reach of the start of the other counts', () => {
  // on a circle about it, to the last micrometre: in reach, but not by the bounds of a chord on any ellipsoid's sphere
  const start: Position = [5, 60];
  const b = [-0.8, -0.5, -0.2, 0.1].map((azimuth) => direct(start, azimuth, 100_000).position);
  const aside = direct(start, 90, 10).position;
  const away = direct(start, 180, 3).position;
  const space = new FreeSpace(curveOf([start, aside, away, aside], 'a', 'joined'), curveOf(b, 'b', 'joined'));
  expect(space.crosses(100_000)).toBe(false);
  expect(space.stuck).toBe(1);
});

test('of lines with many vertices too', () => {
  const random = seeded(302);
  for (let round = 0; round < 10; round++) {
    const a = restless(random, 70 + Math.floor(random() * 90));
    const b = a.flatMap(([x, y]): Position[] =>
      random() < 0.2 ? [] : [[x + (random() - 0.5) * 3, y + (random() - 0.5) * 3]],
    );
    const exact = planeFrechet(a, b);
    const space = freeSpace(a, b);
    expect(space.crosses(exact + PLANE)).toBe(true);
    expect(space.crosses(exact - SLACK - PLANE)).toBe(false);
  }
});

test('of lines about one place, found by a path, or swept from both ends', () => {
  const random = seeded(304);
  const about = (count: number) => Array.from({ length: count }, (): Position => [random() * 9, random() * 9]);
  const begun = vi.spyOn(NotedSweep.prototype, 'begin');
  for (let round = 0; round < 6; round++) {
    const [a, b] = [about(60 + 10 * round), about(80)];
    const exact = planeFrechet(a, b);
    for (const by of [PLANE, 0.1, 2]) {
      expect(freeSpace(a, b).crosses(exact + by)).toBe(true);
      expect(freeSpace(a, b).crosses(exact - SLACK - by)).toBe(false);
    }
  }
  // a sweep from the end as well as from the start, for some of the 36
  expect(begun.mock.calls.length).toBeGreaterThan(36);
});

test('a leash too short by up to 1e-7 m is long enough, for starts, ends and the way between', () => {
  const pairs: [Position[], Position[]][] = [
    [
      [
        [0, 0],
        [50, 0],
      ],
      [
        [0, 3],
        [50, 1],
      ],
    ],
    [
      [
        [0, 0],
        [50, 0],
      ],
      [
        [0, 1],
        [50, 3],
      ],
    ],
    [
      [
        [0, 0],
        [50, 0],
      ],
      [
        [0, 1],
        [25, 3],
        [50, 1],
      ],
    ],
  ];
  for (const [a, b] of pairs) {
    expect(freeSpace(a, b).crosses(3 - 0.9e-7)).toBe(true);
    expect(freeSpace(a, b).crosses(3 - 1.1e-7)).toBe(false);
  }
});

test('an edge far longer than those of the other line', () => {
  const long: Position[] = [
    [0, 0],
    [900, 0],
  ];
  const short = Array.from({ length: 91 }, (_, i): Position => [10 * i, i % 2]);
  for (const [a, b] of [
    [long, short],
    [short, long],
  ]) {
    expect(freeSpace(a, b).crosses(1.01)).toBe(true);
    expect(freeSpace(a, b).crosses(0.99)).toBe(false);
  }
});

/** A line along the axis with a vertex a metre, and beside it one with thorns: so high at a vertex, which it passes. */
function thorny(length: number, thorns: Record<number, number>): [Position[], Position[]] {
  const straight = Array.from({ length: length + 1 }, (_, i): Position => [i, 0]);
  return [straight, straight.map(([x]) => [x, thorns[x] ?? 0])];
}

/** Beside a line with a vertex a metre another with edges of 20 m, every 100 m one. */
function withLongEdges(count: number, length = 100 * count + 100): [Position[], Position[]] {
  const [a, b] = thorny(length, {});
  return [a, b.filter(([x]) => x > 100 * count || x % 100 <= 30 || x % 100 >= 50)];
}

/** A line with a vertex a metre, and the same with a stretch gone back, half a metre aside, and over again. */
function backtrack(metres: number, at = 200): [Position[], Position[]] {
  const [a] = thorny(2 * at, {});
  const back = a.slice(at - metres, at).reverse();
  return [a, [...a.slice(0, at + 1), ...back.map(([x]) => [x, 0.5]), ...a.slice(at + 1 - metres)]];
}

describe('the way past the place where it is stuck', () => {
  test.each([
    [{ 10: 3 }, 3],
    [{ 100: 3, 500: 5 }, 3],
    [{ 100: 3, 300: 5 }, 5],
    [{ 100: 3, 350: 5 }, 5],
    [{ 100: 3, 360: 5 }, 3],
    [{ 599: 4 }, 4],
  ])('with thorns %j takes %d m: those of some 256 vertices on count', (thorns, expected) => {
    const space = freeSpace(...thorny(600, thorns));
    expect(space.crosses(2)).toBe(false);
    expect(Math.abs(space.passes(2, 10, 1e-6) - expected)).toBeLessThan(2e-6);
  });

  test('where one line goes on beyond the end of the other is at the end', () => {
    const [a, b] = thorny(300, {});
    const space = freeSpace(a, [...b, [300, 7], [300, 1]]);
    expect(space.crosses(2)).toBe(false);
    expect(space.stuck).toBe(300);
    expect(Math.abs(space.passes(2, 10, 1e-6) - 7)).toBeLessThan(2e-6);
  });

  test('is found to the last bit where no tolerance is given, between the bounds that are', () => {
    // a middle of two neighbouring numbers is now the one, now the other
    for (const height of [2.5, 2.6, 2.7, 2.8, 2.9, 3.1, 3.2]) {
      const space = freeSpace(...thorny(20, { 10: height }));
      space.crosses(2);
      expect(Math.abs(space.passes(2, 10, 0) - height + SLACK)).toBeLessThan(PLANE);
    }
    const space = freeSpace(...thorny(20, { 10: 3 }));
    space.crosses(2);
    expect(space.passes(2, 2.9, 1e-3)).toBe(2.9);
    expect(Math.abs(space.passes(2, 10, 0.5) - 3)).toBeLessThan(0.5);
  });

  test('may begin long before it', () => {
    const [a, b] = backtrack(20, 60);
    const space = freeSpace(a, b);
    expect(space.crosses(5)).toBe(false);
    expect(Math.abs(space.passes(5, 30, 1e-6) - planeFrechet(a, b))).toBeLessThan(2e-6);
  });

  test('is unknown before a crossing is tried, and after the whole diagram was crossed', () => {
    const space = freeSpace(...withLongEdges(6));
    expect(space.passes(2, 10, 1e-3)).toBe(10);
    expect(space.crosses(2.5)).toBe(true);
    expect(space.passes(2, 10, 1e-3)).toBe(10);
  });

  test('is still that past the last that failed after a crossing that succeeded', () => {
    const space = freeSpace(...thorny(20, { 0: 1, 10: 3 }));
    expect(space.crosses(2)).toBe(false);
    expect(space.crosses(3.5)).toBe(true);
    expect(space.stuck).toBe(0);
    expect(Math.abs(space.passes(2, 3.5, 1e-6) - 3)).toBeLessThan(2e-6);
  });

  test('is unknown after a crossing that was not tried because the ends are too far apart', () => {
    const [a, b] = thorny(20, { 0: 1, 10: 3 });
    const space = freeSpace(a, b);
    expect(space.crosses(2)).toBe(false);
    expect(space.stuck).toBe(diagram(a, b, 2).last);
    expect(space.crosses(0.5)).toBe(false);
    expect(space.stuck).toBe(0);
    expect(space.passes(2, 10, 1e-3)).toBe(10);
  });

  test.each([300, 900, 1800])('begins %d vertices before it where that is needed', (metres) => {
    const low = metres / 2 - 5;
    const space = freeSpace(...backtrack(metres, 2000));
    expect(space.crosses(low)).toBe(false);
    // what nearer beginnings say is too much
    let guess = metres;
    for (let round = 0; round < 8; round++) {
      const less = space.passes(low, guess - 1e-6, 1e-7);
      if (less < guess - 1e-6) guess = less;
    }
    // by the definition: half the way back, to a vertex or between two, half a metre aside
    expect(guess).toBeGreaterThan(metres / 2 - 1);
    expect(guess).toBeLessThan(Math.hypot(metres / 2, 0.5) + 1e-6);
    expect(space.crosses(guess)).toBe(true);
    expect(space.crosses(guess - 3e-6)).toBe(false);
  });

  test('of short lines is the whole way, also where sweeps from both ends do not meet', () => {
    const random = seeded(305);
    const wanderer = (count: number) => {
      let [x, y] = [0, 0];
      return Array.from({ length: count }, (): Position => {
        [x, y] = [x, y].map((at) => 0.8 * at + 9 * (random() - 0.5));
        return [x, y];
      });
    };
    const leads = vi.spyOn(NotedSweep.prototype, 'leads');
    let unmet = 0;
    for (let round = 0; round < 30; round++) {
      const [a, b] = [wanderer(80), wanderer(90)];
      const exact = planeFrechet(a, b);
      const low = exact - 0.1;
      if (Math.max(apart(a[0], b[0]), apart(a[79], b[89])) > low) continue;
      const space = freeSpace(a, b);
      leads.mockClear();
      expect(space.crosses(low)).toBe(false);
      expect(Math.abs(space.passes(low, exact + 2, 1e-6) - exact)).toBeLessThan(2e-6);
      if (leads.mock.calls.some(([way]) => way.runs !== undefined)) unmet++;
    }
    expect(unmet).toBeGreaterThan(3);
  });

  test('is sought around there only, however long the lines', () => {
    const space = freeSpace(...thorny(4000, { 3700: 3 }));
    space.crosses(2);
    const advance = vi.spyOn(SweepFront.prototype, 'advance');
    space.passes(2, 10, 1);
    // whether it leads at all, and 3 halvings, of some 256 columns before and 256 after
    expect(advance.mock.calls.length).toBeLessThan(4 * 520);
  });

  test('is not sought between the bounds where none leads a little below the upper one', () => {
    const leads = vi.spyOn(NotedSweep.prototype, 'leads');
    const space = freeSpace(...thorny(20, { 10: 9.5 }));
    space.crosses(2);
    expect(space.passes(2, 10, 1)).toBe(10);
    expect(leads.mock.calls.length).toBe(1);
  });

  test('is unknown where it is no longer than the lower bound, within the tolerance', () => {
    const space = freeSpace(...thorny(20, { 10: 3 }));
    space.crosses(2);
    expect(space.passes(4, 8, 1)).toBe(8);
    expect(space.passes(4, 8, 1e-6)).toBe(8);
    expect(Math.abs(space.passes(2, 8, 1e-6) - 3)).toBeLessThan(2e-6);
  });

  test('that takes too long to look at counts as one that leads if it is the nearest, and tells nothing if farther', () => {
    const space = freeSpace(...thorny(2000, { 1000: 3 }));
    space.crosses(2);
    const asked: Way[] = [];
    const leads = vi.spyOn(NotedSweep.prototype, 'leads').mockImplementation((way, free) => {
      asked.push(way);
      return free.sure2 < 25 ? false : undefined;
    });
    expect(Math.abs(space.passes(2, 10, 1e-3) - 5)).toBeLessThan(0.1);
    expect(new Set(asked).size).toBe(1);
    const [nearest] = asked.splice(0);
    leads.mockImplementation((way) => {
      asked.push(way);
      return way === nearest ? false : undefined;
    });
    expect(space.passes(2, 10, 1e-3)).toBe(10);
    expect(asked.length).toBe(2);
  });

  test('is looked for in so many cells a vertex, at the least 2^15, four times as many where that told nothing', () => {
    const leads = vi.spyOn(NotedSweep.prototype, 'leads').mockReturnValue(false);
    for (const [length, least] of [
      [20, 2 ** 15],
      [4000, 16 * 8000],
    ]) {
      const space = freeSpace(...thorny(length, { 10: 3 }));
      space.crosses(2);
      leads.mockClear();
      for (let round = 0; round < 3; round++) space.passes(2, 10, 1e-3);
      expect(leads.mock.calls.map(([, , cells]) => cells)).toEqual([least, 4 * least, 16 * least]);
    }
  });
});

describe('what a decision costs', () => {
  /** Places of the first line as far as which a sweep began, and whether the whole diagram was swept. */
  function watched(space: FreeSpace, distance: number) {
    const begun = vi.spyOn(SweepFront.prototype, 'startAt');
    const whole = vi.spyOn(SweepFront.prototype, 'startFrom');
    const measured = vi.spyOn(FreeInterval.prototype, 'measure');
    const crossed = space.crosses(distance);
    const since = whole.mock.invocationCallOrder[0] ?? Infinity;
    return {
      crossed,
      begun: begun.mock.calls,
      whole: whole.mock.calls.length,
      measured: measured.mock.calls.length,
      inWhole: measured.mock.invocationCallOrder.filter((order) => order > since).length,
    };
  }

  test('lines whose vertices keep within the distance are hopped along: nothing is swept', () => {
    const [a, b] = thorny(500, { 3: 1, 200: 1.5 });
    const without = b.filter((_, i) => i % 3 !== 1);
    for (const [first, second] of [
      [a, b],
      [a, without],
      [without, a],
      [a, [...b, [500.4, 0], [500.8, 1], [501, 0]]],
      [[...a, [500.4, 0], [500.8, 1], [501, 0]], b],
    ]) {
      const found = watched(freeSpace(first, second), 2);
      expect(found).toEqual({ crossed: true, begun: [], whole: 0, measured: 0, inWhole: 0 });
    }
  });

  test('where one line stays long near the start of the other, the whole diagram is little', () => {
    const random = seeded(303);
    const near = Array.from({ length: 3000 }, (): Position => [random(), random()]);
    const found = watched(
      freeSpace(
        [
          [0, 0],
          [0.5, 0],
          [0, 0],
        ],
        [...near, [0, 5], [0, 0]],
      ),
      2,
    );
    expect(found).toMatchObject({ crossed: false, whole: 1 });
    expect(found.inWhole).toBeLessThan(100);
  });

  test('a sweep leads past an edge without vertices, and hops go on from there', () => {
    const found = watched(freeSpace(...withLongEdges(1)), 2.5);
    // the walk along the first line ends 2 m after the last vertex of the other
    expect(found).toMatchObject({ crossed: true, begun: [[32, 30]], whole: 0 });
    expect(found.measured).toBeLessThan(200);
  });

  test.each([
    [5, 600, 0],
    [6, 700, 1],
    [20, 2100, 1],
    [7, 8300, 0],
    [6, 4095, 0],
  ])('%d such edges on %d m: the whole diagram is swept %d times', (count, length, whole) => {
    const found = watched(freeSpace(...withLongEdges(count, length)), 2.5);
    expect(found).toMatchObject({ crossed: true, whole });
    expect(found.begun.length).toBe(whole === 0 ? count : 5);
  });

  test('hops into a dead end are tried again from 8 vertices before, and from 64', () => {
    expect(watched(freeSpace(...backtrack(6)), 4.5)).toMatchObject({
      crossed: true,
      begun: [
        [204, 200],
        [196, 196],
      ],
      whole: 0,
    });
    vi.restoreAllMocks();
    expect(watched(freeSpace(...backtrack(20)), 12.5)).toMatchObject({
      crossed: true,
      begun: [
        [212, 200],
        [204, 200],
        [148, 148],
      ],
      whole: 0,
    });
  });

  test('or from before a stretch that was swept past', () => {
    const [a] = thorny(200, {});
    const xs = [...Array(31).keys(), 50];
    const b: Position[] = [
      ...xs.map((x): Position => [x, 0]),
      ...[49, 48, 47, 46, 45, 44].map((x): Position => [x, 0.5]),
    ];
    const found = watched(freeSpace(a, [...b, ...a.slice(45)]), 3.7);
    expect(found).toMatchObject({ crossed: true, whole: 0 });
    // 8 vertices before either dead end there is no pair: the last one was 3 m past the last vertex before the gap
    expect(found.begun.filter(([i, j]) => i === 33 && j === 30).length).toBe(3);
    for (const [i] of found.begun) expect(i <= 33 || i >= 47).toBe(true);
  });

  test('and where that leads nowhere, the whole diagram says so', () => {
    const found = watched(freeSpace(...backtrack(150)), 60.5);
    expect(found).toMatchObject({ crossed: false, whole: 1 });
    expect(found.begun.length).toBe(3);
  });
});

describe('lines about one place, swept from both ends in turns', () => {
  const DISTANCE = 2.5;
  const [middle, away]: Position[] = [
    [2, 2],
    [2, 60],
  ];

  /** A line from the middle of a square back there; a part of its vertices is nearer to it. */
  function about(random: () => number, count: number, near = 0): Position[] {
    const within = (size: number) => 2 + size * (random() - 0.5);
    const places = Array.from({ length: count }, (_, i): Position => {
      const size = i < near ? 0.5 : 4;
      return [within(size), within(size)];
    });
    return [middle, ...places, middle];
  }

  /** Two such lines, and the second with a vertex far off in its middle, or near its end. */
  function lines(seed: number, count: number, near = 0) {
    const random = seeded(seed);
    const [a, b] = [about(random, count, near), about(random, count)];
    const awayAt = (line: readonly Position[], at: number) => [...line.slice(0, at), away, ...line.slice(at)];
    return { a, b, parted: awayAt(b, count / 2), late: awayAt(a, a.length - 20) };
  }

  /** A decision, the cells that each sweep looks at and columns it goes on by, and what looks for some path may cost. */
  function swept(space: FreeSpace, distance: number) {
    const path = vi.mocked(pathCrosses).mockClear().mock;
    const { advance } = NotedSweep.prototype;
    const steps: { sweep: NotedSweep; cells: number; order: number }[] = [];
    const spy = vi.spyOn(NotedSweep.prototype, 'advance').mockImplementation(function (this: NotedSweep, free) {
      const before = this.work;
      const on = advance.call(this, free);
      steps.push({ sweep: this, cells: this.work - before, order: spy.mock.invocationCallOrder[steps.length] });
      return on;
    });
    const crossed = space.crosses(distance);
    spy.mockRestore();
    const cellsOf = (some: typeof steps) => some.reduce((sum, { cells }) => sum + cells, 0);
    const looks = path.calls.map(([, , , cells], k) => ({
      cells,
      swept: cellsOf(steps.filter(({ order }) => order < path.invocationCallOrder[k])),
    }));
    const sweeps = [...new Set(steps.map(({ sweep }) => sweep))].map((one) => {
      const own = steps.filter(({ sweep }) => sweep === one);
      return { cells: cellsOf(own), columns: own.length };
    });
    return { crossed, sweeps, looks, most: Math.max(...steps.map(({ cells }) => cells)) };
  }

  test.each([311, 312, 313])('each column is swept once, from either end with as many cells (seed %d)', (seed) => {
    const { a, parted } = lines(seed, 300);
    const { crossed, sweeps, looks, most } = swept(freeSpace(a, parted), DISTANCE);
    expect(crossed).toBe(false);
    const [forth, back] = sweeps;
    expect(forth.columns + back.columns).toBe(a.length - 1);
    expect(Math.abs(forth.cells - looks[0].swept - back.cells)).toBeLessThanOrEqual(most);
  });

  test('a look for some path may cost as much as was swept before it, to twice as much', () => {
    const { a, parted } = lines(311, 300);
    const { looks } = swept(freeSpace(a, parted), DISTANCE);
    expect(looks.length).toBeGreaterThan(2);
    for (const { cells, swept } of looks) {
      expect(cells).toBeGreaterThan(swept);
      expect(cells).toBeLessThanOrEqual(2 * swept);
    }
  });

  test('where some path crosses, nothing more is swept', () => {
    const { a, b } = lines(311, 300);
    const { crossed, sweeps, looks } = swept(freeSpace(a, b), DISTANCE);
    expect(crossed).toBe(true);
    expect(looks.length).toBe(1);
    expect(sweeps.reduce((sum, { cells }) => sum + cells, 0)).toBe(looks[0].swept);
  });

  test('a decision costs the same whatever was decided before', () => {
    const { a, parted } = lines(311, 300);
    const space = freeSpace(a, parted);
    for (const distance of [DISTANCE, 3, 2.7]) {
      expect(swept(space, distance)).toEqual(swept(freeSpace(a, parted), distance));
    }
  });

  test('where one is stuck is counted from the end where it began', () => {
    const { b: round, late } = lines(311, 300);
    const b: Position[] = [...round, [2, 3]];
    const space = freeSpace(late, b);
    expect(space.from).toBe('start');
    expect(space.crosses(DISTANCE)).toBe(false);
    expect(space.from).toBe('end');
    expect(space.stuck).toBe(diagram([...late].reverse(), [...b].reverse(), DISTANCE).last);
    // the ends are farther apart: nothing is swept
    expect(space.crosses(0.5)).toBe(false);
    expect(space).toMatchObject({ from: 'start', stuck: 0 });
    const other = freeSpace([...late].reverse(), b);
    expect(other.crosses(DISTANCE)).toBe(false);
    expect(other.from).toBe('start');
    expect(other.stuck).toBe(19);
  });

  test.each([0, 500])('ways past where they do not meet begin and end farther and farther from there (%d)', (near) => {
    const { a, parted } = lines(311, 800, near);
    const space = freeSpace(a, parted);
    const { crossed, sweeps } = swept(space, DISTANCE);
    expect(crossed).toBe(false);
    const meeting = sweeps[0].columns;
    expect(space.stuck).toBe(meeting);
    const asked: Way[] = [];
    vi.spyOn(NotedSweep.prototype, 'leads').mockImplementation((way) => {
      asked.push(way);
      return false;
    });
    space.passes(DISTANCE, 60, 1e-3);
    const back = asked.map(({ from }) => meeting - from.vertex);
    const on = asked.map(({ to }) => to - meeting);
    expect(asked.length).toBeGreaterThan(1);
    for (const [k, vertices] of back.entries()) {
      if (k > 0) expect(vertices).toBeGreaterThan(back[k - 1]);
      if (k > 0) expect(on[k]).toBeGreaterThanOrEqual(on[k - 1]);
    }
    expect(asked[asked.length - 1].from.vertex).toBe(0);
    expect(on[on.length - 1]).toBe(sweeps[1].columns);
    expect(back[0]).toBeLessThanOrEqual(256 + 64);
    expect(on[0]).toBeLessThanOrEqual(256 + 64);
  });
});
