import { densify, direct, inverse, lineLength } from 'datumline/geodesy';
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

test('WGS 84: pole to pole along a meridian, and once round the equator', () => {
  expect(Math.abs(lineLength([[7, -90], [7, 0], [7, 90]]) - 2 * wgs84.quarterMeridian)).toBeLessThan(1e-4); // biome-ignore format: one line
  const equator = Array.from({ length: 37 }, (_, k) => [k * 10 - 180, 0]);
  expect(Math.abs(lineLength(equator) - wgs84.equator)).toBeLessThan(0.5e-3);
});

test('a compensated sum: 200 000 edges of 1 cm', () => {
  const line = densify([[5, 0], direct([5, 0], 90, 2000).position], { maxSpacing: 0.01 });
  expect(line.length).toBe(200_001);
  // along the equator an edge is Δλ a: the doubles of the longitudes add up to what they span, whatever their steps
  const span = (line[200_000][0] - line[0][0]) * (Math.PI / 180) * wgs84.a;
  expect(Math.abs(lineLength(line) - span)).toBeLessThan(1e-8);
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
