import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { inverse, localPlane, pointToSegment } from '../../src/subpaths/geodesy';
import { pointAt, type Route, routeFromLine, sliceRoute } from '../../src/subpaths/route';
import { indexRoute } from '../../src/subpaths/snap';
import { ambiguousLocation } from '../published/ambiguousLocation';
import { faaPointOnSegment } from '../published/faaPointOnSegment';
import { lapsThenOutAndBack, planeRoute } from '../support/planeRoute';
import { degrees, rowsOf } from '../support/printed';
import { placeBeside } from '../support/simulateRun';

const outAndBack = planeRoute(
  [5, 52],
  [
    [0, 0],
    [200, 0],
    [0, 0],
  ],
);
const beside = (route: Route, s: number, right: number) => placeBeside(route, s, right);

describe('nearest', () => {
  test.each([
    ['right of travel', 50, 4, { alongTrack: 50, crossTrack: 4, distance: 4 }],
    ['left of travel', 50, -4, { alongTrack: 50, crossTrack: -4, distance: 4 }],
    ['on the line', 62, 0, { alongTrack: 62, crossTrack: 0, distance: 0 }],
    ['on the way back: the first pass', 350, 4, { alongTrack: 50, crossTrack: -4, distance: 4 }],
  ])('%s', (_, s, right, expected) => {
    const found = indexRoute(outAndBack).nearest(beside(outAndBack, s, right))!;
    expect(found.alongTrack).toBeCloseTo(expected.alongTrack, 5);
    expect(found.crossTrack).toBeCloseTo(expected.crossTrack, 5);
    expect(found.distance).toBeCloseTo(expected.distance, 5);
    expect(found.azimuth).toBeCloseTo(90, 1);
    expect(found.beyond).toBeUndefined();
  });

  test('a vertex belongs to the segment it starts, the last to the last segment', () => {
    const index = indexRoute(outAndBack);
    const vertex = (i: number) => [outAndBack.lon[i], outAndBack.lat[i]];
    for (let i = 0; i < 40; i++) expect(index.nearest(vertex(i))).toMatchObject({ segment: i, fraction: 0 });
    const line = planeRoute(
      [5, 52],
      [
        [0, 0],
        [100, 30],
      ],
    );
    const last = line.lon.length - 1;
    expect(indexRoute(line).nearest([line.lon[last], line.lat[last]])).toMatchObject({
      segment: last - 1,
      fraction: 1,
    });
  });

  test('beyond names the end passed, and only that', () => {
    const line = planeRoute(
      [5, 52],
      [
        [0, 0],
        [100, 0],
      ],
    );
    const index = indexRoute(line);
    const at = (east: number, north: number) => {
      const [lon, lat] = beside(line, Math.min(Math.max(east, 0), 100), -north);
      return [lon + ((east - Math.min(Math.max(east, 0), 100)) / 111_320) * (1 / Math.cos((52 * Math.PI) / 180)), lat];
    };
    expect(index.nearest(at(-10, 3))).toMatchObject({ alongTrack: 0, beyond: 'start' });
    expect(index.nearest(at(110, 3))).toMatchObject({ alongTrack: line.length, beyond: 'end' });
    expect(index.nearest(at(0, 3))!.beyond).toBeUndefined();
    expect(index.nearest(at(100, -3))!.beyond).toBeUndefined();
  });

  test('between keeps to the stretch, its ends included', () => {
    const index = indexRoute(outAndBack);
    const position = beside(outAndBack, 50, 4);
    expect(index.nearest(position, { between: { from: 300, to: 400 } })).toMatchObject({
      crossTrack: expect.closeTo(-4, 5),
      alongTrack: expect.closeTo(350, 5),
    });
    const clipped = index.nearest(position, { between: { from: 61.5, to: 130 } })!;
    expect(clipped.alongTrack).toBeCloseTo(61.5, 6);
    expect(clipped.distance).toBeCloseTo(Math.hypot(4, 11.5), 4);
    expect(index.nearest(position, { between: { from: 62, to: 63 } })!.alongTrack).toBeCloseTo(62, 6);
    expect(index.nearest(position, { between: { from: 70, to: 70 } })!.alongTrack).toBeCloseTo(70, 6);
    expect(index.nearest(position, { between: { from: 300, to: 400 }, maxDistance: 1 })).toBeUndefined();
  });

  test('the limit of distance is kept', () => {
    const index = indexRoute(outAndBack);
    expect(index.nearest(beside(outAndBack, 50, 4), { maxDistance: 3.99 })).toBeUndefined();
    expect(index.nearest(beside(outAndBack, 50, 4), { maxDistance: 4.01 })!.distance).toBeCloseTo(4, 5);
  });

  test.each([
    [[5, 95], undefined, 'out-of-range', 'position latitude'],
    [[5, 52], { between: { from: 10, to: 5 } }, 'outside', 'options.between'],
    [[5, 52], { between: { from: 0, to: 1e6 } }, 'outside', 'options.between'],
    [[5, 52], { between: 4 }, 'wrong-type', 'options.between'],
    [[5, 52], { maxDistance: -1 }, 'out-of-range', 'options.maxDistance'],
    [[5, 52], { within: 3 }, 'unknown-key', 'options.within'],
  ])('%o with %o is refused', (position, options, reason, argument) => {
    expect(() => indexRoute(outAndBack).nearest(position, options as object)).toThrow(
      expect.objectContaining({
        reason: position[1] === 95 ? expect.stringMatching(/swapped|out-of-range/) : reason,
        argument,
      }),
    );
  });

  // FAA Order 8260.54A, appendix 2, attachment C, through test/published.
  test('segments of hundreds of kilometres: the published places on them, and how far the others are', () => {
    for (const row of rowsOf(faaPointOnSegment)) {
      const place = (lat: string, lon: string) => [degrees(lon), degrees(lat)];
      const [from, to] = [place(row.aLat, row.aLon), place(row.bLat, row.bLon)];
      const point = place(row.pointLat, row.pointLon);
      const route = routeFromLine([from, to], { maxSpacing: 1e6 });
      const found = indexRoute(route).nearest(point)!;
      if (row.on === '1') expect(found.distance).toBeLessThanOrEqual(1.6e-4);
      else expect(found.distance).toBeGreaterThan(47_000);
      const exact = pointToSegment(point, from, to);
      expect(Math.abs(found.distance - exact.distance)).toBeLessThanOrEqual(1e-5);
      expect(inverse(found.position, exact.foot).distance).toBeLessThanOrEqual(1e-5);
    }
  });

  // A plane in the source: within 10 m the ellipsoid is one to 1e-6.
  test.each(ambiguousLocation)('published: $what', ({ line, point, first, all }) => {
    const route = planeRoute([5, 52], line);
    const position = localPlane([5, 52]).toPosition(point);
    const index = indexRoute(route);
    expect(index.nearest(position)!.alongTrack / route.length).toBeCloseTo(first, 6);
    const places = index.candidates(position, { maxDistance: 6 }).map(({ alongTrack }) => alongTrack / route.length);
    expect(places.length).toBe(all.length);
    for (const [i, place] of places.entries()) expect(place).toBeCloseTo(all[i], 6);
  });
});

const spots = [
  [5, 52],
  [179.999, -17],
  [20, 80],
  [-100, 89.99],
];

describe('properties', () => {
  test('pointAt then nearest gives the place back; the foot is exact; shifting longitudes changes nothing', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...spots),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: -20, max: 20, noNaN: true }),
        fc.constantFrom(5, 200),
        (origin, share, right, maxSpacing) => {
          const route = planeRoute(
            origin,
            [
              [0, 0],
              [700, 100],
              [900, -400],
              [1500, -420],
            ],
            { maxSpacing },
          );
          const s = share * route.length;
          const position = beside(route, s, right);
          const index = indexRoute(route);
          const found = index.nearest(position)!;
          const vertex = (i: number) => [route.lon[i], route.lat[i]];
          let least = Infinity;
          for (let i = 0; i + 1 < route.lon.length; i++) {
            least = Math.min(least, pointToSegment(position, vertex(i), vertex(i + 1)).distance);
          }
          expect(Math.abs(found.distance - least)).toBeLessThanOrEqual(1e-5);
          expect(Math.abs(inverse(position, found.position).distance - found.distance)).toBeLessThanOrEqual(1e-5);
          const exact = pointToSegment(position, vertex(found.segment), vertex(found.segment + 1));
          expect(inverse(found.position, exact.foot).distance).toBeLessThanOrEqual(1e-5);
          const on = index.nearest(beside(route, s, 0))!;
          expect(Math.abs(on.alongTrack - s)).toBeLessThanOrEqual(1e-5);
          const moved = { ...route, lon: route.lon.map((lon) => lon + 360) };
          expect(indexRoute(moved).nearest(position)!.alongTrack).toBeCloseTo(found.alongTrack, 5);
        },
      ),
      { seed: 5, numRuns: 60 },
    );
  });

  test('far away it is still the nearest, to 1e-5 m of every segment tried', () => {
    const route = planeRoute(
      [5, 52],
      [
        [0, 0],
        [700, 100],
        [900, -400],
      ],
    );
    const vertex = (i: number) => [route.lon[i], route.lat[i]];
    for (const position of [
      [5.3, 52.1],
      [6, 50],
      [40, 10],
      [-175, -52],
      [0, 90],
    ]) {
      const found = indexRoute(route).nearest(position)!;
      const all = Array.from(
        { length: route.lon.length - 1 },
        (_, i) => pointToSegment(position, vertex(i), vertex(i + 1)).distance,
      );
      expect(Math.abs(found.distance - Math.min(...all))).toBeLessThanOrEqual(1e-5);
    }
  });
});

describe('every question against trying all, on lines that cross and repeat themselves', () => {
  const corner = fc.tuple(fc.integer({ min: -150, max: 150 }), fc.integer({ min: -150, max: 150 }));
  const scene = fc
    .record({
      origin: fc.constantFrom(...spots),
      corners: fc.array(corner, { minLength: 2, maxLength: 9 }),
      again: fc.constantFrom('once', 'twice', 'back'),
      maxSpacing: fc.constantFrom(5, 60),
      place: corner,
      stretch: fc.tuple(fc.double({ min: 0, max: 1, noNaN: true }), fc.double({ min: 0, max: 1, noNaN: true })),
    })
    .filter(({ corners }) =>
      corners.some((point) => Math.hypot(point[0] - corners[0][0], point[1] - corners[0][1]) > 5),
    )
    .map(({ origin, corners, again, maxSpacing, place, stretch }) => {
      const more = again === 'once' ? [] : again === 'twice' ? corners : corners.slice(0, -1).reverse();
      const route = planeRoute(origin, [...corners, ...more], { maxSpacing });
      const [from, to] = stretch.map((share) => share * route.length).sort((a, b) => a - b);
      return { route, position: localPlane(origin).toPosition(place), from, to };
    });
  const nearestOfAll = ({ lon, lat }: Route, position: readonly number[]) =>
    Array.from(lon.subarray(1), (x, i) => pointToSegment([...position], [lon[i], lat[i]], [x, lat[i + 1]])).reduce(
      (least, { distance }) => Math.min(least, distance),
      Infinity,
    );

  test('between: the nearest place of that stretch', () => {
    fc.assert(
      fc.property(scene, ({ route, position, from, to }) => {
        fc.pre(to - from > 0.01);
        const found = indexRoute(route).nearest(position, { between: { from: from, to: to } })!;
        expect(found.alongTrack).toBeGreaterThanOrEqual(from - 1e-9);
        expect(found.alongTrack).toBeLessThanOrEqual(to + 1e-9);
        expect(Math.abs(found.distance - nearestOfAll(sliceRoute(route, from, to), position))).toBeLessThanOrEqual(
          1e-5,
        );
        expect(Math.abs(inverse(position, found.position).distance - found.distance)).toBeLessThanOrEqual(1e-5);
        // of places equally near the first: no other pass before this one is
        if (found.alongTrack - from > 2) {
          const before = indexRoute(route).nearest(position, { between: { from: from, to: found.alongTrack - 2 } })!;
          expect(before.distance).toBeGreaterThan(found.distance + 5e-7);
        }
      }),
      { seed: 6, numRuns: 150 },
    );
  });

  test('candidates: nearest of their surroundings, none left out, one for each rise of the distance between', () => {
    fc.assert(
      fc.property(scene, fc.double({ min: 5, max: 250, noNaN: true }), ({ route, position }, within) => {
        const places = indexRoute(route).candidates(position, { maxDistance: within });
        const at = Array.from({ length: Math.ceil(2 * route.length) }, (_, k) => k / 2)
          .concat(...route.alongTrack, ...places.map(({ alongTrack }) => alongTrack))
          .sort((a, b) => a - b);
        const away = at.map((s) => inverse(position, pointAt(route, s).position).distance);
        const climb = (k: number, step: number) => {
          let j = k;
          while (j + step >= 0 && j + step < at.length && away[j + step] >= away[k] - 1e-6) {
            j += step;
            if (away[j] > away[k] + 0.1) return j;
          }
          // an end of the route is a side without a lower place; a lower place before any rise is none
          return j + step < 0 || j + step === at.length ? j : undefined;
        };
        for (const [k, s] of at.entries()) {
          const [left, right] = [climb(k, -1), climb(k, 1)];
          if (left === undefined || right === undefined || away[k] > within - 0.2) continue;
          const here = places.filter(({ alongTrack }) => alongTrack >= at[left] && alongTrack <= at[right]);
          expect(here.length, `none at ${s}`).toBeGreaterThanOrEqual(1);
          expect(Math.min(...here.map(({ distance }) => distance))).toBeLessThanOrEqual(away[k] + 1e-5);
        }
        for (const [n, { alongTrack, distance }] of places.entries()) {
          expect(distance).toBeLessThanOrEqual(within + 1e-6);
          for (const [k, s] of at.entries()) {
            if (Math.abs(s - alongTrack) <= 0.6) expect(away[k]).toBeGreaterThanOrEqual(distance - 1e-5);
          }
          const next = places[n + 1];
          if (next === undefined) continue;
          const top = at.reduce(
            (most, s, k) => (s >= alongTrack && s <= next.alongTrack ? Math.max(most, away[k]) : most),
            0,
          );
          expect(top).toBeGreaterThan(Math.min(Math.max(distance, next.distance) + 0.02, within - 1e-5));
        }
      }),
      { seed: 7, numRuns: 60 },
    );
  });

  test('segmentsWithin: all of them', () => {
    fc.assert(
      fc.property(scene, fc.double({ min: 0, max: 250, noNaN: true }), ({ route, position }, radius) => {
        const { lon, lat } = route;
        const found = new Set(indexRoute(route).segmentsWithin(position, radius));
        for (let i = 0; i + 1 < lon.length; i++) {
          const { distance } = pointToSegment(position, [lon[i], lat[i]], [lon[i + 1], lat[i + 1]]);
          if (Math.abs(distance - radius) > 1e-5) expect(found.has(i)).toBe(distance < radius);
        }
        expect([...found]).toEqual([...found].sort((a, b) => a - b));
      }),
      { seed: 8, numRuns: 100 },
    );
  });
});

describe('candidates', () => {
  const laps = lapsThenOutAndBack([5, 52]);

  test('once for each pass, in order', () => {
    const places = indexRoute(laps).candidates(beside(laps, 300, 3), { maxDistance: 30 });
    expect(places.length).toBe(3);
    const lap = 2 * Math.PI * 80;
    for (const [k, { alongTrack, crossTrack }] of places.entries()) {
      expect(Math.abs(alongTrack - (300 + k * lap))).toBeLessThan(1);
      expect(crossTrack).toBeCloseTo(3, 1);
    }
    const legs = indexRoute(laps).candidates(beside(laps, 2000, 3), { maxDistance: 30 });
    expect(legs.map(({ crossTrack }) => Math.round(crossTrack))).toEqual([3, -3]);
  });

  test('equally near all along an arc is one place; none within reach is none', () => {
    const centre = beside(laps, 300, -80);
    // the centre is met to centimetres only, so each lap has a nearest side; not one for each of its 250 chords
    expect(indexRoute(laps).candidates(centre, { maxDistance: 81 }).length).toBeLessThanOrEqual(5);
    expect(indexRoute(laps).candidates(centre, { maxDistance: 20 })).toEqual([]);
    expect(() => indexRoute(laps).candidates([5, 52], {} as { maxDistance: number })).toThrow(
      expect.objectContaining({ reason: 'wrong-type', argument: 'options.maxDistance' }),
    );
  });

  test('segmentsWithin lists the segments, ascending', () => {
    const found = indexRoute(outAndBack).segmentsWithin(beside(outAndBack, 52, 1), 3);
    expect(found).toEqual([9, 10, 69, 70]);
  });
});
