import { expect, test } from 'vitest';
import { alongEdge } from '../../src/index/alongEdge';
import { seeded } from '../support/randomLine';

test('a place at the end of an edge is no further than the edge, whatever rounding says', () => {
  const random = seeded(77);
  let rounded = 0;
  for (let k = 0; k < 20_000; k++) {
    const begin = 0.3 + random() / 7;
    const end = 1.5 + random() / 3;
    if (begin + 1 * (end - begin) > end) rounded++;
    const along = Float64Array.of(begin, end);
    expect(alongEdge(along, 0, 1)).toBe(Math.min(end, begin + (end - begin)));
    expect(alongEdge(along, 0, 1)).toBeLessThanOrEqual(end);
    expect(alongEdge(along, 0, 0)).toBe(begin);
  }
  expect(rounded).toBeGreaterThan(0);
});
