import { symbol, symbolsFill } from 'd3-shape';
import { expect, test } from 'vitest';
import { markerPath } from '../../src/report/markerPath';

/** Every number of path data, `h` and `v` of a square followed to its corners. */
const numbersOf = (d: string) => (d.match(/-?[\d.]+/g) ?? []).map(Number);

test.each(symbolsFill.map((shape, slot) => ({ shape, slot })))(
  'marker $slot is that of d3-shape',
  ({ shape, slot }) => {
    for (const area of [39.68, 50.22, 12]) {
      const theirs = symbol(shape, area).digits(4)() as string;
      const square = /^M([-\d.]+),\1h([\d.]+)v\2h-\2Z$/.exec(theirs);
      const [a, b] = square ? [Number(square[1]), Number(square[1]) + Number(square[2])] : [0, 0];
      const expected = square ? [a, a, b, a, b, b, a, b] : numbersOf(theirs);
      const ours = numbersOf(markerPath(slot, area));
      expect(ours.length).toBe(expected.length);
      for (const [i, value] of ours.entries()) expect(Math.abs(value - expected[i])).toBeLessThan(0.06);
      // the eighth receiver begins again
      expect(markerPath(slot + symbolsFill.length, area)).toBe(markerPath(slot, area));
    }
  },
);
