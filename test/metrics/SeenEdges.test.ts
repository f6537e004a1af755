import { expect, test } from 'vitest';
import { LeastBound } from '../../src/metrics/LeastBound';
import { SeenEdges } from '../../src/metrics/SeenEdges';
import { seeded } from '../support/randomLine';

/** Metres from a place of the axis to the nearest of many places on an edge. */
const away = (x: number, [px, py, qx, qy]: readonly number[]) => {
  const length2 = (qx - px) ** 2 + (qy - py) ** 2;
  const along = length2 > 0 ? ((x - px) * (qx - px) - py * (qy - py)) / length2 : 0;
  const t = Math.min(1, Math.max(0, along));
  return Math.hypot(px + t * (qx - px) - x, py + t * (qy - py));
};

function randomEdge(random: () => number): [number, number, number, number] {
  const [px, py, qx, qy] = Array.from({ length: 4 }, () => 10 * random() - 5);
  const kind = random();
  if (kind < 0.1) return [px, py, px, py];
  if (kind < 0.2) return [px, py, qx, py];
  if (kind < 0.3) return [px, py, px, qy];
  return [px, py, qx, qy];
}

test('the reach of an edge is where it is within the width, by trying places', () => {
  const random = seeded(91);
  for (let round = 0; round < 500; round++) {
    const seen = new SeenEdges();
    const edge = randomEdge(random);
    const width = 4 * random();
    seen.add(0, ...edge);
    seen.reach(0, width);
    for (let x = -10; x <= 10; x += 0.05) {
      const metres = away(x, edge);
      expect(Math.abs(Math.sqrt(seen.squaredFrom(0, x)) - metres)).toBeLessThan(1e-7);
      if (Math.abs(metres - width) > 1e-9) expect(x >= seen.from && x <= seen.to).toBe(metres < width);
    }
  }
});

test('what follows one function along a stretch is as far off as it says', () => {
  const random = seeded(92);
  let followed = 0;
  for (let round = 0; round < 500; round++) {
    const seen = new SeenEdges();
    const edge = randomEdge(random);
    seen.add(0, ...edge);
    const from = 10 * random() - 5;
    const to = from + 2 * random();
    if (!seen.follows(0, 0, from, to)) continue;
    followed++;
    for (let t = 0; t <= 1; t += 0.1) {
      const x = from + t * (to - from);
      expect(Math.abs(seen.bend * (x - seen.foot) ** 2 + seen.rest - away(x, edge) ** 2)).toBeLessThan(1e-9);
    }
  }
  expect(followed).toBeGreaterThan(100);
});

test('a bound excludes no edge that comes nearer anywhere, and most of those that do not', () => {
  const random = seeded(93);
  const bound = new LeastBound();
  let [excluded, farther] = [0, 0];
  for (let round = 0; round < 5000; round++) {
    const [first, other] = [randomEdge(random), randomEdge(random)];
    const length = 3 * random();
    bound.take(away(0, first) ** 2, away(length, first) ** 2, length);
    const isFarther = Array.from({ length: 101 }, (_, i) => (length * i) / 100).every(
      (x) => away(x, other) > away(x, first),
    );
    if (isFarther) farther++;
    if (!bound.excludes(away(0, other) ** 2, away(length, other) ** 2)) continue;
    expect(isFarther).toBe(true);
    excluded++;
  }
  expect(excluded).toBeGreaterThan(0.6 * farther);
});
