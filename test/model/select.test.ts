import fc from 'fast-check';
import { expect, test } from 'vitest';
import { select } from '../../src/model';

const shapes: Readonly<Record<string, (i: number, n: number) => number>> = {
  rising: (i) => i,
  falling: (i) => -i,
  'rising, then falling': (i, n) => Math.min(i, n - i),
  'falling, then rising': (i, n) => Math.max(i, n - i),
  'all alike': () => 5,
  'two values in turn': (i) => i % 2,
  'a saw': (i) => i % 17,
};

test.each(Object.entries(shapes))(
  '%s: at each place what a sort puts there, all before it no greater, all behind it no less',
  (_, value) => {
    for (const n of [1, 2, 3, 16, 17, 18, 100, 601, 602, 5000]) {
      const column = Float64Array.from({ length: n }, (_, i) => value(i, n));
      const sorted = column.slice().sort();
      for (const place of new Set([0, n >> 6, n >> 2, n >> 1, n - 1])) {
        const tried = column.slice();
        select(tried, place);
        expect(tried[place]).toBe(sorted[place]);
        expect(tried.slice(0, place).every((one) => one <= tried[place])).toBe(true);
        expect(tried.slice(place).every((one) => one >= tried[place])).toBe(true);
        expect(tried.sort()).toEqual(sorted);
      }
    }
  },
);

test('of any numbers', () => {
  fc.assert(
    fc.property(
      fc.float64Array({ minLength: 1, maxLength: 2000, size: 'max', noNaN: true }),
      fc.nat(1999),
      (column, at) => {
        const place = at % column.length;
        const sorted = column.slice().sort();
        select(column, place);
        expect(column[place] === sorted[place]).toBe(true);
      },
    ),
  );
});
