import { frechetDistance } from 'curve-matcher';
import { directedHausdorff, discreteFrechet, hausdorff } from 'datumline/metrics';
import type { Position } from 'geojson';
import DiscreteHausdorffDistance from 'jsts/org/locationtech/jts/algorithm/distance/DiscreteHausdorffDistance.js';
import Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';
import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import { expect, test } from 'vitest';
import { planeExamples } from '../published/planeLines';
import { onEquator } from '../support/onEquator';
import { seeded } from '../support/randomLine';

const lineString = (line: readonly Position[]) =>
  new GeometryFactory().createLineString(line.map(([x, y]) => new Coordinate(x, y)));

function pairs(count: number): [Position[], Position[]][] {
  const random = seeded(91);
  const line = (points: number): Position[] => Array.from({ length: points }, () => [random() * 300, random() * 300]);
  return Array.from({ length: count }, (_, i) => [line(2 + (i % 17)), line(2 + (i % 11))]);
}

test('discrete Fréchet as curve-matcher', () => {
  for (const [a, b] of pairs(40)) {
    const plane = (line: Position[]) => line.map(([x, y]) => ({ x, y }));
    expect(Math.abs(discreteFrechet(onEquator(a), onEquator(b)) - frechetDistance(plane(a), plane(b)))).toBeLessThan(
      1e-6,
    );
  }
});

test('jsts tries vertices only: the same where a vertex decides, less where an edge does', () => {
  let [same, less] = [0, 0];
  for (const [a, b] of pairs(60)) {
    const continuous = hausdorff(onEquator(a), onEquator(b)).distance;
    const vertices = DiscreteHausdorffDistance.distance(lineString(a), lineString(b));
    expect(vertices).toBeLessThanOrEqual(continuous + 1e-6);
    // its own densifying closes in on ours
    const dense = DiscreteHausdorffDistance.distance(lineString(a), lineString(b), 0.002);
    expect(Math.abs(dense - continuous)).toBeLessThan(0.5);
    const decided = Math.max(
      ...a.map((p) => directedHausdorff(onEquator([p]), onEquator(b)).distance),
      ...b.map((p) => directedHausdorff(onEquator([p]), onEquator(a)).distance),
    );
    expect(Math.abs(vertices - decided)).toBeLessThan(1e-6);
    if (continuous - vertices < 1e-6) same++;
    else less++;
  }
  expect(same).toBeGreaterThan(3);
  expect(less).toBeGreaterThan(3);
});

test.each(planeExamples.filter(({ published }) => published.vertexHausdorff !== undefined))(
  'the vertex value printed for $name is that of jsts',
  ({ a, b, published }) => {
    const vertices = DiscreteHausdorffDistance.distance(lineString(a), lineString(b));
    expect(Math.abs(vertices - published.vertexHausdorff!)).toBeLessThan(1e-9);
  },
);

test('the 70 that manuals give for the L shape is a vertex value of halved edges; finer ones close in on 970/13', () => {
  const { a, b, published, continuous } = planeExamples.find(({ published }) => published.halvedVertexHausdorff)!;
  const dense = (share: number) => DiscreteHausdorffDistance.distance(lineString(a), lineString(b), share);
  expect(Math.abs(dense(0.5) - published.halvedVertexHausdorff!)).toBeLessThan(1e-9);
  const ours = hausdorff(onEquator(a), onEquator(b)).distance;
  expect(Math.abs(ours - continuous.hausdorffBA)).toBeLessThan(1e-6);
  expect(dense(0.001)).toBeLessThanOrEqual(ours + 1e-6);
  expect(Math.abs(dense(0.001) - ours)).toBeLessThan(0.1);
});
