import { direct, inverse, pointToGeodesic, pointToSegment } from 'datumline/geodesy';
import type { Position } from 'geojson';
import { afterEach, describe, expect, test, vi } from 'vitest';
import { ECCENTRICITY2, FLATTENING, Geodesic, RADIAN, SEMI_MAJOR, WGS84 } from '../../src/geodesy/ellipsoid';
import { footOnLine, footOnSegment } from '../../src/geodesy/interception';
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

const within = (lon: number) => lon - 360 * Math.round(lon / 360);

afterEach(() => vi.restoreAllMocks());

/** Degrees of the equator in metres: it is a circle, and meridians cross it at right angles. */
const EQUATOR = SEMI_MAJOR * RADIAN;

/** Metres along a meridian from the equator. */
const northward = (lat: number) => inverse([0, 0], [0, lat]).distance * Math.sign(lat);

const view = (point: Position, from: Position, to: Position) => ({
  line: WGS84.InverseLine(from[1], from[0], to[1], to[0]),
  lon: point[0],
  lat: point[1],
});

describe('an edge of the equator: the foot is at the longitude of the point', () => {
  const lons = [-178.9, -175, -120, -91, -60, -5, -1e-7, 1e-7, 3, 60, 91, 120, 175, 178.9];

  test.each([1e-4, 1, 40, 170])('of %d degrees, endless', (length) => {
    for (const start of [-100, 0, 150]) {
      for (const east of lons) {
        for (const lat of [-80, -30, -1e-3, 1e-3, 30, 80, 86]) {
          const lon = start + length / 2 + east;
          // 200 km past half a turn count: of the two feet that are a turn apart the first
          const place = length / 2 + (east > 180 - 200_000 / EQUATOR ? east - 360 : east);
          const found = footOnLine(view([within(lon), lat], [start, 0], [within(start + length), 0]));
          const trace = `${start} ${east} ${lat}`;
          // 2e-8 m of distance leave so much of the place where the distance hardly falls
          const sharp = 3e-8 / Math.cos(lat * RADIAN) ** 1.5 + 3e-9;
          expect(Math.abs(found.alongTrack - place * EQUATOR), trace).toBeLessThan(sharp + 2e-8);
          expect(Math.abs(found.crossTrack + northward(lat)), trace).toBeLessThan(3e-8);
          expect(found.beyond).toBeUndefined();
        }
      }
    }
  });

  test.each([1e-4, 1, 40, 170])('of %d degrees, up to its ends', (length) => {
    const [from, to]: Position[] = [
      [0, 0],
      [length, 0],
    ];
    for (const lon of [...lons, length / 2, length - 1e-7, length + 1e-7, length + 3]) {
      for (const lat of [-80, -1e-3, 30, 86]) {
        // so near a pole of the line an end a centimetre away is as near
        if (lat === 86 && Math.min(Math.abs(lon), Math.abs(lon - length)) < 1e-3) continue;
        const point = [within(lon), lat];
        const found = footOnSegment(view(point, from, to));
        const trace = `${point}`;
        if (lon >= 0 && lon <= length) {
          expect(Math.abs(found.alongTrack - lon * EQUATOR), trace).toBeLessThan(3e-6);
          expect(Math.abs(found.crossTrack + northward(lat)), trace).toBeLessThan(3e-8);
          expect(found.beyond, trace).toBeUndefined();
        } else {
          const [start, end] = [inverse(point, from).distance, inverse(point, to).distance];
          expect(found.beyond, trace).toBe(start <= end ? 'start' : 'end');
          expect(Math.abs(found.alongTrack - (start <= end ? 0 : length * EQUATOR)), trace).toBeLessThan(2e-8);
          expect(Math.abs(Math.abs(found.crossTrack) - Math.min(start, end)), trace).toBeLessThan(3e-8);
          expect(Math.sign(found.crossTrack), trace).toBe(-Math.sign(lat));
        }
      }
    }
  });

  test('of equally near places the start of the edge, else the first', () => {
    // the pole is as far from all of the equator, the place opposite the middle of an edge from both its ends
    for (const lat of [90, -90]) {
      expect(footOnLine(view([0, lat], [10, 0], [50, 0])).alongTrack).toBe(0);
      expect(footOnSegment(view([0, lat], [10, 0], [50, 0]))).toMatchObject({ alongTrack: 0, beyond: 'start' });
    }
    expect(footOnSegment(view([-150, 0], [10, 0], [50, 0]))).toMatchObject({ alongTrack: 0, beyond: 'start' });
    expect(footOnSegment(view([-150.001, 0], [10, 0], [50, 0])).beyond).toBe('end');
    expect(footOnSegment(view([-149.999, 0], [10, 0], [50, 0])).beyond).toBe('start');
  });
});

test('a foot at an end is no place beyond it; closer than 2e-8 m is at it', () => {
  const [from, to] = [
    [5, 52],
    [5.01, 52.003],
  ];
  const { distance, initialAzimuth, finalAzimuth } = inverse(from, to);
  for (const side of [90, -90]) {
    for (const [end, azimuth, along] of [
      [from, initialAzimuth, 0],
      [to, finalAzimuth, distance],
    ] as const) {
      const found = footOnSegment(view(direct(end, azimuth + side, 40).position, from, to));
      expect(Math.abs(found.alongTrack - along)).toBeLessThan(2e-8);
      expect(Math.abs(found.crossTrack - (side / 90) * 40)).toBeLessThan(3e-8);
      expect(found.beyond).toBeUndefined();
      const past = direct(end, azimuth + (along > 0 ? 0 : 180), 1e-5).position;
      expect(footOnSegment(view(past, from, to)).beyond).toBe(along > 0 ? 'end' : 'start');
    }
  }
});

test('left of the line is negative, right positive, on it 0 and never −0; straight beyond an end positive', () => {
  const [from, to] = [
    [5, 0],
    [6, 0],
  ];
  expect(Object.is(footOnLine(view([5.5, 0], from, to)).crossTrack, 0)).toBe(true);
  expect(Object.is(footOnSegment(view([5.5, 0], from, to)).crossTrack, 0)).toBe(true);
  expect(Object.is(footOnSegment(view([5, 0], from, to)).crossTrack, 0)).toBe(true);
  expect(Object.is(footOnSegment(view([6, 0], [6, 0], from)).crossTrack, 0)).toBe(true);
  expect(footOnSegment(view([7, 0], from, to)).crossTrack).toBeCloseTo(EQUATOR, 7);
});

test('an edge of no length, or of a billionth of a metre, is its start: all is right of it', () => {
  for (const to of [
    [5, 52],
    [5 + 9e-15, 52],
  ]) {
    for (const foot of [footOnLine, footOnSegment]) {
      for (const azimuth of [10, 100, 190, 280]) {
        const found = foot(view(direct([5, 52], azimuth, 30).position, [5, 52], to));
        expect(found).toEqual({ alongTrack: 0, crossTrack: expect.closeTo(30, 7) });
      }
    }
  }
});

test.each([
  [1000, 500, 1],
  [30_000, 30_000, 1],
  [100_000, 100_000, 2],
  [1e7, 9e6, 3],
])('feet up to %d m along and %d m aside cost no more than %d looks at the point', (along, aside, most) => {
  const draw = seeded(7);
  const look = vi.spyOn(WGS84, 'Inverse');
  for (let k = 0; k < 300; k++) {
    const from = [draw() * 360 - 180, Math.asin(2 * draw() - 1) / RADIAN];
    const azimuth = draw() * 360;
    const to = direct(from, azimuth, 1000).position;
    const foot = direct(from, azimuth, (2 * draw() - 1) * along);
    const point = direct(foot.position, foot.finalAzimuth + (draw() < 0.5 ? 90 : -90), draw() * aside).position;
    const seen = view(point, from, to);
    look.mockClear();
    footOnLine(seen);
    expect(look.mock.calls.length, JSON.stringify({ from, to, point })).toBeLessThanOrEqual(most);
  }
});

test('a point past either end of an edge costs no more than two looks', () => {
  const draw = seeded(8);
  const look = vi.spyOn(WGS84, 'Inverse');
  for (let k = 0; k < 100; k++) {
    const from = [draw() * 360 - 180, Math.asin(2 * draw() - 1) / RADIAN];
    const to = direct(from, draw() * 360, 1000);
    const azimuth = to.finalAzimuth + 120 * (draw() - 0.5);
    const point = direct(to.position, azimuth, 1 + 5000 * draw()).position;
    for (const [start, end, beyond] of [
      [from, to.position, 'end'],
      [to.position, from, 'start'],
    ] as const) {
      const seen = view(point, start, end);
      look.mockClear();
      expect(footOnSegment(seen).beyond).toBe(beyond);
      expect(look.mock.calls.length).toBeLessThanOrEqual(2);
    }
  }
});

test('nor does one whose farther end is just less than half a turn less 200 km from its foot', () => {
  const look = vi.spyOn(WGS84, 'Inverse');
  const far = (Math.PI * SEMI_MAJOR - 210_000) / EQUATOR;
  for (const length of [1, 40, 90]) {
    for (const lat of [0, 0.1, -1]) {
      for (const [lon, beyond] of [
        [far, 'end'],
        [length - far, 'start'],
      ] as const) {
        const seen = view([within(lon), lat], [0, 0], [length, 0]);
        look.mockClear();
        expect(footOnSegment(seen).beyond).toBe(beyond);
        expect(look.mock.calls.length, `${length} ${lat} ${beyond}`).toBeLessThanOrEqual(3);
      }
    }
  }
});

test.each([
  [170, 205],
  [170, -155 + 1e-3],
  [170, 85 + 179.9 - 200_000 / EQUATOR],
  [90, 224.9 - 200_000 / EQUATOR],
  [90, -134.9 + 200_000 / EQUATOR],
])(
  'the foot nearest to the middle of an edge of %d degrees is taken, whichever way round Newton goes: at %d',
  (length, place) => {
    for (const lat of [-30, 1, 40]) {
      const found = footOnLine(view([within(place), lat], [0, 0], [length, 0]));
      const wanted = Math.abs(place - length / 2) < 180 ? place : place + 360;
      expect(Math.abs(found.alongTrack - wanted * EQUATOR)).toBeLessThan(1e-6);
    }
  },
);

interface Trial {
  readonly point: Position;
  readonly from: Position;
  readonly to: Position;
}

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
