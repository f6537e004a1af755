import { median } from 'd3-array';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { knownMedian } from '../../src/model';

describe('knownMedian', () => {
  it('as another library has it, NaN left out, the column as it was', () => {
    const values = fc.oneof(fc.double({ min: -1e6, max: 1e6 }), fc.integer({ min: 0, max: 3 }));
    fc.assert(
      fc.property(fc.array(values, { maxLength: 800 }), (given) => {
        const column = Float64Array.from(given);
        const expected = median(given);
        if (expected === undefined) expect(knownMedian(column)).toBe(Number.NaN);
        else expect(knownMedian(column)).toBeCloseTo(expected, 6);
        expect(column).toEqual(Float64Array.from(given));
      }),
      { numRuns: 100 },
    );
  });

  it('of nothing, or of nothing known: NaN', () => {
    expect(knownMedian([])).toBe(Number.NaN);
    expect(knownMedian([Number.NaN, Number.NaN])).toBe(Number.NaN);
  });
});
