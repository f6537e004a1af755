import { direct, inverse, pointToGeodesic, pointToSegment } from 'datumline/geodesy';
import { describe, expect, test } from 'vitest';
import { faaPointOnSegment } from '../published/faaPointOnSegment';
import { bruteFoot } from '../support/bruteFoot';
import { degrees, rowsOf } from '../support/printed';
import { seeded } from '../support/randomLine';

describe('what the docs say', () => {
  test('beside the edge it is the endless geodesic', () => {
    const within = pointToSegment([5.5, 52], [5, 52], [6, 51.4]);
    expect(within).toEqual(pointToGeodesic([5.5, 52], [5, 52], [6, 51.4]));
    expect(within).not.toHaveProperty('beyond');
  });

  test('beyond an end the foot is the end, alongTrack stays on the edge, crossTrack is the distance with its side', () => {
    const { distance } = inverse([5.001, -0.01], [5, 0]);
    const start = pointToSegment([5.001, -0.01], [5, 0], [5, 1]);
    expect(start).toMatchObject({ alongTrack: 0, foot: [5, 0], beyond: 'start' });
    expect(start.distance).toBeCloseTo(distance, 8);
    expect(start.crossTrack).toBe(start.distance);
    const end = pointToSegment([4.999, 1.01], [5, 0], [5, 1]);
    expect(end).toMatchObject({ alongTrack: inverse([5, 0], [5, 1]).distance, foot: [5, 1], beyond: 'end' });
    expect(end.crossTrack).toBe(-end.distance);
  });

  test('abreast of an end is not beyond it', () => {
    for (const share of [0, 1]) {
      const at = inverse([5, 52], [6, 51.4]);
      const [place, heading] = share ? [[6, 51.4], at.finalAzimuth] : [[5, 52], at.initialAzimuth];
      const point = direct(place, heading + 90, 100).position;
      const found = pointToSegment(point, [5, 52], [6, 51.4]);
      expect(found.beyond).toBeUndefined();
      expect(found.crossTrack).toBeCloseTo(100, 8);
      expect(found.alongTrack).toBeCloseTo(share * at.distance, 7);
    }
  });

  test('the ends themselves lie on the edge', () => {
    for (const end of [
      [5, 52],
      [6, 51.4],
    ]) {
      const found = pointToSegment(end, [5, 52], [6, 51.4]);
      expect(found.distance).toBeLessThan(2e-9);
      expect(found.beyond).toBeUndefined();
    }
  });

  test('an edge of no length: its start, counted right', () => {
    const { distance } = inverse([6, 51], [5, 52]);
    const found = pointToSegment([6, 51], [5, 52], [5, 52]);
    expect(found).toMatchObject({ alongTrack: 0, crossTrack: distance, distance });
    expect(found.beyond).toBeUndefined();
  });

  test('foot longitudes lie within [-180, 180)', () => {
    expect(pointToSegment([180, 10], [180, 0], [180, 1]).foot).toEqual([-180, 1]);
    expect(pointToSegment([0, 10], [539, 0], [540, 0]).foot[0]).toBeGreaterThanOrEqual(-180);
  });

  test('the far side of the globe: the nearer end, seen over the shorter way', () => {
    const point = [-170, -50];
    const found = pointToSegment(point, [5, 52], [6, 51.4]);
    const [toStart, toEnd] = [inverse(point, [5, 52]).distance, inverse(point, [6, 51.4]).distance];
    expect(found.distance).toBeCloseTo(Math.min(toStart, toEnd), 6);
    expect(found.beyond).toBe(toStart < toEnd ? 'start' : 'end');
  });

  test('of equally near places the first', () => {
    expect(pointToSegment([0, 90], [0, 0], [50, 0])).toMatchObject({ alongTrack: 0 });
    expect(pointToSegment([90, 0], [0, -10], [0, 10])).toMatchObject({ alongTrack: 0, beyond: 'start' });
  });
});

test('FAA Order 8260.54A, points off the segment: on it within 1e-5″, or far', () => {
  const rows = rowsOf(faaPointOnSegment);
  expect(rows.length).toBe(48);
  for (const row of rows) {
    const place = (lat: string, lon: string) => [degrees(lon), degrees(lat)];
    const { distance } = pointToSegment(
      place(row.pointLat, row.pointLon),
      place(row.aLat, row.aLon),
      place(row.bLat, row.bLon),
    );
    if (row.on === '1') expect(distance, row.test).toBeLessThan(0.16e-3);
    else expect(distance, row.test).toBeGreaterThan(47e3);
  }
});

test.each([
  [0.01, 10],
  [5, 100],
  [500, 1000],
  [1e4, 1e5],
  [1e6, 1e7],
  [1e7, 2e7],
])('brute force agrees: edges of %d m, points up to %d m away', (length, reach) => {
  const draw = seeded(3 * length + reach);
  let ends = 0;
  for (let k = 0; k < 25; k++) {
    const from = [draw() * 360 - 180, [0, 45, 89.99, -90, 70, -20][k % 6]];
    const to = direct(from, draw() * 360, length).position;
    const point = direct(from, draw() * 360, reach * draw()).position;
    const { length: edge, ...found } = { length: inverse(from, to).distance, ...pointToSegment(point, from, to) };
    const brute = bruteFoot(point, from, to, { low: 0, high: edge, samples: 60 });
    expect(Math.abs(found.distance - brute.distance)).toBeLessThan(3e-8);
    expect(found.alongTrack).toBeGreaterThanOrEqual(0);
    expect(found.alongTrack).toBeLessThanOrEqual(edge + 3e-9); // geographiclib's own two lengths of one edge differ so
    if (found.beyond) ends++;
    else expect(inverse(point, found.foot).distance).toBeCloseTo(found.distance, 7);
  }
  expect(ends).toBeGreaterThan(2);
});

test('shifting every longitude changes nothing, ±180° included', () => {
  const draw = seeded(78);
  for (let k = 0; k < 1000; k++) {
    const from = [draw() * 360 - 180, [90, -90, 0, draw() * 180 - 90][k % 4]];
    const length = 10 ** (3 + 3 * draw());
    const to = direct(from, draw() * 360, length).position;
    const point = direct(from, draw() * 360, length * draw()).position;
    const shift = Math.floor(draw() * 361) - 180;
    const moved = (place: readonly number[]) => [place[0] + shift, place[1]];
    const there = pointToSegment(point, from, to);
    const shifted = pointToSegment(moved(point), moved(from), moved(to));
    // three longitudes are rounded anew, each by up to 3.2e-9 m
    expect(Math.abs(shifted.distance - there.distance)).toBeLessThan(3 * 3.2e-9 + 15e-9);
    expect(Math.abs(shifted.alongTrack - there.alongTrack)).toBeLessThan(5 * 3.2e-9 + 2 * 15e-9);
    expect(shifted.beyond).toBe(there.beyond);
  }
});

test('turning the edge about swaps the ends and the side', () => {
  const draw = seeded(77);
  for (let k = 0; k < 500; k++) {
    const from = [draw() * 360 - 180, draw() * 178 - 89];
    const to = direct(from, draw() * 360, 10 ** (1 + 5 * draw())).position;
    const point = direct(from, draw() * 360, 10 ** (1 + 5 * draw())).position;
    const there = pointToSegment(point, from, to);
    const back = pointToSegment(point, to, from);
    expect(Math.abs(there.crossTrack + back.crossTrack)).toBeLessThan(3e-8);
    expect({ start: 'end', end: 'start', none: 'none' }[there.beyond ?? 'none']).toBe(back.beyond ?? 'none');
  }
});
