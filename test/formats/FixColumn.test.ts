import fc from 'fast-check';
import { expect, test } from 'vitest';
import { FixColumn } from '../../src/formats/FixColumn';

test('what was set is taken, NaN between, before and after, however long the column', () => {
  const steps = fc.array(fc.tuple(fc.integer({ min: 1, max: 300 }), fc.oneof(fc.double(), fc.constant(Number.NaN))), {
    maxLength: 60,
  });
  fc.assert(
    fc.property(steps, fc.nat(5000), (list, more) => {
      const column = new FixColumn();
      const set: [index: number, value: number][] = [];
      let index = -1;
      for (const [step, value] of list) {
        index += step;
        column.set(index, value);
        set.push([index, value]);
      }
      expect(column.known).toBe(set.filter(([, value]) => !Number.isNaN(value)).length);
      const count = more;
      const expected = new Float64Array(count).fill(Number.NaN);
      for (const [at, value] of set) if (at < count) expected[at] = value;
      expect(Array.from(column.take(count))).toEqual(Array.from(expected));
    }),
    { seed: 62, numRuns: 100 },
  );
});

test('set one by one it is all of them', () => {
  const column = new FixColumn();
  for (let i = 0; i < 300_000; i++) column.set(i, i / 7);
  const taken = column.take(250_000);
  expect(taken.length).toBe(250_000);
  expect(taken.every((value, i) => value === i / 7)).toBe(true);
});
