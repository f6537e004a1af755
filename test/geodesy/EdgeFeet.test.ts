import { expect, test } from 'vitest';
import { EdgeFeet } from '../../src/geodesy/EdgeFeet';
import { WGS84 } from '../../src/geodesy/ellipsoid';
import { pointToSegment } from '../../src/geodesy/pointToSegment';
import { seeded } from '../support/randomLine';

/** Largest differences, in metres, of distance and of place on the edge from the exact foot. */
function errors(seed: number, lat: number, { edge, away, rounds }: { edge: number; away: number; rounds: number }) {
  const draw = seeded(seed);
  let distance = 0;
  let along = 0;
  for (let k = 0; k < rounds; k++) {
    const from = [draw() < 0.3 ? 179.999 : draw() * 360 - 180, lat === 90 ? 90 - draw() * 0.01 : lat];
    const length = edge * (0.05 + 0.95 * draw());
    const end = WGS84.Direct(from[1], from[0], draw() * 360, length);
    const to = [end.lon2!, end.lat2!];
    const at = WGS84.InverseLine(from[1], from[0], to[1], to[0]).Position(length * (draw() * 1.4 - 0.2));
    const aside = draw() < 0.7 ? at.azi2! + (draw() < 0.5 ? 90 : -90) : draw() * 360;
    const off = WGS84.Direct(at.lat2!, at.lon2!, aside, away * draw());
    const point = [off.lon2!, off.lat2!];
    const feet = new EdgeFeet([from[0], to[0]], [from[1], to[1]]);
    feet.moveTo(point[0], point[1]);
    const returned = feet.measure(0);
    const exact = pointToSegment(point, from, to);
    expect(returned).toBe(feet.distance);
    expect(Math.abs(feet.crossTrack)).toBe(feet.distance);
    distance = Math.max(distance, Math.abs(feet.distance - exact.distance));
    if (exact.distance > 1e-6 && !exact.beyond) expect(Math.sign(feet.crossTrack)).toBe(Math.sign(exact.crossTrack));
    along = Math.max(
      along,
      Math.abs(feet.fraction * WGS84.Inverse(from[1], from[0], to[1], to[0]).s12! - exact.alongTrack),
    );
  }
  return { distance, along };
}

test.each([0, 15, 45, 60, 75, 89, 90, -33, -90])('the promised bound at latitude %d', (lat) => {
  const { distance, along } = errors(7 + lat + 90, lat, { edge: 500, away: 1000, rounds: 2000 });
  expect(distance).toBeLessThan(2e-8);
  expect(along).toBeLessThan(1e-6);
});
