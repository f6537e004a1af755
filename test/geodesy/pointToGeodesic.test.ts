import {
  alongTrackDistance,
  crossTrackDistance,
  direct,
  interpolate,
  inverse,
  pointToGeodesic,
} from 'datumline/geodesy';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { feet } from '../published/baselgaMartinez2018';
import { faaPointOnSegment } from '../published/faaPointOnSegment';
import { faaPointToGeodesic, faaPointToGeodesicInLongDouble } from '../published/faaPointToGeodesic';
import { section8 } from '../published/karney2013';
import { aviationFormulary, nVectorExample10, sphericalDocExample } from '../published/sphericalCrossTrack';
import { bruteFoot } from '../support/bruteFoot';
import { angleBetween, degrees, halfUnit, rowsOf } from '../support/printed';
import { seeded } from '../support/randomLine';

describe('what the docs say', () => {
  test('right of travel is positive, left negative, on the line 0', () => {
    expect(crossTrackDistance([0.01, 0.5], [0, 0], [0, 1])).toBeGreaterThan(1000);
    expect(crossTrackDistance([-0.01, 0.5], [0, 0], [0, 1])).toBeLessThan(-1000);
    expect(Math.abs(crossTrackDistance([0, 0.5], [0, 0], [0, 1]))).toBeLessThan(1e-12);
  });

  test('along-track is negative behind the start and goes on past the end', () => {
    expect(alongTrackDistance([0.01, -1], [0, 0], [0, 1])).toBeLessThan(-110e3);
    expect(alongTrackDistance([0.01, 2], [0, 0], [0, 1])).toBeGreaterThan(220e3);
  });

  test('the foot: distance is that from the point, and there the line meets it at right angles', () => {
    const { foot, distance, alongTrack } = pointToGeodesic([5.5, 52], [5, 52], [6, 51.4]);
    expect(inverse([5.5, 52], foot).distance).toBeCloseTo(distance, 7);
    expect(inverse([5, 52], foot).distance).toBeCloseTo(alongTrack, 7);
    const turn = inverse(foot, [5.5, 52]).initialAzimuth - inverse(foot, [6, 51.4]).initialAzimuth;
    expect(turn).toBeCloseTo(-90, 9);
  });

  test('coincident ends: the foot is from, the distance counts right', () => {
    const { distance } = inverse([6, 51], [5, 52]);
    const expected = { crossTrack: distance, alongTrack: 0, distance };
    expect(pointToGeodesic([6, 51], [5, 52], [5, 52])).toMatchObject(expected);
    expect(pointToGeodesic([5, 52], [5, 52], [5, 52])).toMatchObject({ crossTrack: 0, alongTrack: 0, distance: 0 });
    expect(pointToGeodesic([0, 80], [5, 90], [77, 90])).toMatchObject({
      alongTrack: 0,
      distance: inverse([0, 80], [0, 90]).distance,
    });
  });

  test('the point at either end', () => {
    for (const end of [
      [5, 52],
      [6, 51.4],
    ]) {
      const { crossTrack, alongTrack } = pointToGeodesic(end, [5, 52], [6, 51.4]);
      expect(Math.abs(crossTrack)).toBeLessThan(2e-9);
      expect(alongTrack).toBeCloseTo(end[0] === 5 ? 0 : inverse([5, 52], [6, 51.4]).distance, 8);
    }
  });

  test('all round a pole of the line every place is as near: from is taken', () => {
    expect(pointToGeodesic([0, 90], [7, 0], [50, 0])).toMatchObject({ alongTrack: 0, foot: [7, 0] });
    expect(pointToGeodesic([0, 90], [7, 0], [50, 0]).distance).toBeCloseTo(10001965.7293, 4);
  });

  test('of two feet on a meridian, both poles, the first is taken', () => {
    const { foot, distance } = pointToGeodesic([90, 0], [0, -10], [0, 40]);
    expect(foot[1]).toBeCloseTo(-90, 9);
    expect(distance).toBeCloseTo(10001965.7293, 4);
  });

  test('a point nearly opposite takes the nearer of the two passes of the line', () => {
    const { alongTrack, distance } = pointToGeodesic([-175, -52], [5, 52], [6, 52]);
    const brute = bruteFoot([-175, -52], [5, 52], [6, 52], { low: -20.1e6, high: 20.1e6, samples: 400 });
    expect(distance).toBeCloseTo(brute.distance, 6);
    expect(alongTrack).toBeCloseTo(brute.alongTrack, 6);
  });

  test('bad positions are named', () => {
    expect(() => pointToGeodesic([5, 52], [5, 52], [5, Number.POSITIVE_INFINITY])).toThrow(
      expect.objectContaining({ reason: 'not-finite', argument: 'to latitude' }),
    );
  });
});

describe('published', () => {
  test('FAA Order 8260.54A, perpendicular intercept', () => {
    const rows = rowsOf(faaPointToGeodesic);
    expect(rows.length).toBe(22);
    for (const row of rows) {
      const start = [degrees(row.startLon), degrees(row.startLat)];
      const point = [degrees(row.pointLon), degrees(row.pointLat)];
      // the line is given by its azimuth; 5000 km give it to 1e-15
      const to = direct(start, Number(row.azimuth), 5e6).position;
      const { foot, distance } = pointToGeodesic(point, start, to);
      expect(Math.abs(foot[1] - degrees(row.interceptLat)) * 3600, row.test).toBeLessThan(5e-6);
      expect(angleBetween(foot[0], degrees(row.interceptLon)) * 3600, row.test).toBeLessThan(5e-6);
      expect(Math.abs(distance / 1852 - Number(row.distance)), row.test).toBeLessThan(halfUnit(row.distance));
      expect(angleBetween(inverse(point, foot).initialAzimuth, Number(row.azimuthFromPoint))).toBeLessThan(5e-6);
    }
  });

  test('the same in long double: both coordinates to 3e-9 m, the rounding of a position', () => {
    const rows = rowsOf(faaPointToGeodesic);
    faaPointToGeodesicInLongDouble.forEach(([name, alongTrack, crossTrack], i) => {
      const row = rows[i];
      expect(name).toBe(row.test);
      const start = [degrees(row.startLon), degrees(row.startLat)];
      const to = direct(start, Number(row.azimuth), 5e6).position;
      const found = pointToGeodesic([degrees(row.pointLon), degrees(row.pointLat)], start, to);
      expect(Math.abs(found.alongTrack - alongTrack), name).toBeLessThan(3e-9);
      expect(Math.abs(found.crossTrack - crossTrack), name).toBeLessThan(3e-9);
    });
  });

  test('FAA Order 8260.54A, points on a geodesic lie on it as well as half of the printed 1e-5″ can say', () => {
    for (const row of rowsOf(faaPointOnSegment)) {
      if (row.on !== '1') continue;
      const place = (lat: string, lon: string) => [degrees(lon), degrees(lat)];
      const [point, a, b] = [place(row.pointLat, row.pointLon), place(row.aLat, row.aLon), place(row.bLat, row.bLon)];
      const found = pointToGeodesic(point, a, b);
      // 5e-6″ of latitude and of longitude in metres, seen across the line
      const heading =
        ((found.alongTrack > 1 ? inverse(found.foot, a).initialAzimuth : inverse(a, b).initialAzimuth) * Math.PI) / 180;
      const north = inverse(point, [point[0], point[1] + 1e-3]).distance * 1e3 * (5e-6 / 3600);
      const east = inverse(point, [point[0] + 1e-3, point[1]]).distance * 1e3 * (5e-6 / 3600);
      const across = Math.abs(Math.sin(heading)) * north + Math.abs(Math.cos(heading)) * east;
      expect(found.distance, row.test).toBeLessThan(across + 15e-9);
      expect(crossTrackDistance(point, a, b)).toBe(found.crossTrack);
    }
  });

  test('Karney 2013, section 8: interception', () => {
    const [a, b, c] = [section8.a, section8.b, section8.c].map(([lat, lon]) => [lon, lat]);
    const { foot, alongTrack, crossTrack } = pointToGeodesic(c, a, b);
    // printed to 1e-14°, a nanometre: the rounding of a position is three times that, 3e-14°
    expect(Math.abs(foot[1] - section8.foot[0])).toBeLessThan(3e-14);
    expect(Math.abs(foot[0] - section8.foot[1])).toBeLessThan(3e-14);
    expect(Math.abs(alongTrack - section8.alongTrack)).toBeLessThan(0.5e-3);
    expect(Math.abs(crossTrack - section8.crossTrack)).toBeLessThan(0.5e-7);
  });

  test.each(feet)('Baselga & Martínez-Llario, point to line', ({ point, from, to, foot }) => {
    const [p, a, b] = [point, from, to].map(([lat, lon]) => [lon, lat]);
    const found = pointToGeodesic(p, a, b).foot;
    // half a printed unit, or the steps of 1e-5″ at which the authors stop, one along each of the line's two directions
    const tolerance = (text: string) => Math.max(halfUnit(text), 2e-5);
    expect(Math.abs(found[1] - degrees(foot[0])) * 3600).toBeLessThan(tolerance(foot[0]));
    expect(Math.abs(found[0] - degrees(foot[1])) * 3600).toBeLessThan(tolerance(foot[1]));
  });

  test('Baselga & Martínez-Llario, point to line, as GeodesicExact in long double has it', () => {
    const { alongTrack, crossTrack } = pointToGeodesic([5.5, 52], [5, 52], [6, 51.4]);
    expect(Math.abs(alongTrack - 24784.2884145807)).toBeLessThan(3e-9);
    expect(Math.abs(crossTrack + 23767.7241838002)).toBeLessThan(3e-9);
  });
});

/**
 * A sphere on which latitudes are taken for those of the ellipsoid: lengths on it are to lengths on the ellipsoid as its
 * radius to M along meridians and to N along parallels, which range from b²/a at the equator to a²/b at the poles; directions
 * are turned by at most (N − M)/(N + M), e²/2.
 */
describe('a sphere bounds it', () => {
  const [least, most] = [6335439.327, 6399593.626];
  const turned = 0.0067 / 2;

  test('Aviation Formulary: LAX to JFK, cross-track, along-track, course and part way', () => {
    const { from, to, point, crossTrack, alongTrack, distance, course, partWay } = aviationFormulary;
    const found = pointToGeodesic(point, from, to);
    const minute = (10_800 / Math.PI) * 1852; // the radius on which a minute of arc is a nautical mile
    expect(found.alongTrack / 1852 / alongTrack).toBeGreaterThan(least / minute - turned);
    expect(found.alongTrack / 1852 / alongTrack).toBeLessThan(most / minute + turned);
    // two directions, each turned: 0.7 % of the way to the point. In fact it is 0.09 NM, 1.2 % of so small a cross-track
    expect(Math.abs(found.crossTrack / 1852 - crossTrack)).toBeLessThan(2 * turned * alongTrack);
    expect(found.crossTrack / 1852 - crossTrack).toBeCloseTo(0.09, 2);
    const line = inverse(from, to);
    expect(line.distance / minute / distance).toBeGreaterThan(least / minute);
    expect(line.distance / minute / distance).toBeLessThan(most / minute);
    expect(Math.abs((line.initialAzimuth * Math.PI) / 180 - course)).toBeLessThan(2 * turned);
    // 40 % of it: the two lie 1.2 km apart, of 1593 km
    const apart = inverse(interpolate(from, to, 0.4 * line.distance), partWay).distance;
    expect(apart).toBeLessThan(2 * turned * 0.4 * line.distance);
    expect(apart).toBeGreaterThan(1000);
  });

  test('n-vector example 10: the line a meridian, the point 0.1° right of it on the parallel of 1°', () => {
    const { point, from, to, crossTrack, radius } = nVectorExample10;
    const ours = crossTrackDistance(point, from, to);
    // GeodesicExact in long double
    expect(Math.abs(ours - 11130.2649752521)).toBeLessThan(3e-9);
    // N there over the radius, 1.001121, to the printed 0.1 m
    expect(Math.abs(ours / crossTrack - 6378143.5 / radius)).toBeLessThan((0.5 * 0.1) / crossTrack);
  });

  test('an example for a sphere, 0.9 km long in latitude and 124 km in longitude', () => {
    const { point, from, to, crossTrack, alongTrack, radius } = sphericalDocExample;
    const found = pointToGeodesic(point, from, to);
    // GeodesicExact in long double
    expect(Math.abs(found.crossTrack + 306.8446329335)).toBeLessThan(3e-9);
    expect(Math.abs(found.alongTrack - 62534.3099070602)).toBeLessThan(3e-9);
    expect(found.alongTrack / alongTrack).toBeGreaterThan(least / radius - turned);
    expect(found.alongTrack / alongTrack).toBeLessThan(most / radius);
    expect(Math.abs(found.crossTrack - crossTrack)).toBeLessThan(2 * turned * alongTrack);
    expect(found.crossTrack - crossTrack).toBeCloseTo(0.66, 1);
  });
});

const position = fc.tuple(
  fc.double({ min: -180, max: 180, noNaN: true }),
  fc.oneof(fc.double({ min: -90, max: 90, noNaN: true }), fc.constantFrom(-90, 90, 0)),
);
const azimuth = fc.oneof(fc.double({ min: 0, max: 360, noNaN: true }), fc.constantFrom(0, 90, 180, 270));
const lengths = fc.constantFrom(0.01, 1, 100, 1e4, 1e6, 1e7);

describe('properties', () => {
  test('a foot is built and found again: 1 cm to 10 000 km, every latitude', () => {
    fc.assert(
      fc.property(
        position,
        azimuth,
        lengths,
        fc.double({ min: -1.5, max: 2.5, noNaN: true }),
        fc.constantFrom(0, 1e-3, 1, 1e3, 1e5, 3e6, 9e6),
        fc.constantFrom(-1, 1),
        (from, heading, length, share, offset, side) => {
          const to = direct(from, heading, length).position;
          // on the line that the two positions make, which for 1 cm is not quite the heading
          const start = inverse(from, to);
          if (start.distance < 1e-9) return;
          const along = Math.max(-9e6, Math.min(9e6, share * start.distance));
          const at = direct(from, start.initialAzimuth, along);
          const point = direct(at.position, at.finalAzimuth + 90 * side, offset).position;
          const found = pointToGeodesic(point, from, to);
          expect(Math.abs(found.crossTrack - side * offset)).toBeLessThan(3e-8);
          // the nearer the point is to a pole of the line, the less its foot is held to a place
          const slack = Math.max(1, 1 / Math.cos(Math.min(offset, 9.5e6) / 6.37e6));
          expect(Math.abs(found.alongTrack - along)).toBeLessThan(5e-8 * slack);
        },
      ),
      { seed: 8, numRuns: 4000 },
    );
  });

  test('turning the line about negates cross-track and mirrors along-track', () => {
    fc.assert(
      fc.property(position, azimuth, lengths, position, (from, heading, length, point) => {
        fc.pre(length > 100); // the ends of a shorter one, to the last bit of a degree, don't hold a far foot
        const to = direct(from, heading, length).position;
        const there = pointToGeodesic(point, from, to);
        fc.pre(there.distance < 9e6 && Math.abs(there.alongTrack - length / 2) < 19e6);
        const back = pointToGeodesic(point, to, from);
        const worth = 2e-8 * (1 + 2e7 / length);
        expect(Math.abs(there.crossTrack + back.crossTrack)).toBeLessThan(worth);
        expect(Math.abs(there.alongTrack + back.alongTrack - inverse(from, to).distance)).toBeLessThan(worth * 7);
      }),
      { seed: 9, numRuns: 2000 },
    );
  });

  test('shifting every longitude changes nothing, ±180° included', () => {
    fc.assert(
      fc.property(position, azimuth, position, fc.integer({ min: -180, max: 180 }), (from, heading, point, shift) => {
        const to = direct(from, heading, 1e6).position;
        const there = pointToGeodesic(point, from, to);
        fc.pre(there.distance < 9e6 && Math.abs(there.alongTrack) < 19e6);
        const moved = (place: readonly number[]) => [place[0] + shift, place[1]];
        const shifted = pointToGeodesic(moved(point), moved(from), moved(to));
        // a sum of longitudes is rounded by up to 3.2e-9 m: that moves the point, and turns a line of 1000 km about its ends,
        // at the farthest place by up to 1 + 2 a / 1000 km as much; towards a pole of the line the foot swings wider
        const worth = 3.2e-9 * 15 + 2 * 15e-9;
        expect(Math.abs(shifted.crossTrack - there.crossTrack)).toBeLessThan(worth);
        const swing = Math.cos(there.distance / 6.38e6);
        expect(Math.abs(shifted.alongTrack - there.alongTrack)).toBeLessThan(worth / swing);
      }),
      { seed: 10, numRuns: 1000 },
    );
  });

  test('never NaN, whatever the three positions', () => {
    const awkward = fc.tuple(
      fc.constantFrom(-180, -90, 0, 1e-12, 90, 179.99999, 180),
      fc.constantFrom(-90, -1e-12, 0, 45, 89.9999999, 90),
    );
    fc.assert(
      fc.property(awkward, awkward, awkward, (point, from, to) => {
        const { crossTrack, alongTrack, distance, foot } = pointToGeodesic(point, from, to);
        expect([crossTrack, alongTrack, distance, ...foot].every(Number.isFinite)).toBe(true);
        expect(Math.abs(crossTrack)).toBe(distance);
        expect(Math.abs(inverse(point, foot).distance - distance)).toBeLessThan(1e-7);
      }),
      { seed: 12, numRuns: 1500 },
    );
  });
});

describe('brute force agrees', () => {
  test.each([
    [0.01, 100],
    [10, 1000],
    [500, 1000],
    [1e4, 1e5],
    [1e6, 1e6],
    [1e7, 5e6],
    [1e7, 9.9e6],
  ])('edges of %d m, points up to %d m away', (length, reach) => {
    const draw = seeded(length + reach);
    for (let k = 0; k < 12; k++) {
      const from = [draw() * 360 - 180, [0, 45, 89.99, -90, 70, -20][k % 6]];
      const to = direct(from, draw() * 360, length).position;
      const point = direct(from, draw() * 360, reach * draw()).position;
      const { alongTrack, distance } = pointToGeodesic(point, from, to);
      const brute = bruteFoot(point, from, to, { low: -2.1 * reach, high: 2.1 * reach, samples: 100 });
      expect(Math.abs(distance - brute.distance)).toBeLessThan(3e-8);
      // as sharp as the judge: see there
      if (distance < 6e6) expect(Math.abs(alongTrack - brute.alongTrack)).toBeLessThan(distance < 1e5 ? 1e-7 : 2e-6);
    }
  });
});
