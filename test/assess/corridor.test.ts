import { assess, hausdorff, indexRoute, type LineColumns, readLines, routeBuilder, writeGeoJson } from 'datumline';
import { expect, test } from 'vitest';
import { besideRoute, steadyFixes } from '../support/besideRoute';

/** A bend of 110° between two straights, an edge 15 m to each side. */
const bend = routeBuilder({ name: 'bend' })
  .start([2.1, 61.4])
  .section('bend', { halfWidth: 15 })
  .lineBy({ azimuth: 90, distance: 200 })
  .lineBy({ azimuth: 200, distance: 200 })
  .build();
const recording = besideRoute(
  bend,
  'a',
  steadyFixes({ from: 0, to: bend.length }, () => 1),
);

test('the edges that are drawn are the edges that are written, round a bend too', () => {
  const [{ left, right, ...about }, ...others] = assess(bend, [recording]).route.corridor;
  expect([about, others]).toEqual([{ section: 'bend', halfWidth: 15 }, []]);
  const written = readLines(writeGeoJson(bend)).filter(({ name }) => name.endsWith('edge'));
  expect(written.map(({ name }) => name)).toEqual(['bend, left edge', 'bend, right edge']);
  // drawn lines are thinned by 5 cm and rounded to 1e-7 degrees, a centimetre
  for (const [i, drawn] of [left, right].entries())
    expect(hausdorff(drawn as LineColumns, written[i].positions).distance).toBeLessThan(0.062);
});

test('no place of an edge is nearer to the line than the corridor is wide, and each knows where it lies along it', () => {
  const index = indexRoute(bend);
  const [{ left, right }] = assess(bend, [recording]).route.corridor;
  for (const { lon, lat, alongTrack } of [left, right]) {
    let before = 0;
    for (const [i, along] of alongTrack.entries()) {
      const place = index.nearest([lon[i], lat[i]])!;
      expect(Math.abs(place.distance - 15)).toBeLessThan(0.062);
      expect(along).toBeGreaterThanOrEqual(before);
      // inside the bend one place lies beside both straights, its feet 15 tan 55° before the corner and behind it
      expect(Math.abs(place.alongTrack - along!)).toBeLessThan(2 * 15 * Math.tan((55 * Math.PI) / 180) + 0.1);
      before = along!;
    }
  }
});

test.each([1e-9, 1e-6, 1e-3, 0.04])('a section of %d m has no edges, and is assessed all the same', (distance) => {
  const route = routeBuilder()
    .start([2.1, 61.4])
    .section('street', { halfWidth: 5 })
    .lineBy({ azimuth: 90, distance: 200 })
    .section('sliver', { halfWidth: 5 })
    .lineBy({ azimuth: 90, distance })
    .section('lane', { halfWidth: 5 })
    .lineBy({ azimuth: 180, distance: 100 })
    .build();
  const assessment = assess(route, [
    besideRoute(
      route,
      'a',
      steadyFixes({ from: 0, to: 300 }, () => 1),
    ),
  ]);
  expect(assessment.route.corridor.map(({ section }) => section)).toEqual(['street', 'lane']);
  expect(readLines(writeGeoJson(route)).map(({ name }) => name)).not.toContain('sliver, left edge');
});
