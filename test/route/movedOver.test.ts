import { inverse, pointToSegment } from 'datumline/geodesy';
import { type Route, routeBuilder, routeFromLine, routeFromRecipe } from 'datumline/route';
import { indexRoute } from 'datumline/snap';
import type { Position } from 'geojson';
import { expect, test } from 'vitest';
import { onEquator } from '../support/onEquator';

/** A street that bends to the left all the way, an edge every 10 m on a circle of 150 m. */
const bend = onEquator(
  Array.from({ length: 60 }, (_, k) => [150 * Math.sin(k / 15), 150 - 150 * Math.cos(k / 15)]),
  [0, 0],
);
const corner = onEquator([
  [0, 0],
  [220, 0],
  [220, 200],
]);

/** Degrees: the line's own bends of 3.8°, and no kink on top that a runner would see. */
const SMOOTH = 7;

const [FROM, OVER] = [200, 50];
const crossed = (street: Position[]) =>
  routeBuilder({ lateral95: 0.5, maxSpacing: 2 })
    .follow(street, { side: 'right', metres: 4, to: FROM })
    .moveOver({ side: 'left', metres: 8, over: OVER })
    .follow(street, { side: 'left', metres: 4, from: FROM + OVER })
    .build();

/** Signed distance of every vertex from a street, with the place along it. */
function offsets({ lon, lat }: Route, street: Position[]) {
  const index = indexRoute(routeFromLine(street, { maxSpacing: 1e6 }));
  return Array.from(lon, (x, i) => index.nearest([x, lat[i]])!);
}

test('moving over follows the line: from one side to the other beside its bends', () => {
  const route = crossed(bend);
  expect(route.warnings).toEqual([]);
  let last = 4;
  for (const { alongTrack, crossTrack } of offsets(route, bend)) {
    if (alongTrack < FROM - 0.1) expect(Math.abs(crossTrack - 4)).toBeLessThan(2e-3);
    else if (alongTrack > FROM + OVER + 0.1) expect(Math.abs(crossTrack + 4)).toBeLessThan(2e-3);
    else {
      expect(crossTrack).toBeLessThan(last + 2e-3);
      last = crossTrack;
      // two arcs laid along the line: half over at half the way, a quarter of a half at a quarter
      const arcs = 4 - 8 * expectedShare((alongTrack - FROM) / OVER, 8, OVER);
      expect(Math.abs(crossTrack - arcs), `at ${alongTrack}`).toBeLessThan(0.03);
    }
  }
  expect(sharpest(route)).toBeLessThan(SMOOTH);
});

test('round a corner too, which stays one', () => {
  const route = crossed(corner);
  const found = offsets(route, corner);
  for (const { crossTrack } of found) expect(Math.abs(crossTrack)).toBeLessThan(4.01);
  const signs = found.map(({ crossTrack }) => Math.sign(Math.round(crossTrack * 100)));
  // once, from right to left
  expect(signs.filter((sign, i) => i > 0 && sign < 0 && signs[i - 1] >= 0).length).toBe(1);
  expect(signs.lastIndexOf(1)).toBeLessThan(signs.indexOf(-1));
});

test('past the end of the line, or on a straight stretch of it, it goes straight on in two arcs', () => {
  const route = routeBuilder()
    .follow(corner, { side: 'right', metres: 4 })
    .moveOver({ side: 'left', metres: 8, over: 40 })
    .build();
  expect(route.arcs.map(({ turn }) => turn)).toEqual(['left', 'right']);
  const end = [route.lon[route.lon.length - 1], route.lat[route.lat.length - 1]];
  const { alongTrack, crossTrack } = pointToSegment(end, corner[1], onEquator([[220, 300]])[0]);
  expect(Math.abs(alongTrack - 240)).toBeLessThan(1e-3);
  expect(Math.abs(crossTrack + 4)).toBeLessThan(1e-3);
});

test('in reverse it follows the line the other way', () => {
  const route = routeBuilder()
    .follow(bend, { side: 'left', metres: 4, from: 300, reverse: true })
    .moveOver({ side: 'right', metres: 8, over: 60 })
    .follow(bend, { side: 'right', metres: 4, to: 240, reverse: true })
    .build();
  const end = [route.lon[route.lon.length - 1], route.lat[route.lat.length - 1]];
  expect(Math.abs(inverse(bend[0], end).distance - 4)).toBeLessThan(1e-3);
  expect(sharpest(route)).toBeLessThan(SMOOTH);
  const between = offsets(route, bend).filter(({ alongTrack }) => alongTrack > 240.1 && alongTrack < 299.9);
  for (const { crossTrack, alongTrack } of between) {
    expect(Math.abs(crossTrack - (8 * expectedShare((alongTrack - 240) / 60, 8, 60) - 4))).toBeLessThan(0.03);
  }
  expect(routeFromRecipe(JSON.parse(JSON.stringify(route.recipe)))).toEqual(route);
});

/** Share of the way across that two arcs have made after a share of the way along: closed form of the circle. */
function expectedShare(along: number, across: number, over: number): number {
  const radius = (over * over + across * across) / (4 * across);
  const half = (u: number) => (radius - Math.sqrt(radius * radius - (u * over) ** 2)) / across;
  return along < 0.5 ? half(Math.max(along, 0)) : 1 - half(Math.max(1 - along, 0));
}

function sharpest({ lon, lat }: Route): number {
  let worst = 0;
  for (let i = 1; i + 1 < lon.length; i++) {
    const before = inverse([lon[i - 1], lat[i - 1]], [lon[i], lat[i]]).finalAzimuth;
    const after = inverse([lon[i], lat[i]], [lon[i + 1], lat[i + 1]]).initialAzimuth;
    worst = Math.max(worst, Math.abs(((after - before + 540) % 360) - 180));
  }
  return worst;
}
