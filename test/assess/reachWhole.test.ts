import { assess, direct, routeBuilder } from 'datumline';
import { expect, test } from 'vitest';
import { simulateRun } from '../support/simulateRun';

const start: [number, number] = [2.1, 61.4];
const corner = direct(start, 90, 500).position;
const route = routeBuilder()
  .start(start)
  .lineTo(corner)
  .lineTo(direct(corner, 0, 400).position)
  .build();
const seeds = Array.from({ length: 40 }, (_, seed) => seed + 100);

test('through placing and all: identical receivers are called different at most one time in ten', () => {
  const verdicts = seeds.map((seed) => {
    const runs = simulateRun(route, { seed, receivers: [{ name: 'a' }, { name: 'b' }] });
    return assess(
      route,
      runs.map(({ recording }) => recording),
    ).pairs[0].verdict;
  });
  expect(verdicts.filter((verdict) => verdict === 'closer').length).toBeLessThanOrEqual(4);
});

test('through placing and all: the interval holds the mean distance of the simulated error', () => {
  // |x| of σ 5 m: 5 √(2/π) = 3.99 m; the route bends once, which leaves it so but for the corner
  const given = seeds.flatMap((seed) => {
    const [{ recording }] = simulateRun(route, { seed });
    const { interval95 } = assess(route, [recording]).rows[0];
    return interval95 === null ? [] : [interval95];
  });
  expect(given.length / seeds.length).toBeGreaterThan(0.9);
  const held = given.filter(([low, high]) => low <= 3.989 && 3.989 <= high);
  expect(held.length / given.length).toBeGreaterThanOrEqual(0.85);
});

test('a detour really travelled is off the route for all, with its length, and said to be shared', () => {
  const runs = simulateRun(route, {
    seed: 3,
    detours: [{ from: 150, to: 350, metres: 150 }],
    receivers: [
      { name: 'a', sigma: 2 },
      { name: 'b', sigma: 2 },
    ],
  });
  const assessment = assess(
    route,
    runs.map(({ recording }) => recording),
  );
  for (const { offRoute, name } of assessment.recordings) {
    expect(offRoute.length, name).toBe(1);
    expect(offRoute[0].peak, name).toBeGreaterThan(140);
    expect(offRoute[0].detour, name).toBeGreaterThan(80);
    expect(offRoute[0].alsoAway, name).toEqual([name === 'a' ? 'b' : 'a']);
    expect(offRoute[0].from, name).toBeGreaterThan(140);
    expect(offRoute[0].to, name).toBeLessThan(360);
  }
  expect(assessment.warnings.map(({ reason }) => reason)).toContain('shared-detour');
});

test('the closer of two is not called so if it was off the route where the other was on it', () => {
  const [{ recording: stray }] = simulateRun(route, {
    seed: 3,
    detours: [{ from: 150, to: 350, metres: 150 }],
    receivers: [{ name: 'stray', sigma: 0.5 }],
  });
  const [{ recording: far }] = simulateRun(route, { seed: 4, receivers: [{ name: 'far', sigma: 0.5, bias: 9 }] });
  const [pair] = assess(route, [stray, far]).pairs;
  expect(pair.difference).toBeLessThan(-2);
  expect(pair.verdict).toBe('undecided');
  expect(pair.limits).toEqual([{ reason: 'off-the-route', message: '“stray” spent more of it off the route.' }]);
});
