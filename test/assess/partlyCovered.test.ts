import { expect, test } from 'vitest';
import { straightGrid } from '../../bench/support/columnTrials';
import type { NamedPlaced } from '../../src/assess/NamedPlaced';
import { RunChances } from '../../src/assess/RunChances';
import { rowChances } from '../../src/assess/rowChances';
import { correlatedOffsets, meanAbsoluteOf, normals } from '../support/correlatedOffsets';

test('who misses a third of a section keeps intervals of the whole route that hold, and none without end', () => {
  const normal = normals(51_423);
  const trials = 300;
  const grid = straightGrid(900, 3);
  const [, middle] = grid.parts;
  const whole = { first: 0, end: grid.count };
  const truth = meanAbsoluteOf(0, 3);
  let held = 0;
  for (let trial = 0; trial < trials; trial++) {
    const members = ['a', 'b', 'c'].map((name) => {
      const offset = correlatedOffsets(normal, { seconds: grid.count, correlation: 20, sigma: 3 });
      if (name === 'a')
        offset.fill(Number.NaN, middle.first, middle.first + Math.floor((middle.end - middle.first) / 3));
      return { name, placed: { offset } } as unknown as NamedPlaced;
    });
    const { interval95, biasInterval95 } = rowChances(new RunChances(grid, members), 'a', whole);
    const [low, high] = interval95!;
    if (low <= truth && truth <= high) held++;
    // two thirds of a section say no more of it than its shape; what it shows alone, without the others, was once a hundred metres
    expect(high - low).toBeLessThan(4);
    expect(biasInterval95![1] - biasInterval95![0]).toBeLessThan(20);
  }
  expect(held / trials).toBeGreaterThan(0.93);
});
