import { direct, inverse, pointToGeodesic, pointToSegment } from 'datumline/geodesy';
import type { Position } from 'geojson';
import { describe, expect, test } from 'vitest';
import { ECCENTRICITY2, FLATTENING, Geodesic, RADIAN, SEMI_MAJOR, WGS84 } from '../../src/geodesy/ellipsoid';
import { bruteFoot } from '../support/bruteFoot';
import { seeded } from '../support/randomLine';

/** Metres by which doubles of a position in degrees can be off. */
const ROUNDING = 180 * 2 ** -53 * 111.7e3 * Math.SQRT2;

/** Metres to which geographiclib's distances are good. */
const ACCURACY = 15e-9;

test('what a step δ at a distance s leaves is under 2 f δ² s² / a³', () => {
  const draw = seeded(1);
  let most = 0;
  for (let k = 0; k < 20_000; k++) {
    const [lat, azimuth] = [Math.asin(2 * draw() - 1) / RADIAN, draw() * 360];
    const [along, across] = [(draw() < 0.5 ? -1 : 1) * 10 ** (3 + 3.9 * draw()), 10 ** (2 + 4.9 * draw())];
    const at = WGS84.Direct(lat, 0, azimuth, along);
    const point = WGS84.Direct(
      at.lat2!,
      at.lon2!,
      at.azi2! + (along < 0 ? 180 : 0) + (draw() < 0.5 ? 90 : -90),
      across,
    );
    const outmask = Geodesic.STANDARD | Geodesic.REDUCEDLENGTH | Geodesic.GEODESICSCALE;
    const { s12, azi1, m12, M12 } = WGS84.Inverse(lat, 0, point.lat2!, point.lon2!, outmask);
    const ahead = Math.cos((azi1! - azimuth) * RADIAN);
    const radius = (SEMI_MAJOR * (1 - FLATTENING)) / (1 - ECCENTRICITY2 * Math.sin(point.lat2! * RADIAN) ** 2);
    const step = radius * Math.atan2(m12! * ahead, radius * M12!);
    const bound = 2 * FLATTENING * (step * Math.max(s12!, Math.abs(step))) ** 2 * SEMI_MAJOR ** -3;
    const left = Math.abs(step - along);
    expect(left).toBeLessThan(bound + 2 * ACCURACY);
    if (bound > 1e-6) most = Math.max(most, left / bound);
  }
  expect(most).toBeGreaterThan(0.3); // no bound that anything would keep
});

interface Trial {
  readonly point: Position;
  readonly from: Position;
  readonly to: Position;
}

const within = (lon: number) => lon - 360 * Math.round(lon / 360);

/** Edges and points that make it hard, of one kind after the other, ±180° and the poles often among them. */
const awkward: Record<string, (draw: () => number) => Trial> = Object.fromEntries(
  Object.entries({
    'edges of 1 cm to 1 m': (draw, from, azimuth) => direct(from, azimuth, 10 ** (2 * draw() - 2)).position,
    'edges to 10 000 km': (draw, from, azimuth) => direct(from, azimuth, 10 ** (7 * draw())).position,
    'edges of 10 000 km': (_, from, azimuth) => direct(from, azimuth, 1e7).position,
    'nearly antipodal ends': (draw, [lon, lat]) => {
      const near = 10 ** (8 * draw() - 8);
      const south = Math.max(-90, Math.min(90, -lat + (draw() - 0.5) * near));
      return [within(lon + 180 + (draw() - 0.5) * near), south];
    },
    'exactly antipodal ends': (_, [lon, lat]) => [within(lon + 180), -lat],
    'along meridians and over the poles': (draw, [lon]) => [within(lon + (draw() < 0.5 ? 180 : 0)), draw() * 180 - 90],
    'along the equator': (draw, from) => {
      from[1] = 0;
      return [within(from[0] + (draw() - 0.5) * 358), 0];
    },
  } satisfies Record<string, (draw: () => number, from: Position, azimuth: number) => Position>).map(([name, end]) => [
    name,
    (draw: () => number): Trial => {
      const pick = <T>(...choice: T[]) => choice[Math.floor(draw() * choice.length)];
      const from = [
        pick(180, -180, 179.9999999, draw() * 360 - 180),
        pick(0, 1e-9, 90, -90, 90 - 10 ** (-8 * draw()), draw() * 180 - 90, draw() * 180 - 90),
      ];
      const to = end(draw, from, pick(0, 90, 180, 270, draw() * 360, draw() * 360));
      const { distance, initialAzimuth } = inverse(from, to);
      const on = direct(from, initialAzimuth, (3 * draw() - 1) * Math.max(distance, 1)).position;
      const point = pick(
        on,
        direct(on, draw() * 360, 10 ** (9 * draw() - 3)).position,
        direct(on, draw() * 360, 10 ** (9 * draw() - 3)).position,
        [draw() * 360 - 180, Math.asin(2 * draw() - 1) / RADIAN],
        [within(on[0] + 180), -on[1]],
        from,
        to,
      );
      return { point, from, to };
    },
  ]),
);

describe.each(Object.entries(awkward))('brute force finds nothing nearer: %s', (name, trial) => {
  const trials = (seed: number, count: number) => {
    const draw = seeded(seed + name.length);
    return Array.from({ length: count }, () => trial(draw)).filter(({ from, to }) => inverse(from, to).distance > 1e-9);
  };

  test('on the edge', () => {
    const list = trials(100, 70);
    expect(list.length).toBeGreaterThan(50);
    for (const { point, from, to } of list) {
      const length = inverse(from, to).distance;
      const found = pointToSegment(point, from, to);
      const brute = bruteFoot(point, from, to, { low: 0, high: length, samples: 100 });
      const trace = JSON.stringify({ point, from, to });
      expect(Math.abs(found.distance - brute.distance), trace).toBeLessThan(2 * ACCURACY);
      expect(Math.abs(inverse(point, found.foot).distance - found.distance), trace).toBeLessThan(2 * ACCURACY);
    }
  });

  test('on the endless geodesic', () => {
    const half = Math.PI * SEMI_MAJOR;
    for (const { point, from, to } of trials(200, 40)) {
      const middle = inverse(from, to).distance / 2;
      const found = pointToGeodesic(point, from, to);
      const brute = bruteFoot(point, from, to, { low: middle - half, high: middle + half, samples: 200 });
      const trace = JSON.stringify({ point, from, to });
      // an end of the turn is no foot, and only the judge stops there; ties and samples may leave it a farther one
      const end = Math.abs(Math.abs(brute.alongTrack - middle) - half) < 1;
      if (!end) expect(found.distance - brute.distance, trace).toBeLessThan(2 * ACCURACY);
      expect(Math.abs(inverse(point, found.foot).distance - found.distance), trace).toBeLessThan(2 * ACCURACY);
      // there the way to the point is at right angles: what is left of the derivative of the distance, in metres along
      if (found.distance < 1 || Math.abs(found.alongTrack) < 1e-6) continue;
      const line = WGS84.InverseLine(from[1], from[0], to[1], to[0]);
      const at = line.Position(found.alongTrack);
      const outmask = Geodesic.STANDARD | Geodesic.REDUCEDLENGTH | Geodesic.GEODESICSCALE;
      const { azi1, m12, M12 } = WGS84.Inverse(at.lat2!, at.lon2!, point[1], point[0], outmask);
      if (M12! < 0.05) continue; // near a pole of the line all places of it are as far
      const left = (m12! / M12!) * Math.cos((azi1! - at.azi2!) * RADIAN);
      // two positions and two azimuths are rounded
      const noise = (2 * ROUNDING + 2 * 180 * 2 ** -53 * RADIAN * m12!) / M12!;
      expect(Math.abs(left), trace).toBeLessThan(1e-9 + noise);
    }
  });
});
