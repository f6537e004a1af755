import { assess, type Route, routeBuilder } from 'datumline';
import { describe, expect, test } from 'vitest';
import { type RunOptions, simulateRun } from '../support/simulateRun';

// What all recordings share is not laid at their door: a line on the wrong side of the way, another way, a lap too many.

const start: [number, number] = [2.1, 61.4];
// round a block: a side of the way is no shift of the map
const block = routeBuilder({ lateral95: 0.5 })
  .start(start)
  .section('quay', { halfWidth: 5 })
  .lineBy({ azimuth: 90, distance: 600 })
  .section('lane', { halfWidth: 5 })
  .lineBy({ azimuth: 180, distance: 600 })
  .section('street', { halfWidth: 5 })
  .lineBy({ azimuth: 270, distance: 600 })
  .section('back', { halfWidth: 5 })
  .lineBy({ azimuth: 0, distance: 590 })
  .build();
const names = ['a', 'b', 'c', 'd'];
const carried = (biases: readonly number[], seed: number, has: Partial<RunOptions> = {}) =>
  simulateRun(block, { seed, ...has, receivers: biases.map((bias, i) => ({ name: names[i], sigma: 2, bias })) }).map(
    ({ recording }) => recording,
  );
const warned = (reason: string, biases: readonly number[], seed: number, has: Partial<RunOptions> = {}) =>
  assess(block, carried(biases, seed, has)).warnings.filter((warning) => warning.reason === reason);

describe('a line on the wrong side of the way', () => {
  test('every receiver 6 m right of it: said of all together, with an interval that holds the truth', () => {
    let held = 0;
    for (let seed = 1; seed <= 8; seed++) {
      const found = warned('common-side', [6, 6, 6, 6], seed);
      expect(found).toHaveLength(1);
      const [{ message, section }] = found;
      expect(section).toBeNull();
      const [, metres, low, high] = /together lie (.+) m right of the line \((.+) to (.+)\): what all share/.exec(
        message,
      )!;
      expect(Math.abs(Number(metres) - 6)).toBeLessThan(2);
      if (Number(low) <= 6 && Number(high) >= 6) held++;
    }
    // 95 % of 8: fewer than 6 once in 170
    expect(held).toBeGreaterThanOrEqual(6);
  });

  test.each([
    ['the other side', [-6, -6, -6], ' m left of the line'],
    ['two receivers that agree', [6, 6], ' m right of the line'],
  ])('%s', (_, biases, words) => {
    const found = [1, 2, 3, 4].flatMap((seed) => warned('common-side', biases, seed));
    expect(found.length).toBeGreaterThan(0);
    for (const { message } of found) expect(message).toContain(words);
  });

  test('not said where one lies apart, nor of one alone, nor where none does: 16 tests of four receivers', () => {
    const said = Array.from({ length: 16 }, (_, i) => warned('common-side', [0, 0, 0, 0], 100 + i).length);
    expect(said.filter((count) => count > 0).length).toBeLessThanOrEqual(1);
    expect(warned('common-side', [6, -6, 6, 6], 3)).toEqual([]);
    expect(warned('common-side', [6], 3)).toEqual([]);
  });
});

describe('another way than the line', () => {
  const detours = [{ from: 700, to: 1100, metres: 22 }];

  test('all 22 m off together: the stretch, and how far; not where they go apart or one alone does', () => {
    const found = warned('shared-detour', [0, 0, 0, 0], 5, { detours });
    expect(found).toHaveLength(1);
    const [{ from, to, section, message }] = found;
    expect(section).toBe('lane');
    expect(from!).toBeGreaterThan(690);
    expect(to!).toBeLessThan(1110);
    expect(to! - from!).toBeGreaterThan(100);
    expect(message).toMatch(/^All recordings that pass here lie up to (1\d|2\d) m off the line,/);
    const apart = carried([0, 0, 0], 5, { detours });
    const mixed = assess(block, [...apart.slice(0, 2), ...carried([0, 0, 0], 5).slice(2)]);
    expect(mixed.warnings.map(({ reason }) => reason)).not.toContain('shared-detour');
    expect(warned('shared-detour', [0], 5, { detours })).toEqual([]);
  });

  test('left out, it is not asked about again', () => {
    const { warnings } = assess(block, carried([0, 0, 0], 5, { detours }), {
      exclude: [{ from: 690, to: 1110, reason: 'road works' }],
    });
    expect(warnings.map(({ reason }) => reason)).not.toContain('shared-detour');
  });
});

test('a lap more than the line has: where, and that its passes are taken together', () => {
  const oval = (laps: number): Route =>
    routeBuilder()
      .start(start)
      .lineBy({ azimuth: 90, distance: 200 })
      .laps(laps, (lap) =>
        lap
          .lineBy({ azimuth: 90, distance: 80 })
          .arc({ turn: 'right', radius: 30, sweep: 180 })
          .lineBy({ azimuth: 270, distance: 80 })
          .arc({ turn: 'right', radius: 30, sweep: 180 }),
      )
      .lineBy({ azimuth: 90, distance: 300 })
      .build();
  const ride = (laps: number) =>
    simulateRun(oval(laps), { seed: 4, receivers: [{ name: 'a', sigma: 1 }] }).map(({ recording }) => recording);
  const more = (laps: number) =>
    assess(oval(2), ride(laps)).warnings.filter(({ message }) => message.includes('a lap more than the line has?'));
  expect(more(2)).toEqual([]);
  expect(more(3)).toHaveLength(1);
  const [{ reason, recording, from, to, message }] = more(3);
  expect([reason, recording]).toEqual(['ambiguous', 'a']);
  // one lap of 348 m
  expect(Math.abs(to! - from! - (160 + 60 * Math.PI))).toBeLessThan(15);
  expect(message).toContain('Figures of this stretch take its passes together.');
});

// Of what all share beside the line, a stretch on another way is no part: by construction 6 m, or nothing, without it.
describe('another way on a stretch, and the side of the line on the rest', () => {
  const detours = [{ from: 700, to: 1100, metres: 40 }];

  test('on the line elsewhere: the way is told, no side of the line', () => {
    for (let seed = 1; seed <= 6; seed++) {
      const { warnings } = assess(block, carried([0, 0, 0, 0], 20 + seed, { detours }));
      expect(warnings.map(({ reason }) => reason)).toContain('shared-detour');
      expect(warnings.filter(({ reason }) => reason === 'common-side')).toEqual([]);
    }
  });

  test('6 m right of it elsewhere: both are told, the side with what it is there', () => {
    const found = [1, 2, 3, 4].flatMap((seed) => warned('common-side', [6, 6, 6, 6], 30 + seed, { detours }));
    expect(found.length).toBeGreaterThanOrEqual(3);
    for (const { message } of found) {
      const [, metres] = /together lie (.+) m right of the line/.exec(message)!;
      expect(Math.abs(Number(metres) - 6)).toBeLessThan(2.5);
    }
  });
});
