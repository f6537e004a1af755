import { expect, test } from 'vitest';
import { KeptStates } from '../../src/snap/KeptStates';
import { KnotStates } from '../../src/snap/KnotStates';
import { seeded } from '../support/randomLine';

test('what is kept of each knot is read again: bins however far apart, where they came from, and their weight', () => {
  const random = seeded(12);
  const kept = new KeptStates();
  // a second time in the same room
  for (const knots of [40, 9]) {
    kept.begin(knots);
    const written = Array.from({ length: knots }, (_, knot) => {
      const states = new KnotStates();
      let bin = Math.floor(random() * 200_000);
      for (let k = Math.floor(random() * 300); k > 0; k--) {
        states.add(bin);
        states.came[states.size - 1] = random() < 0.1 ? -1 : Math.floor(random() * 300);
        states.sum[states.size - 1] = Math.fround(random());
        bin += random() < 0.05 ? 65_530 + Math.floor(random() * 10) : 1 + Math.floor(random() * 40);
      }
      states.lost = random() < 0.5;
      kept.push(knot, states);
      return states;
    });
    const into = new KnotStates();
    written.forEach((states, knot) => {
      const { size, bin, sum, came, lost } = states;
      kept.read(knot, into);
      expect([into.size, into.lost]).toEqual([size, lost]);
      expect(into.bin.subarray(0, size)).toEqual(bin.subarray(0, size));
      expect(into.sum.subarray(0, size)).toEqual(sum.subarray(0, size));
      expect(kept.sizeOf(knot)).toBe(size);
      const [first, last] = [bin[0], bin[size - 1]];
      const furthest = size > 0 ? Math.max(last - 1000, 1000 - first) : 0;
      expect([kept.isWithin(knot, 1000, furthest), kept.isWithin(knot, 1000, furthest - 1)]).toEqual([
        true,
        size === 0,
      ]);
      for (let k = 0; k < size; k++) expect([kept.binOf(knot, k), kept.cameTo(knot, k)]).toEqual([bin[k], came[k]]);
    });
  }
});
