import { direct, interpolate, inverse } from 'datumline/geodesy';
import { expect, test } from 'vitest';
import { seeded } from '../support/randomLine';

test('the ends, and beyond them', () => {
  const [from, to] = [
    [5, 52],
    [6, 51.4],
  ];
  const { distance, initialAzimuth, finalAzimuth } = inverse(from, to);
  expect(inverse(interpolate(from, to, 0), from).distance).toBeLessThan(2e-9);
  expect(inverse(interpolate(from, to, distance), to).distance).toBeLessThan(1e-8);
  expect(inverse(interpolate(from, to, -500), direct(from, initialAzimuth, -500).position).distance).toBeLessThan(1e-8);
  const past = direct(to, finalAzimuth, 500).position;
  expect(inverse(interpolate(from, to, distance + 500), past).distance).toBeLessThan(2e-8);
});

test('no direction: from, whatever the distance', () => {
  expect(interpolate([5, 52], [5, 52], 1000)).toEqual([5, 52]);
  expect(interpolate([180, 10], [-180, 10], 1000)).toEqual([-180, 10]);
  expect(interpolate([5, 90], [77, 90], 1000)).toEqual([5, 90]);
});

test('divides every geodesic as asked, ±180° and poles included', () => {
  const draw = seeded(31);
  for (let k = 0; k < 500; k++) {
    const from = [draw() < 0.3 ? 179.9 : draw() * 360 - 180, [90, -90, 0, draw() * 180 - 90][k % 4]];
    const to = direct(from, draw() * 360, 10 ** (7 * draw())).position;
    const { distance } = inverse(from, to);
    const place = interpolate(from, to, distance * 0.3);
    expect(place[0]).toBeGreaterThanOrEqual(-180);
    expect(place[0]).toBeLessThan(180);
    expect(Math.abs(inverse(from, place).distance - distance * 0.3)).toBeLessThan(1e-8);
    expect(Math.abs(inverse(place, to).distance - distance * 0.7)).toBeLessThan(2e-8);
  }
});

test('bad input is named', () => {
  expect(() => interpolate([5, 52], [6, 52], Number.NaN)).toThrow(
    expect.objectContaining({ reason: 'not-finite', argument: 'distance' }),
  );
  expect(() => interpolate([5, 52], [600, 52], 1)).toThrow(
    expect.objectContaining({ reason: 'out-of-range', argument: 'to longitude' }),
  );
});
