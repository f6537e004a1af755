import { direct, inverse, localPlane } from 'datumline/geodesy';
import { expect, test } from 'vitest';
import { seeded } from '../support/randomLine';

test('the origin is [0, 0]; east and north are right and up', () => {
  const plane = localPlane([5, 52]);
  expect(plane.toPlane([5, 52])).toEqual([0, 0]);
  expect(plane.toPlane([5, 52.01])[1]).toBeCloseTo(inverse([5, 52], [5, 52.01]).distance, 8);
  expect(plane.toPlane([5.01, 52])[0]).toBeGreaterThan(680);
  expect(inverse(plane.toPosition([0, 0]), [5, 52]).distance).toBeLessThan(2e-9);
});

test('at the poles the longitude of the origin says where north points', () => {
  expect(localPlane([10, -90]).toPosition([0, 1000])[0]).toBeCloseTo(10, 12);
  expect(localPlane([10, 90]).toPosition([0, -1000])[0]).toBeCloseTo(10, 12);
  expect(localPlane([10, 90]).toPosition([1000, 0])[0]).toBeCloseTo(100, 12);
});

test('distances and directions from the origin are true, and both ways agree', () => {
  const draw = seeded(6);
  for (let k = 0; k < 500; k++) {
    const origin = [draw() < 0.3 ? 179.999 : draw() * 360 - 180, [90, -90, 0, draw() * 180 - 90][k % 4]];
    const plane = localPlane(origin);
    const [azimuth, distance] = [draw() * 360, 10 ** (7 * draw())];
    const position = direct(origin, azimuth, distance).position;
    const [east, north] = plane.toPlane(position);
    expect(Math.abs(Math.hypot(east, north) - distance)).toBeLessThan(2e-8);
    expect(Math.abs(east - distance * Math.sin((azimuth * Math.PI) / 180))).toBeLessThan(3e-8);
    expect(Math.abs(north - distance * Math.cos((azimuth * Math.PI) / 180))).toBeLessThan(3e-8);
    expect(inverse(plane.toPosition([east, north]), position).distance).toBeLessThan(3e-8);
  }
});

test('across the direction from the origin lengths are stretched by d²/6R²', () => {
  const plane = localPlane([5, 52]);
  const [a, b] = [plane.toPosition([-50, 10_000]), plane.toPosition([50, 10_000])];
  const stretch = 100 / inverse(a, b).distance - 1;
  expect(stretch).toBeCloseTo(1e8 / 6 / 6.38e6 ** 2, 9);
});

test('bad input is named', () => {
  expect(() => localPlane([5, 152])).toThrow(
    expect.objectContaining({ reason: 'swapped', argument: 'origin latitude' }),
  );
  const plane = localPlane([5, 52]);
  expect(() => plane.toPlane([5, Number.NaN])).toThrow(
    expect.objectContaining({ reason: 'not-finite', argument: 'position latitude' }),
  );
  expect(() => plane.toPosition([1, Number.NaN])).toThrow(
    expect.objectContaining({ reason: 'not-finite', argument: 'plane[1]' }),
  );
  expect(() => plane.toPosition({ east: 1 } as never)).toThrow(
    expect.objectContaining({ reason: 'wrong-type', argument: 'plane[0]' }),
  );
});
