import type { Position } from 'geojson';
import { expect, test } from 'vitest';
import { Vertices } from '../../src/index/Vertices';
import { curveOf } from '../../src/metrics/curveOf';
import { PlaneCells } from '../../src/metrics/PlaneCells';
import { directedHausdorff } from '../../src/subpaths/metrics';
import { seeded } from '../support/randomLine';

test('tell how far a place is from a tangle, or that it is within the lower width or beyond the upper', () => {
  const random = seeded(94);
  const tangle = Array.from({ length: 400 }, (): Position => [5 + 3e-4 * random(), 60 + 2e-4 * random()]);
  const cells = new PlaneCells(curveOf(tangle, 'line', 'open'));
  expect(cells.isTangled).toBe(true);
  for (const [low, high] of [
    [0.02, 0.2],
    [0.3, 0.8],
    [1e-4, 2],
  ]) {
    expect(cells.divide(low, high)).toBe(true);
    for (let k = 0; k < 300; k++) {
      const place = [5 + 4e-4 * random() - 5e-5, 60 + 3e-4 * random() - 5e-5];
      const vertex = new Vertices(1);
      vertex.set(0, place[0], place[1]);
      const told = cells.distance(vertex.x[0], vertex.y[0], vertex.z[0]);
      const { distance } = directedHausdorff([place], tangle);
      if (told === 0) expect(distance).toBeLessThanOrEqual(low);
      else if (told === Infinity || distance > high) expect(Math.min(told, distance)).toBeGreaterThan(high);
      else expect(Math.abs(told - distance)).toBeLessThan(1e-7);
    }
  }
  expect(cells.divide(1, 30)).toBe(false);
});

test('a line that goes on, straight or in zigzags, is no tangle', () => {
  for (const aside of [0, 5e-4]) {
    const line = Array.from({ length: 200 }, (_, i): Position => [5 + 2e-5 * i, 60 + aside * (i % 2)]);
    expect(new PlaneCells(curveOf(line, 'line', 'open')).isTangled).toBe(false);
  }
});
