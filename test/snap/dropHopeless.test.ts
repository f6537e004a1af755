import { describe, expect, test } from 'vitest';
import { dropHopeless } from '../../src/snap/dropHopeless';
import type { KnotStates } from '../../src/snap/KnotStates';
import { drawnStates, type OneState, roomOf } from '../support/drawnStates';

/** Dropped beside the heaviest of them. */
function drop(room: KnotStates): void {
  const heaviest = (weights: Float64Array) => Math.max(0, ...weights.subarray(0, room.size));
  dropHopeless(room, heaviest(room.best), heaviest(room.sum));
}

const left = ({ bin, size }: { readonly bin: Int32Array; readonly size: number }) => [...bin.subarray(0, size)];

/** The rule in words: no more than 96 unless they weigh alike, by hundredfold shares up to a hundredth of what the heaviest is worth where it fits. */
function byTheRule(states: readonly OneState[]): number[] {
  const top = { best: Math.max(...states.map(({ best }) => best)), sum: Math.max(...states.map(({ sum }) => sum)) };
  const worth = new Map(states.map((one) => [one, Math.max(one.best / top.best, one.sum / top.sum) * one.fit]));
  const most = Math.max(...worth.values());
  const above = (share: number) => states.filter((state) => worth.get(state)! >= share * most);
  // of the shares a hundredth of the heaviest, a ten-thousandth and so on the least that leaves 96 or fewer, if any does
  const shares = [1e-18, 1e-16, 1e-14, 1e-12, 1e-10, 1e-8, 1e-6, 1e-4, 1e-2];
  const share = shares.find((one) => above(one).length <= 96) ?? 1e-2;
  return above(share).map(({ bin }) => bin);
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
    for (const states of drawnStates(count, powers, 60)) {
      const room = roomOf(states);
      drop(room);
      expect(left(room)).toEqual(byTheRule(states));
      dropped += count - room.size;
      // the columns go together
      for (let k = 0; k < room.size; k++) {
        const { best, sum, fit } = states[room.came[k]];
        expect([room.bin[k], room.best[k], room.sum[k], room.fit[k]]).toEqual([left(room)[k], best, sum, fit]);
      }
    }
    if ((count > 96 && powers > 2) || powers > 18) expect(dropped).toBeGreaterThan(0);
  });
});

const alike = (count: number, has: Partial<OneState> = {}): OneState[] =>
  Array.from({ length: count }, (_, k) => ({ bin: 50 * k, best: 1, sum: 1, fit: 0.5, ...has }));

test('96 stay however little they weigh; of one more the light ones go', () => {
  const light = { best: 1e-15, sum: 1e-15, fit: 1 };
  for (const count of [95, 96, 97]) {
    const room = roomOf(
      alike(1, { fit: 1 }).concat(alike(count - 1, light).map((s, k) => ({ ...s, bin: 50 * (k + 1) }))),
    );
    drop(room);
    expect(room.size).toBe(count === 97 ? 1 : count);
  }
});

test('that all weigh alike is no reason to drop any', () => {
  const room = roomOf(alike(1000));
  drop(room);
  expect(room.size).toBe(1000);
});

test('shares: exactly the least stays, a hair less goes', () => {
  const survivors = (second: Partial<OneState>, fit = 1) => {
    const [first, other] = alike(2, { fit: 1 });
    const room = roomOf([
      { ...first, fit },
      { ...other, ...second },
    ]);
    drop(room);
    return left(room);
  };
  expect(survivors({ best: 0, sum: 1e-18 })).toEqual([0, 50]);
  expect(survivors({ best: 0, sum: 0.99e-18 })).toEqual([0]);
  expect(survivors({ best: 1e-18, sum: 0 })).toEqual([0, 50]);
  expect(survivors({ best: 0.99e-18, sum: 0 })).toEqual([0]);
  expect(survivors({ best: 0, sum: 1e-17, fit: 0.05 })).toEqual([0]);
  // beside one that fits as badly
  expect(survivors({ best: 0, sum: 1e-17, fit: 0.05 }, 0.05)).toEqual([0, 50]);
});

test('of states that weigh nothing at all none is dropped, nor any of none', () => {
  const room = roomOf(alike(200, { best: 0, sum: 0 }));
  drop(room);
  expect(room.size).toBe(200);
  const lost = roomOf(alike(200, { fit: 0 }));
  drop(lost);
  expect(lost.size).toBe(200);
  const none = roomOf([]);
  drop(none);
  expect(none.size).toBe(0);
});

/** One that is worth 1, and others as many and as light as told; past them what a knot of more states left behind. */
function keptOf(lighter: readonly (readonly [count: number, worth: number])[], past = 0): number {
  const weights = [1, ...lighter.flatMap(([count, worth]) => new Array<number>(count).fill(worth))];
  const states = [...weights, past].map((weight, k) => ({ bin: 50 * k, best: weight, sum: weight, fit: 1 }));
  const room = roomOf(states);
  room.worth[weights.length] = past;
  room.size = weights.length;
  drop(room);
  return room.size;
}

test('those that are hopeless at once are none of the 96; one that is worth exactly the least is', () => {
  expect(
    keptOf([
      [95, 1e-17],
      [1, 1e-19],
    ]),
  ).toBe(96);
  expect(
    keptOf([
      [95, 1e-17],
      [1, 1e-18],
    ]),
  ).toBe(1);
  // and so at the next share, a hundred times larger
  expect(
    keptOf([
      [95, 1e-15],
      [1, 1e-17],
    ]),
  ).toBe(96);
  expect(
    keptOf([
      [95, 1e-15],
      [1, 1e-18 * 100],
      [1, 1e-17],
    ]),
  ).toBe(1);
});

test('what stood past the states, left behind by a knot of more, counts for nothing', () => {
  expect(keptOf([[95, 1e-17]], 1)).toBe(96);
  expect(
    keptOf(
      [
        [95, 1e-15],
        [1, 1e-17],
      ],
      1,
    ),
  ).toBe(96);
  const room = roomOf([...alike(2, { best: 1, sum: 0 }), ...alike(1, { sum: 1 }), ...alike(1, { best: 1e20, sum: 0 })]);
  room.size = 3;
  drop(room);
  expect(room.size).toBe(3);
});

test('what is worth half of the heaviest is not dropped, however badly all fit', () => {
  const room = roomOf([...alike(1, { fit: 0.05 }), ...alike(99, { best: 0.5, sum: 0.5, fit: 0.05 })]);
  drop(room);
  expect(room.size).toBe(100);
});
