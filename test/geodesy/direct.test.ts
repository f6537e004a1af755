import { direct } from 'datumline/geodesy';
import { describe, expect, test } from 'vitest';
import { faaDirect } from '../published/faaDirect';
import { table2Direct } from '../published/karney2013';
import { karneyTestSet } from '../published/karneyTestSet';
import { angleBetween, degrees, rowsOf } from '../support/printed';

describe('what the docs say', () => {
  test('a negative distance goes backwards', () => {
    const { position } = direct([5, 52], 90, -1000);
    const back = direct([5, 52], 270, 1000).position;
    expect(position[0]).toBeCloseTo(back[0], 13);
    expect(position[1]).toBeCloseTo(back[1], 13);
  });

  test('longitudes come back within [-180, 180)', () => {
    expect(direct([179.999, 0], 90, 1000).position[0]).toBeLessThan(-179.99);
    expect(direct([180, 10], 0, 1000).position[0]).toBe(-180);
    expect(direct([-539, 10], 0, 1000).position[0]).toBeCloseTo(-179, 12);
  });

  test('from a pole the azimuth counts from the meridian of its longitude', () => {
    expect(direct([30, 90], 180, 1000).position[0]).toBeCloseTo(30, 12);
    expect(direct([30, -90], 0, 1000).position[0]).toBeCloseTo(30, 12);
  });

  test('numbers that are none are named', () => {
    expect(() => direct([5, 52], Number.NaN, 1)).toThrow(
      expect.objectContaining({ reason: 'not-finite', argument: 'azimuth' }),
    );
    expect(() => direct([5, 52], 0, '1' as unknown as number)).toThrow(
      expect.objectContaining({ reason: 'wrong-type', argument: 'distance' }),
    );
  });
});

describe('published', () => {
  test('Karney 2013, table 2', () => {
    const { lat1, lon1, azi1, s12, lat2, lon2, azi2 } = table2Direct;
    const { position, finalAzimuth } = direct([lon1, lat1], azi1, s12);
    expect(Math.abs(position[1] - lat2)).toBeLessThan(5e-12);
    expect(Math.abs(position[0] - lon2)).toBeLessThan(5e-12);
    expect(angleBetween(finalAzimuth, azi2)).toBeLessThan(5e-12);
  });

  test('Karney test set, lines under 10 km', () => {
    for (const row of rowsOf(karneyTestSet)) {
      const [lat1, azi1, lat2, lon2, s12] = ['lat1', 'azi1', 'lat2', 'lon2', 's12'].map((key) => Number(row[key]));
      const { position } = direct([0, lat1], azi1, s12);
      // s12 is printed to 1e-7 m
      const northing = (position[1] - lat2) * 111e3;
      const easting = (position[0] - lon2) * 111.4e3 * Math.cos((lat2 * Math.PI) / 180);
      expect(Math.hypot(northing, easting)).toBeLessThan(0.5e-7);
    }
  });

  test('FAA Order 8260.54A, direct: half of the last printed digit, 1e-5″', () => {
    // 3000 NM rows whose last digit is printed up to 0.6 of a unit off the position in long double, which ours meets to 3e-9 m
    const lastDigitOff = ['test17', 'test137', 'test165', 'test167'];
    const rows = rowsOf(faaDirect);
    expect(rows.length).toBe(96);
    for (const row of rows) {
      const start = [degrees(row.lon1), degrees(row.lat1)];
      const { position } = direct(start, Number(row.azimuth), Number(row.distance) * 1852);
      const tolerance = lastDigitOff.includes(row.test) ? 6.2e-6 : 5e-6;
      expect(Math.abs(position[1] - degrees(row.lat2)) * 3600, row.test).toBeLessThan(tolerance);
      expect(angleBetween(position[0], degrees(row.lon2)) * 3600, row.test).toBeLessThan(tolerance);
    }
  });
});
