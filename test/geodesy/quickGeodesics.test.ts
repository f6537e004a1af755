import { describe, expect, test } from 'vitest';
import { RADIAN, turnBetween, WGS84 } from '../../src/geodesy';
import { quickDirect } from '../../src/geodesy/quickDirect';
import { quickInverse } from '../../src/geodesy/quickInverse';
import { seeded } from '../support/randomLine';

/** Metres: what the docstrings say, and the rounding of degrees and of the geodesics that judge, those of geographiclib. */
const WITHIN = 4e-9;

/** Geodesics about the lengths up to which the series serve, at every latitude, in every direction. */
function geodesics(count: number, longest: number) {
  const random = seeded(5);
  return Array.from({ length: count }, (_, i) => ({
    lon: 360 * random() - 180,
    lat: 180 * random() - 90,
    azimuth: 360 * random() - 180,
    distance: longest * (i % 2 === 0 ? 0.8 + 0.3 * random() : random() ** 4),
  }));
}
const metres = (degrees: number) => Math.abs(degrees) * RADIAN * 6_400_000;

describe('quickInverse', () => {
  test('is the geodesic of geographiclib, distances and azimuths alike', () => {
    for (const { lon, lat, azimuth, distance } of geodesics(20_000, 550)) {
      const to = WGS84.Direct(lat, lon, azimuth, distance);
      const { s12, azi1, azi2 } = WGS84.Inverse(lat, lon, to.lat2!, to.lon2!);
      const quick = quickInverse(lon, lat, to.lon2!, to.lat2!);
      expect(Math.abs(quick.s12 - s12!)).toBeLessThan(WITHIN);
      for (const turn of [turnBetween(quick.azi1, azi1!), turnBetween(quick.azi2, azi2!)]) {
        expect(Math.abs(turn) * RADIAN * distance).toBeLessThan(WITHIN);
      }
    }
  });

  test('across ±180°, over a pole, of no length and round the globe it is the exact one', () => {
    for (const [lon1, lat1, lon2, lat2] of [
      [179.999, 10, -179.999, 10],
      [0, 89.999, 180, 89.999],
      [5, 60, 5, 60],
      [5, 60, 95, -20],
    ]) {
      const { s12, azi1, azi2 } = WGS84.Inverse(lat1, lon1, lat2, lon2);
      expect(quickInverse(lon1, lat1, lon2, lat2)).toEqual({ s12, azi1, azi2 });
    }
  });
});

describe('quickDirect', () => {
  test('ends where the geodesic of geographiclib ends, in its direction', () => {
    for (const { lon, lat, azimuth, distance } of geodesics(20_000, 200)) {
      const { lon2, lat2, azi2 } = WGS84.Direct(lat, lon, azimuth, distance);
      const quick = quickDirect(lon, lat, azimuth, distance);
      expect(metres(quick.lat2 - lat2!)).toBeLessThan(WITHIN);
      expect(metres(turnBetween(quick.lon2, lon2!)) * Math.cos(lat2! * RADIAN)).toBeLessThan(WITHIN);
      expect(Math.abs(turnBetween(quick.azi2, azi2!)) * RADIAN * distance).toBeLessThan(WITHIN);
    }
  });

  test('over a pole, backwards and round the globe as well', () => {
    for (const [lat, azimuth, distance] of [
      [89.999, 0, 1000],
      [60, 30, -100],
      [60, 30, 1e7],
    ]) {
      const { lon2, lat2 } = WGS84.Direct(lat, 5, azimuth, distance);
      const quick = quickDirect(5, lat, azimuth, distance);
      expect(quick.lon2).toBeCloseTo(lon2!, 12);
      expect(quick.lat2).toBeCloseTo(lat2!, 12);
    }
  });
});
