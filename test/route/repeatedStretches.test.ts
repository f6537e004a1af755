import { direct } from 'datumline/geodesy';
import { repeatedStretches, routeBuilder, routeFromLine } from 'datumline/route';
import { expect, test } from 'vitest';
import { EdgeFeet } from '../../src/geodesy/EdgeFeet';
import { countCalls } from '../support/countCalls';

const SPACING = 5;

/** Ends are found at vertices; the figures below are of the plane, centimetres off on the ellipsoid. */
function expectPairs(
  found: ReturnType<typeof repeatedStretches>,
  expected: [number, number, number, number, string][],
) {
  expect(found.map(({ direction }) => direction)).toEqual(expected.map((pair) => pair[4]));
  for (const [i, { first, second }] of found.entries()) {
    for (const [k, end] of [first.from, first.to, second.from, second.to].entries()) {
      expect(Math.abs(end - (expected[i][k] as number)), `pair ${i}, end ${k}`).toBeLessThanOrEqual(SPACING + 0.05);
    }
  }
}

const lap = 2 * Math.PI * 60;

test('laps are repeated in the same direction, every two of them', () => {
  const route = routeBuilder()
    .start([8, 60], { azimuth: 0 })
    .laps(3, (l) => l.arc({ turn: 'left', radius: 60, sweep: 360 }))
    .build();
  expectPairs(repeatedStretches(route, { maxDistance: 2 }), [
    [0, lap, lap, 2 * lap, 'same'],
    [0, lap, 2 * lap, 3 * lap, 'same'],
    [lap, 2 * lap, 2 * lap, 3 * lap, 'same'],
  ]);
});

test('a way back on the same line is repeated in the opposite direction, across ±180° too', () => {
  for (const lon of [8, 179.999]) {
    const route = routeBuilder()
      .start([lon, -45])
      .lineBy({ azimuth: 0, distance: 200 })
      .outAndBack((out) => out.lineBy({ azimuth: 90, distance: 400 }))
      .build();
    expectPairs(repeatedStretches(route, { maxDistance: 2 }), [[200, 600, 600, 1000, 'opposite']]);
  }
});

test('a way back beside the way out counts only within reach', () => {
  const route = routeBuilder()
    .start([8, 60])
    .outAndBack((out) => out.lineBy({ azimuth: 45, distance: 300 }), { returnBeside: { side: 'left', metres: 8 } })
    .build();
  expect(repeatedStretches(route, { maxDistance: 7.9 })).toEqual([]);
  const turn = Math.PI * 4;
  expectPairs(repeatedStretches(route, { maxDistance: 8.1 }), [[0, 300, 300 + turn, 600 + turn, 'opposite']]);
});

test('a street used twice with other ways between', () => {
  const a = [8, 47];
  const b = direct(a, 90, 400).position;
  const c = direct(b, 0, 300).position;
  const d = direct(a, 0, 300).position;
  const route = routeFromLine([d, a, b, c, d, a, b]);
  const found = repeatedStretches(route, { maxDistance: 3 });
  expectPairs(found, [[0, 700, 1400, 2100, 'same']]);
});

test('a crossing is no repetition, nor is a hairpin wider than the reach', () => {
  const crossing = routeFromLine([
    [8, 47],
    [8.01, 47.01],
    [8.01, 47],
    [8, 47.01],
  ]);
  expect(repeatedStretches(crossing, { maxDistance: 5 })).toEqual([]);
  const hairpin = routeBuilder()
    .start([8, 47])
    .lineBy({ azimuth: 0, distance: 200 })
    .uTurn({ side: 'left', width: 20 })
    .lineBy({ azimuth: 180, distance: 200 })
    .build();
  expect(repeatedStretches(hairpin, { maxDistance: 15 })).toEqual([]);
});

test('a reach not above 0 is refused', () => {
  const route = routeFromLine([
    [8, 47],
    [8.01, 47],
  ]);
  expect(() => repeatedStretches(route, { maxDistance: 0 })).toThrow(
    expect.objectContaining({ reason: 'out-of-range', argument: 'options.maxDistance' }),
  );
  expect(() => repeatedStretches(route, {} as never)).toThrow(
    expect.objectContaining({ reason: 'wrong-type', argument: 'options.maxDistance' }),
  );
});

test('each pass with the next one only: pairs, and vertices looked at, grow with the laps', () => {
  const laps = (count: number) =>
    routeBuilder()
      .start([8, 60], { azimuth: 0 })
      .laps(count, (l) => l.arc({ turn: 'left', radius: 60, sweep: 360 }))
      .build();
  const next = { maxDistance: 2, pairs: 'next' } as const;
  expectPairs(repeatedStretches(laps(3), next), [
    [0, lap, lap, 2 * lap, 'same'],
    [lap, 2 * lap, 2 * lap, 3 * lap, 'same'],
  ]);
  const looked = (count: number) =>
    countCalls(EdgeFeet.prototype, 'measure', () =>
      expect(repeatedStretches(laps(count), next)).toHaveLength(count - 1),
    );
  expect(looked(80)).toBeLessThan(2.2 * looked(40));
  // out and back twice: the way on, whichever way it goes
  const there = routeBuilder()
    .start([8, 60])
    .laps(2, (l) => l.outAndBack((out) => out.lineBy({ azimuth: 45, distance: 300 })))
    .build();
  expectPairs(repeatedStretches(there, next), [
    [0, 300, 300, 600, 'opposite'],
    [300, 600, 600, 900, 'opposite'],
    [600, 900, 900, 1200, 'opposite'],
  ]);
  expect(() => repeatedStretches(there, { maxDistance: 2, pairs: 'all' as 'every' })).toThrow(
    expect.objectContaining({ reason: 'wrong-type', argument: 'options.pairs' }),
  );
});

test('within a distance of which no stretch of the route is four times as long nothing is looked at', () => {
  const there = routeBuilder()
    .start([8, 60])
    .outAndBack((out) => out.lineBy({ azimuth: 45, distance: 300 }))
    .build();
  const looked = (maxDistance: number, pairs: number) =>
    countCalls(EdgeFeet.prototype, 'measure', () =>
      expect(repeatedStretches(there, { maxDistance })).toHaveLength(pairs),
    );
  expect(looked(30, 1)).toBeGreaterThan(0);
  expect(looked(8e10, 0)).toBe(0);
});
