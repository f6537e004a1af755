import fc from 'fast-check';
import { expect, test } from 'vitest';
import { selectByKey } from '../../src/index/selectByKey';

/** Keys for which the middle one of three is always the second least of all: such orders would take n² / 4 comparisons. */
function worst(n: number): Float64Array {
  const keys = new Float64Array(n).fill(Infinity);
  const order = Int32Array.from({ length: n }, (_, i) => i);
  let next = 0;
  for (let low = 0; low < n; ) {
    const high = n - 1;
    for (const at of [low, (low + high) >> 1]) if (keys[order[at]] === Infinity) keys[order[at]] = next++;
    const pivot = Math.max(keys[order[low]], keys[order[(low + high) >> 1]]);
    let i = low;
    let j = high;
    while (i <= j) {
      while (keys[order[i]] < pivot) i++;
      while (keys[order[j]] > pivot) j--;
      if (i > j) break;
      [order[i], order[j]] = [order[j], order[i]];
      i++;
      j--;
    }
    low = Math.max(i, low + 1);
  }
  return keys;
}

/** How often keys are looked at. */
function looks(keys: Float64Array): number {
  let count = 0;
  const counted = new Proxy(keys, {
    get: (target, key) => {
      count++;
      return target[key as unknown as number];
    },
  });
  selectByKey(
    Int32Array.from(keys, (_, i) => i),
    counted,
    0,
    keys.length - 1,
    keys.length - 1,
  );
  return count;
}

test('no order takes n² looks (2026-11: a guard where there was none)', () => {
  const [once, twice] = [looks(worst(2000)), looks(worst(4000))];
  expect(twice / once).toBeLessThan(2.5);
  expect(twice).toBeLessThan(4000 * 100);
});

test('at its place what a sort puts there, none before it greater, none behind it less', () => {
  const check = (keys: Float64Array, place: number) => {
    const order = Int32Array.from(keys, (_, i) => i);
    selectByKey(order, keys, 0, keys.length - 1, place);
    const at = Array.from(order, (i) => keys[i]);
    expect(at[place]).toBe(keys.slice().sort()[place]);
    expect(Math.max(-Infinity, ...at.slice(0, place))).toBeLessThanOrEqual(at[place]);
    expect(Math.min(Infinity, ...at.slice(place + 1))).toBeGreaterThanOrEqual(at[place]);
    expect([...order].sort((a, b) => a - b)).toEqual(Array.from(keys, (_, i) => i));
  };
  for (const n of [10, 500]) for (const place of [0, n >> 1, n - 1]) check(worst(n), place);
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 0, max: 30 }), { minLength: 1, maxLength: 80 }), fc.nat(79), (keys, place) =>
      check(Float64Array.from(keys), place % keys.length),
    ),
  );
});
