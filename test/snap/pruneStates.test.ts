import { describe, expect, test } from 'vitest';
import type { KnotStates } from '../../src/snap/KnotStates';
import { pruneStates } from '../../src/snap/pruneStates';
import { drawnStates, type OneState, roomOf } from '../support/drawnStates';

/** Pruned beside the first that is heaviest. */
function prune(room: KnotStates, within: number): void {
  const best = [...room.best.subarray(0, room.size)];
  pruneStates(room, best.indexOf(Math.max(...best)), within, 1);
}

const left = (room: KnotStates) => [...room.bin.subarray(0, room.size)];

/** The rule in words: none outweighed a hundredfold nearby. */
function byTheRule(states: readonly OneState[], within: number): number[] {
  const top = Math.max(...states.map(({ best }) => best));
  const worth = new Map(states.map((state) => [state, Math.max(state.best / top, state.sum)]));
  return states
    .filter((one) =>
      states.every((other) => Math.abs(other.bin - one.bin) > within || worth.get(one)! >= 1e-2 * worth.get(other)!),
    )
    .map(({ bin }) => bin);
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
    let dropped = 0;
    for (const [round, states] of drawnStates(count, powers, 60).entries()) {
      const within = round % 30;
      const room = roomOf(states);
      prune(room, within);
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

const alike = (count: number, has: Partial<OneState> = {}): OneState[] =>
  Array.from({ length: count }, (_, k) => ({ bin: 50 * k, best: 1, sum: 1, fit: 0.5, ...has }));

test('no more stay than can be numbered', () => {
  for (const [count, kept] of [
    [65_534, 65_534],
    [65_535, 65_535],
    [65_536, 65_535],
    [70_000, 65_535],
  ]) {
    const many = roomOf(alike(count));
    prune(many, 3);
    expect(many.size).toBe(kept);
  }
});

test('shares: exactly a hundredth stays, a hair less goes', () => {
  const survivors = (second: Partial<OneState>, within: number) => {
    const [first, other] = alike(2, { fit: 1 });
    const room = roomOf([first, { ...other, ...second }]);
    prune(room, within);
    return left(room);
  };
  expect(survivors({ best: 0, sum: 1e-2 }, 50)).toEqual([0, 50]);
  expect(survivors({ best: 0, sum: 0.99e-2 }, 50)).toEqual([0]);
  expect(survivors({ best: 0, sum: 0.99e-2 }, 49)).toEqual([0, 50]);
  // worth is the better of the two weights
  expect(survivors({ best: 0.5, sum: 0 }, 50)).toEqual([0, 50]);
  expect(survivors({ best: 0, sum: 0.5 }, 50)).toEqual([0, 50]);
});

test('of the first heaviest state: its bin, and whether it fits its fix so badly that the body may be anywhere', () => {
  const told = (states: readonly OneState[]) => {
    const room = roomOf(states);
    room.lost = true;
    prune(room, 1);
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

test('what stood past the states, left behind by a knot of more, counts for nothing', () => {
  const [one, two, past] = alike(3, { fit: 0.5 }).map((state, k) => ({ ...state, bin: 2 * k }));
  const room = roomOf([one, two, { ...past, best: 900, sum: 900 }]);
  room.worth[2] = 900;
  room.size = 2;
  prune(room, 5);
  expect([left(room), room.heaviest]).toEqual([[0, 2], 0]);
});
