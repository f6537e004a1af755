import { quantileSorted } from 'd3-array';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { quantilesIn } from '../../src/statistics';

const SHARES = [0, 0.05, 0.05, 0.5, 0.95, 1];

describe('quantilesIn', () => {
  it('several shares at once: as of the sorted column by another library', () => {
    const values = fc.oneof(fc.double({ min: -1e6, max: 1e6, noNaN: true }), fc.integer({ min: 0, max: 3 }));
    fc.assert(
      fc.property(fc.array(values, { minLength: 1, maxLength: 2000 }), (given) => {
        const sorted = Array.from(Float64Array.from(given).sort());
        const found = quantilesIn(Float64Array.from(given), SHARES);
        for (const [i, p] of SHARES.entries()) expect(found[i]).toBeCloseTo(quantileSorted(sorted, p)!, 6);
      }),
      { numRuns: 100 },
    );
  });

  it('all alike but for the last: that is the highest', () => {
    const column = new Float64Array(99).fill(7);
    expect(quantilesIn(column, [0, 0.5, 1])).toEqual([7, 7, 7]);
    column[98] = 8;
    expect(quantilesIn(column, [0, 0.5, 1])).toEqual([7, 7, 8]);
  });
});
