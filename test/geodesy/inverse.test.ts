import { direct, inverse } from 'datumline/geodesy';
import { describe, expect, test } from 'vitest';
import { Geodesic, WGS84 } from '../../src/geodesy/ellipsoid';
import { faaInverse } from '../published/faaInverse';
import { flindersBuninyong } from '../published/flindersBuninyong';
import { table3ShortInverse, table5NearlyAntipodal } from '../published/karney2013';
import { karneyTestSet } from '../published/karneyTestSet';
import { vincenty1975 } from '../published/vincenty1975';
import { degreeLengths, wgs84 } from '../published/wgs84';
import { angleBetween, degrees, halfUnit, rowsOf } from '../support/printed';
import { seeded } from '../support/randomLine';

const ARC_SECOND = 1 / 3600;

describe('what the docs say', () => {
  test('coincident positions have distance 0, however their longitude is written', () => {
    expect(inverse([5, 52], [5, 52])).toEqual({ distance: 0, initialAzimuth: 180, finalAzimuth: 180 });
    expect(inverse([180, 10], [-180, 10]).distance).toBe(0);
    expect(inverse([365, 10], [5, 10]).distance).toBe(0);
    expect(inverse([5, 90], [77, 90]).distance).toBe(0);
  });

  test('azimuths lie within [0, 360)', () => {
    expect(inverse([0, 0], [0, 1]).initialAzimuth).toBe(0);
    expect(inverse([0, 0], [-1, 0]).initialAzimuth).toBe(270);
    const draw = seeded(3);
    for (let k = 0; k < 500; k++) {
      const { initialAzimuth, finalAzimuth } = inverse(
        [draw() * 360 - 180, draw() * 180 - 90],
        [draw() * 360 - 180, draw() * 180 - 90],
      );
      for (const azimuth of [initialAzimuth, finalAzimuth]) {
        expect(azimuth).toBeGreaterThanOrEqual(0);
        expect(azimuth).toBeLessThan(360);
      }
    }
  });

  test('heights are ignored', () => {
    expect(inverse([5, 52, 9000], [6, 52, -3])).toEqual(inverse([5, 52], [6, 52]));
  });

  test('bad positions are named', () => {
    expect(() => inverse([5, 91], [5, 52])).toThrow(
      expect.objectContaining({ reason: 'swapped', argument: 'from latitude' }),
    );
    expect(() => inverse([5, 52], [Number.NaN, 52])).toThrow(
      expect.objectContaining({ reason: 'not-finite', argument: 'to longitude' }),
    );
    expect(() => inverse([5, 52], [5] as number[])).toThrow(
      expect.objectContaining({ reason: 'wrong-type', argument: 'to' }),
    );
  });
});

describe('published', () => {
  test('Karney test set, lines under 10 km: lengths to half of the printed 1e-7 m, the rest to 15 nm', () => {
    const rows = rowsOf(karneyTestSet);
    expect(rows.length).toBe(250);
    for (const row of rows) {
      const [lat1, azi1, lat2, lon2, azi2, s12] = ['lat1', 'azi1', 'lat2', 'lon2', 'azi2', 's12'].map((key) =>
        Number(row[key]),
      );
      const { distance, initialAzimuth, finalAzimuth } = inverse([0, lat1], [lon2, lat2]);
      expect(Math.abs(distance - s12)).toBeLessThan(0.5e-7);
      // the other columns are printed with more digits than a double has; an azimuth turns the far end by no more than the accuracy of a place, 15 nm
      expect(angleBetween(initialAzimuth, azi1) * (Math.PI / 180) * s12).toBeLessThan(15e-9);
      expect(angleBetween(finalAzimuth, azi2) * (Math.PI / 180) * s12).toBeLessThan(15e-9);
      // the reduced length, on which interception rests
      const { m12 } = WGS84.Inverse(lat1, 0, lat2, lon2, Geodesic.REDUCEDLENGTH);
      expect(Math.abs(m12! - Number(row.m12))).toBeLessThan(15e-9);
    }
  });

  test('Karney 2013, table 3: a line of 5 m', () => {
    const { lat1, lon1, lat2, lon2, azi1, azi2, s12 } = table3ShortInverse;
    const { distance, initialAzimuth, finalAzimuth } = inverse([lon1, lat1], [lon2, lat2]);
    expect(Math.abs(distance - s12)).toBeLessThan(5e-7);
    // Half a printed unit is 5e-12°. But the two latitudes become doubles, whose last bit is 2^-48° near 30°: each is off by
    // up to half of that, some 0.2 nm, which turns a line of 5 m by up to 4.4e-9°.
    const moved = 2 ** -48 * 110.85e3 * Math.sin((azi1 * Math.PI) / 180);
    const turned = (moved / s12) * (180 / Math.PI);
    expect(turned).toBeLessThan(4.5e-9);
    expect(angleBetween(initialAzimuth, azi1)).toBeLessThan(5e-12 + turned);
    expect(angleBetween(finalAzimuth, azi2)).toBeLessThan(5e-12 + turned);
  });

  test('Karney 2013, table 5: nearly antipodal', () => {
    const { lat1, lon1, lat2, lon2, azi1, azi2, s12 } = table5NearlyAntipodal;
    const { distance, initialAzimuth, finalAzimuth } = inverse([lon1, lat1], [lon2, lat2]);
    expect(Math.abs(distance - s12)).toBeLessThan(5e-6);
    expect(angleBetween(initialAzimuth, azi1)).toBeLessThan(5e-12);
    expect(angleBetween(finalAzimuth, azi2)).toBeLessThan(5e-12);
  });

  test.each(vincenty1975)(
    'Vincenty 1975, line $line, on its own ellipsoid: geographiclib there, the library itself knows WGS 84 only',
    (row) => {
      const { line, a, inverseFlattening, lat1, lat2, dlon, azi1, azi2, distance } = row;
      const ellipsoid = new Geodesic.Geodesic(a, 1 / inverseFlattening);
      const solve = (north1 = 0, north2 = 0, east = 0) => {
        const { s12, azi1, azi2 } = ellipsoid.Inverse(lat1 + north1, 0, lat2 + north2, dlon + east);
        return [s12!, azi1!, azi2!];
      };
      const found = solve();
      // Half a printed unit of each result, and what half a printed unit of each of the three inputs moves it by: on the nearly
      // antipodal lines d and e, whose ends the azimuths hardly move, that is most.
      const half = 0.5e-5 * ARC_SECOND;
      const moved = [solve(half), solve(0, half), solve(0, 0, half)];
      [distance, azi1, azi2].forEach((printed, i) => {
        const slack = moved.reduce((sum, other) => sum + Math.abs(other[i] - found[i]), 0);
        expect(Math.abs(found[i] - printed), `${line} ${i}`).toBeLessThan((i === 0 ? 0.5e-3 : half) + slack);
      });
    },
  );

  test('Flinders Peak to Buninyong', () => {
    const { from, to, distance, azimuth, reverse } = flindersBuninyong;
    const place = ([lat, lon]: readonly [string, string]) => [Math.abs(degrees(lon)), degrees(lat)];
    const found = inverse(place(from), place(to));
    expect(Math.abs(found.distance - distance)).toBeLessThan(0.5e-3);
    expect(angleBetween(found.initialAzimuth, degrees(azimuth))).toBeLessThan(0.005 * ARC_SECOND);
    expect(angleBetween(found.finalAzimuth + 180, degrees(reverse))).toBeLessThan(0.005 * ARC_SECOND);
  });

  test('FAA Order 8260.54A, inverse', () => {
    const rows = rowsOf(faaInverse);
    expect(rows.length).toBe(96);
    for (const row of rows) {
      const from = [degrees(row.lon1), degrees(row.lat1)];
      const to = [degrees(row.lon2), degrees(row.lat2)];
      const { distance, initialAzimuth, finalAzimuth } = inverse(from, to);
      expect(Math.abs(distance / 1852 - Number(row.distance)), row.test).toBeLessThan(halfUnit(row.distance));
      // Half a printed unit; the second end is printed to 1e-5″, so off by up to 0.155 mm north and as much east, which
      // turns a line of 2 NM by up to 3.4e-6°.
      const turned = ((Math.SQRT2 * 0.155e-3) / distance) * (180 / Math.PI);
      expect(angleBetween(initialAzimuth, Number(row.azimuth)), row.test).toBeLessThan(5e-6 + turned);
      expect(angleBetween(finalAzimuth + 180, Number(row.reverse)), row.test).toBeLessThan(5e-6 + turned);
    }
  });

  test('WGS 84: axes, quarter meridian, equator, length of a degree', () => {
    expect(WGS84.a).toBe(wgs84.a);
    expect(WGS84.f).toBe(1 / wgs84.inverseFlattening);
    expect(Math.abs(WGS84.a * (1 - WGS84.f) - wgs84.b)).toBeLessThan(0.5e-4);
    expect(Math.abs(WGS84.f * (2 - WGS84.f) - wgs84.e2)).toBeLessThan(0.5e-14);
    expect(Math.abs(inverse([77, 0], [77, 90]).distance - wgs84.quarterMeridian)).toBeLessThan(0.5e-4);
    expect(Math.abs(4 * inverse([77, 0], [167, 0]).distance - wgs84.equator)).toBeLessThan(0.5e-3);
    for (const [lat, ofLatitude] of degreeLengths) {
      expect(Math.abs(inverse([3, lat - 0.5], [3, lat + 0.5]).distance - ofLatitude)).toBeLessThan(15e-9);
    }
    for (const [lat, , ofLongitude] of degreeLengths) {
      // along the parallel, where the geodesic is shorter by (Δλ sin φ)²/24 of itself, to within f of that
      const piece = inverse([3, lat], [3.01, lat]).distance;
      const shorter = (0.01 * (Math.PI / 180) * Math.sin((lat * Math.PI) / 180)) ** 2 / 24;
      expect(Math.abs(100 * piece * (1 + shorter) - ofLongitude)).toBeLessThan(
        100 * 15e-9 + shorter * WGS84.f * ofLongitude,
      );
    }
  });
});

test('direct leads back to where inverse looked, seeded over the globe', () => {
  const draw = seeded(11);
  for (let k = 0; k < 2000; k++) {
    const from = [draw() * 360 - 180, draw() * 180 - 90];
    const to = [draw() * 360 - 180, draw() * 180 - 90];
    const { distance, initialAzimuth } = inverse(from, to);
    expect(inverse(direct(from, initialAzimuth, distance).position, to).distance).toBeLessThan(2e-8);
    expect(Math.abs(inverse(to, from).distance - distance)).toBeLessThan(1e-8);
  }
});
