import { pointAt, routeFromLine, sliceRoute } from 'datumline/route';
import { indexRoute } from 'datumline/snap';
import type { Position } from 'geojson';
import { expect, test } from 'vitest';
import { localPlane } from '../../src/subpaths/geodesy';
import { linearReferencing } from '../published/linearReferencing';
import { onEquator } from '../support/onEquator';

const { interpolate, substring, locate, measured, spread } = linearReferencing;
const route = (line: Position[]) => routeFromLine(onEquator(line), { maxSpacing: 1000 });
const { toPlane } = localPlane(onEquator([[0, 0]])[0]);

/** Printed digits on a plane that is one to 1e-8 m. */
function expectPlane(position: Position, expected: readonly number[]) {
  const [x, y] = toPlane(position);
  expect(Math.hypot(x - expected[0], y - expected[1])).toBeLessThan(1e-6);
}

test('pointAt: a place by its share of the length', () => {
  const line = route(interpolate.line);
  interpolate.points.forEach((point, k) => {
    expectPlane(pointAt(line, Math.min(interpolate.fraction * (k + 1), 1) * line.length).position, point);
  });
});

test('sliceRoute: a part by its shares of the length', () => {
  const line = route(substring.line);
  const part = sliceRoute(line, substring.from * line.length, substring.to * line.length);
  expect(part.lon.length).toBe(substring.part.length);
  substring.part.forEach((point, i) => {
    expectPlane([part.lon[i], part.lat[i]], point);
  });
});

test('nearest: the share of the length of the nearest place, and the place', () => {
  const line = route(locate.line);
  const found = indexRoute(line).nearest(onEquator([locate.point])[0])!;
  expect(Math.abs(found.alongTrack / line.length - locate.fraction)).toBeLessThan(1e-9);
  expectPlane(found.position, locate.foot);
});

test('measures along the line follow its length', () => {
  const line = route(measured.line);
  const { alongTrack } = indexRoute(line).nearest(onEquator([measured.point])[0])!;
  expect(Math.abs((alongTrack / line.length) * measured.most - measured.measure)).toBeLessThan(1e-6);
  const vertices = route(spread.line);
  const measures = Array.from(
    vertices.alongTrack,
    (at) => spread.first + ((spread.last - spread.first) * at) / vertices.length,
  );
  measures.forEach((measure, i) => {
    expect(Math.abs(measure - spread.measures[i])).toBeLessThan(1e-9);
  });
});
