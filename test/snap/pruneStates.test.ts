import { describe, expect, test } from 'vitest';
import { KnotStates } from '../../src/snap/KnotStates';
import { pruneStates } from '../../src/snap/pruneStates';
import { seeded } from '../support/randomLine';

interface State {
  readonly bin: number;
  readonly best: number;
  readonly sum: number;
  readonly fit: number;
}

function roomOf(states: readonly State[]): KnotStates {
  const room = new KnotStates();
  for (const [k, { bin, best, sum, fit }] of states.entries()) {
    room.add(bin);
    [room.best[k], room.sum[k], room.fit[k], room.came[k]] = [best, sum, fit, k];
  }
  return room;
}

const left = (room: KnotStates) => [...room.bin.subarray(0, room.size)];

/** The rule in words: no more than 96 unless they weigh alike, by hundredfold shares; then none outweighed a thousandfold nearby. */
function byTheRule(states: readonly State[], within: number): number[] {
  const top = Math.max(...states.map(({ best }) => best));
  const worth = new Map(states.map((state) => [state, Math.max(state.best / top, state.sum)]));
  const above = (share: number) => states.filter((state) => worth.get(state)! * state.fit >= share);
  let share = 1e-18;
  // the share that leaves 96 or fewer, or the last that leaves any
  for (let count = above(share).length; count > 96; ) {
    const fewer = above(100 * share).length;
    if (fewer > 0) share *= 100;
    count = fewer;
  }
  const hopeful = above(share);
  return hopeful
    .filter((one) =>
      hopeful.every((other) => Math.abs(other.bin - one.bin) > within || worth.get(one)! >= 1e-3 * worth.get(other)!),
    )
    .map(({ bin }) => bin);
}

/** Weights over many powers of ten, in clusters of bins a few apart. */
function drawn(random: () => number, count: number, powers: number): State[] {
  let bin = Math.floor(random() * 5);
  return Array.from({ length: count }, () => {
    bin += random() < 0.1 ? 200 : 1 + Math.floor(3 * random());
    const weight = 10 ** (-powers * random());
    return { bin, best: 7 * weight, sum: weight * (0.2 + random()), fit: random() < 0.1 ? 1e-5 : random() };
  });
}

describe('what is left is what the rule in words leaves', () => {
  test.each([
    [3, 6],
    [40, 12],
    [96, 30],
    [97, 0.5],
    [130, 4],
    [300, 2],
    [300, 25],
  ])('of %i states over %f powers of ten', (count, powers) => {
    const random = seeded(count + powers);
    let dropped = 0;
    for (let round = 0; round < 60; round++) {
      const states = drawn(random, count, powers);
      const within = Math.floor(random() * 30);
      const room = roomOf(states);
      pruneStates(room, within);
      expect(left(room), `round ${round}`).toEqual(byTheRule(states, within));
      dropped += count - room.size;
      // the columns go together
      for (let k = 0; k < room.size; k++) {
        const { best, sum, fit } = states[room.came[k]];
        expect([room.bin[k], room.best[k], room.sum[k], room.fit[k]]).toEqual([left(room)[k], best, sum, fit]);
      }
    }
    if (powers >= 4) expect(dropped).toBeGreaterThan(0);
  });
});

const alike = (count: number, has: Partial<State> = {}): State[] =>
  Array.from({ length: count }, (_, k) => ({ bin: 50 * k, best: 1, sum: 1, fit: 0.5, ...has }));

test('96 stay however little they weigh; of one more the light ones go', () => {
  const light = { best: 1e-15, sum: 1e-15, fit: 1 };
  for (const count of [95, 96, 97]) {
    const room = roomOf(
      alike(1, { fit: 1 }).concat(alike(count - 1, light).map((s, k) => ({ ...s, bin: 50 * (k + 1) }))),
    );
    pruneStates(room, 3);
    expect(room.size).toBe(count === 97 ? 1 : count);
  }
});

test('that all weigh alike is no reason to drop any, but for more than can be numbered', () => {
  const room = roomOf(alike(1000));
  pruneStates(room, 3);
  expect(room.size).toBe(1000);
  for (const [count, kept] of [
    [65_534, 65_534],
    [65_535, 65_535],
    [65_536, 65_535],
    [70_000, 65_535],
  ]) {
    const many = roomOf(alike(count));
    pruneStates(many, 3);
    expect(many.size).toBe(kept);
  }
});

test('shares: exactly the least stays, exactly a thousandth stays, half a hair less goes', () => {
  const survivors = (second: Partial<State>, within: number) => {
    const [first, other] = alike(2, { fit: 1 });
    const room = roomOf([first, { ...other, ...second }]);
    pruneStates(room, within);
    return left(room);
  };
  expect(survivors({ best: 0, sum: 1e-18 }, 49)).toEqual([0, 50]);
  expect(survivors({ best: 0, sum: 0.99e-18 }, 49)).toEqual([0]);
  expect(survivors({ best: 0, sum: 1e-17, fit: 0.05 }, 49)).toEqual([0]);
  expect(survivors({ best: 0, sum: 1e-3 }, 50)).toEqual([0, 50]);
  expect(survivors({ best: 0, sum: 0.99e-3 }, 50)).toEqual([0]);
  expect(survivors({ best: 0, sum: 0.99e-3 }, 49)).toEqual([0, 50]);
  // worth is the better of the two weights
  expect(survivors({ best: 0.5, sum: 0 }, 50)).toEqual([0, 50]);
  expect(survivors({ best: 0, sum: 0.5 }, 50)).toEqual([0, 50]);
});

test('of the first heaviest state: its bin, and whether it fits its fix so badly that the body may be anywhere', () => {
  const told = (states: readonly State[]) => {
    const room = roomOf(states);
    room.lost = true;
    pruneStates(room, 1);
    return [room.heaviest, room.lost];
  };
  const fits = (fit: number) => alike(3).map((state, k) => (k === 1 ? { ...state, best: 2, fit } : state));
  expect(told(fits(0.5))).toEqual([50, false]);
  expect(told(fits(0.01))).toEqual([50, false]);
  expect(told(fits(0.0099))).toEqual([50, true]);
  // not for others that fit as badly, nor those that come later and weigh the same
  expect(told(alike(3).map((state, k) => ({ ...state, fit: k === 0 ? 0.5 : 1e-4 })))).toEqual([0, false]);
  expect(told(alike(1, { fit: 1e-3 }))).toEqual([0, true]);
});
