import { inverse, lineLength } from 'datumline/geodesy';
import { expect, test } from 'vitest';
import { wgs84 } from '../published/wgs84';
import { seeded, wanderingLine } from '../support/randomLine';

test('nothing and one position have no length; repeated positions add none', () => {
  expect(lineLength([])).toBe(0);
  expect(lineLength([[5, 52]])).toBe(0);
  expect(lineLength([[5, 52], [5, 52], [5, 52, 9]])).toBe(0); // biome-ignore format: one line
});

test('the sum of its edges', () => {
  const line = wanderingLine(seeded(1), { start: [179.99, 71], count: 200, step: 500 });
  const sum = line.slice(1).reduce((total, place, i) => total + inverse(line[i], place).distance, 0);
  expect(lineLength(line)).toBeCloseTo(sum, 8);
  expect(lineLength([...line].reverse())).toBeCloseTo(sum, 6);
});

test('each edge is the geodesic, to 15 nm: short and long, at every latitude and across ±180°', () => {
  for (const [seed, lat] of [0, 40, -70, 79.99, 85, 89.99].entries()) {
    for (const step of [0.1, 5, 100, 450, 600, 5000]) {
      const line = wanderingLine(seeded(seed), { start: [179.99, lat], count: 100, step });
      for (let i = 1; i < line.length; i++) {
        const edge = [line[i - 1], line[i]];
        expect(Math.abs(lineLength(edge) - inverse(line[i - 1], line[i]).distance), `${edge}`).toBeLessThan(15e-9);
      }
    }
  }
});

test('WGS 84: pole to pole along a meridian, and once round the equator', () => {
  expect(Math.abs(lineLength([[7, -90], [7, 0], [7, 90]]) - 2 * wgs84.quarterMeridian)).toBeLessThan(1e-4); // biome-ignore format: one line
  const equator = Array.from({ length: 37 }, (_, k) => [k * 10 - 180, 0]);
  expect(Math.abs(lineLength(equator) - wgs84.equator)).toBeLessThan(0.5e-3);
});

test('a compensated sum: a long edge, then 100 000 edges of 1 cm, of which a plain sum keeps nine digits', () => {
  const start = 100;
  const longitudes = Array.from({ length: 100_001 }, (_, k) => start + k * 9e-8);
  const line = [[0, 0], ...longitudes.map((lon) => [lon, 0])];
  // along the equator an edge is Δλ a
  const exact = longitudes[100_000] * (Math.PI / 180) * wgs84.a;
  expect(Math.abs(lineLength(line) - exact)).toBeLessThan(1e-8);
  const plain = line.slice(1).reduce((total, place, i) => total + inverse(line[i], place).distance, 0);
  expect(Math.abs(plain - exact)).toBeGreaterThan(1e-7);
});

test('bad input is named by its place', () => {
  expect(() => lineLength('5,52' as never)).toThrow(
    expect.objectContaining({ reason: 'wrong-type', argument: 'positions' }),
  );
  expect(() => lineLength([[5, 52], [5, 53], [5, 152]])).toThrow(expect.objectContaining({ reason: 'swapped', argument: 'positions[2] latitude' })); // biome-ignore format: one line
  expect(() => lineLength([[5, 52], null as never])).toThrow(
    expect.objectContaining({ reason: 'wrong-type', argument: 'positions[1]' }),
  );
  expect(() => lineLength([[Number.NaN, 52]])).toThrow(
    expect.objectContaining({ reason: 'not-finite', argument: 'positions[0] longitude' }),
  );
  expect(() => lineLength([['5', 52] as never])).toThrow(
    expect.objectContaining({ reason: 'wrong-type', argument: 'positions[0] longitude' }),
  );
});
