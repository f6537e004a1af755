import { describe, expect, it } from 'vitest';
import { thinLine } from '../../src/geodesy';
import { normals } from '../support/correlatedOffsets';

/** How far each point left out lies from the line through its two neighbours that stayed, at most. */
function furthest(x: ArrayLike<number>, y: ArrayLike<number>, kept: readonly number[]): number {
  let most = 0;
  for (let k = 1; k < kept.length; k++) {
    const [a, b] = [kept[k - 1], kept[k]];
    for (let i = a + 1; i < b; i++) {
      const [ex, ey, px, py] = [x[b] - x[a], y[b] - y[a], x[i] - x[a], y[i] - y[a]];
      const length2 = ex * ex + ey * ey;
      const share = length2 > 0 ? Math.min(1, Math.max(0, (px * ex + py * ey) / length2)) : 0;
      most = Math.max(most, Math.hypot(px - share * ex, py - share * ey));
    }
  }
  return most;
}

/** A walk that mostly goes on. */
function walk(seed: number, n: number): [Float64Array, Float64Array] {
  const normal = normals(seed);
  const [x, y] = [new Float64Array(n), new Float64Array(n)];
  for (let i = 1, heading = 0; i < n; i++) {
    heading += 0.2 * normal();
    x[i] = x[i - 1] + Math.cos(heading);
    y[i] = y[i - 1] + Math.sin(heading);
  }
  return [x, y];
}

/** Laps of a square of a metre, corner by corner. */
const laps = (n: number): [Float64Array, Float64Array] => [
  Float64Array.from({ length: n }, (_, i) => (i % 4 === 1 || i % 4 === 2 ? 1 : 0)),
  Float64Array.from({ length: n }, (_, i) => (i % 4 >= 2 ? 1 : 0)),
];

describe('thinLine', () => {
  it.each([1, 2, 3])('leaves out what lies within the tolerance, and no end: walk %i', (seed) => {
    const [x, y] = walk(seed, 2000);
    const kept = thinLine(x, y, 0.5);
    expect([kept[0], kept[kept.length - 1]]).toEqual([0, 1999]);
    expect(kept.length).toBeLessThan(1000);
    expect(furthest(x, y, kept)).toBeLessThanOrEqual(0.5);
  });

  it.each([
    [0, []],
    [1, [0]],
    [2, [0, 1]],
  ])('of %i points', (n, kept) => {
    expect(thinLine(new Float64Array(n), new Float64Array(n), 1)).toEqual(kept);
  });

  it('of a straight line and of one place the ends', () => {
    const x = Float64Array.from({ length: 100 }, (_, i) => i);
    expect(thinLine(x, x, 1e-9)).toEqual([0, 99]);
    expect(thinLine(new Float64Array(100), new Float64Array(100), 0)).toEqual([0, 99]);
  });

  it('thousands of laps: each corner kept, and not looked at as often as there are corners', () => {
    const n = 8000;
    const [x, y] = laps(n);
    let looks = 0;
    const counted = new Proxy(x, {
      get: (column, key) => {
        looks++;
        return Reflect.get(column, key, column);
      },
    });
    expect(thinLine(counted, y, 0.1)).toHaveLength(n);
    expect(looks).toBeLessThan(1000 * n);
  });
});
