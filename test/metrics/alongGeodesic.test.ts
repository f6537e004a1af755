import { expect, test } from 'vitest';
import { WGS84 } from '../../src/geodesy/ellipsoid';
import { Vertices } from '../../src/index';
import { alongGeodesic } from '../../src/metrics/alongGeodesic';
import { seeded } from '../support/randomLine';

test.each([
  ['of some km', 5000],
  ['as long as its bends serve', 29_990],
  ['a little longer', 30_010],
  ['of a span', 100_000],
  ['of several', 730_000],
  ['half round', 15_000_000],
])('edges %s, by a reference library: 2e-8 m', (_, length) => {
  const random = seeded(23);
  for (let round = 0; round < 40; round++) {
    const lat = round % 4 === 0 ? 89.9999 : (Math.asin(2 * random() - 1) * 180) / Math.PI;
    const [lon, azimuth] = [360 * random() - 180, 360 * random()];
    const at = (metres: number) => WGS84.Direct(lat, lon, azimuth, metres);
    const ends = new Vertices(2);
    for (const end of [0, 1]) {
      const { lon2, lat2 } = at(end * length);
      ends.set(end, lon2!, lat2!);
    }
    const pieces = 97;
    const cut = new Vertices(pieces);
    const exact = new Vertices(1);
    alongGeodesic(ends, 0, pieces, cut, 1);
    for (let k = 1; k < pieces; k++) {
      const { lon2, lat2 } = at((k * length) / pieces);
      exact.set(0, lon2!, lat2!);
      expect(Math.hypot(cut.x[k] - exact.x[0], cut.y[k] - exact.y[0], cut.z[k] - exact.z[0])).toBeLessThan(2e-8);
    }
  }
});
