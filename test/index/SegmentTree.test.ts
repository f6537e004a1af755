import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { EdgeFeet } from '../../src/geodesy/EdgeFeet';
import { Geodesic, WGS84 } from '../../src/geodesy/ellipsoid';
import { SegmentTree } from '../../src/index/SegmentTree';

function near([lon, lat]: readonly number[], azimuth: number, distance: number): number[] {
  const { lat2, lon2 } = WGS84.Direct(lat, lon, azimuth, distance, Geodesic.STANDARD);
  return [lon2!, lat2!];
}

/** Places so far apart along one geodesic. */
function along([lon, lat]: readonly number[], azimuth: number, places: readonly number[]): number[][] {
  const line = WGS84.DirectLine(lat, lon, azimuth, 1, Geodesic.STANDARD | Geodesic.DISTANCE_IN);
  return places.map((s) => {
    const { lat2, lon2 } = line.Position(s, Geodesic.STANDARD);
    return [lon2!, lat2!];
  });
}

const azimuth = fc.double({ min: 0, max: 360, noNaN: true });
const metres = (max: number) => fc.double({ min: 0, max, noNaN: true });
const start = fc.constantFrom<readonly number[]>(
  [5, 52],
  [179.9995, 12],
  [-179.999, -60],
  [20, 89.9999],
  [-70, -89.998],
  [0, 0],
);

/** Short edges, wandering, standing still, turning back. */
const wandering = fc
  .record({
    start,
    steps: fc.array(
      fc.record({
        turn: fc.oneof(fc.constantFrom(0, 0, 180, 90), fc.double({ min: -180, max: 180, noNaN: true })),
        length: fc.oneof(fc.constantFrom(0, 5, 5, 5), fc.double({ min: 0.001, max: 400, noNaN: true })),
      }),
      { minLength: 1, maxLength: 120 },
    ),
  })
  .map(({ start, steps }) => {
    let [lon, lat] = start;
    let heading = 40;
    const line = [[lon, lat]];
    for (const { turn, length } of steps) {
      const { lat2, lon2, azi2 } = WGS84.Direct(lat, lon, heading + turn, length, Geodesic.STANDARD);
      [lon, lat, heading] = [lon2!, lat2!, azi2!];
      line.push([lon, lat]);
    }
    return line;
  });

const lines = {
  wandering,
  // knots of short edges, tens of kilometres from one another
  clustered: fc
    .record({
      start,
      knots: fc.array(
        fc.record({
          azimuth,
          away: metres(60_000),
          places: fc.array(fc.tuple(azimuth, metres(25)), { minLength: 2, maxLength: 30 }),
        }),
        { minLength: 2, maxLength: 5 },
      ),
    })
    .map(({ start, knots }) =>
      knots.flatMap(({ azimuth, away, places }) => {
        const middle = near(start, azimuth, away);
        return places.map(([turn, distance]) => near(middle, turn, distance));
      }),
    ),
  // forth and back over one geodesic, the same vertices again and again
  collinear: fc
    .record({
      start,
      azimuth,
      spacing: fc.constantFrom(5, 80, 9000),
      places: fc.array(fc.integer({ min: 0, max: 40 }), { minLength: 2, maxLength: 80 }),
    })
    .map(({ start, azimuth, spacing, places }) => {
      const vertices = along(
        start,
        azimuth,
        Array.from({ length: 41 }, (_, i) => i * spacing),
      );
      return places.map((place) => vertices[place]);
    }),
  // laps, of which the later ones are the first again to the last bit: more leaves in one place than are kept together
  repeated: fc
    .record({
      start,
      corners: fc.array(fc.tuple(azimuth, metres(60)), { minLength: 3, maxLength: 8 }),
      laps: fc.constantFrom(2, 3, 150),
    })
    .map(({ start, corners, laps }) => {
      const lap = corners.map(([azimuth, away]) => near(start, azimuth, away));
      return Array.from({ length: laps }, () => lap).flat();
    }),
  // over ±180° to and fro, and twice around the world
  antimeridian: fc
    .record({
      lat: fc.constantFrom(-17, 0, 66),
      step: fc.constantFrom(0.0001, 0.003, 1.7),
      turns: fc.array(fc.integer({ min: -40, max: 80 }), { minLength: 2, maxLength: 6 }),
      around: fc.constantFrom(false, false, true),
    })
    .map(({ lat, step, turns, around }) => {
      const wrap = (lon: number) => ((((lon + 180) % 360) + 360) % 360) - 180;
      if (around) return Array.from({ length: 73 }, (_, i) => [wrap(170 + 10 * i), lat + i * 0.01]);
      let at = -20;
      return turns.flatMap((turn, k) => {
        const way = Array.from({ length: Math.abs(turn - at) }, (_, i) => at + Math.sign(turn - at) * i);
        at = turn;
        return way.concat(turn).map((i) => [wrap(180 + i * step), lat + k * 0.0002]);
      });
    }),
  // through a pole, past it, and round and round it
  polar: fc
    .record({ pole: fc.constantFrom(90, -90), aside: metres(300), heading: azimuth, rounds: metres(3) })
    .map(({ pole, aside, heading, rounds }) => {
      const away = (lon: number, distance: number) => near([lon, pole], pole > 0 ? 180 : 0, distance);
      const through = Array.from({ length: 41 }, (_, i) => {
        const s = (i - 20) * 25;
        const turn = (Math.atan2(aside, s) * 180) / Math.PI;
        return away(heading + turn, Math.hypot(aside, s));
      });
      const spiral = Array.from({ length: Math.ceil(rounds * 30) }, (_, i) => away(heading + 12 * i, 500 - 3 * i));
      return [...through, ...spiral];
    }),
};

/** Fixes close to one another, as a recording has them, beginning anywhere about the line. */
const walk = fc.record({
  vertex: fc.nat(),
  azimuth,
  away: fc.oneof(fc.constant(0), metres(10), metres(900)),
  steps: fc.array(fc.tuple(azimuth, metres(12)), { maxLength: 12 }),
});
const queries = fc.array(walk, { minLength: 3, maxLength: 3 });

function positions(line: readonly number[][], walks: typeof queries extends fc.Arbitrary<infer T> ? T : never) {
  return walks.flatMap(({ vertex, azimuth, away, steps }) => {
    const fixes = [near(line[vertex % line.length], azimuth, away)];
    for (const [turn, length] of steps) fixes.push(near(fixes[fixes.length - 1], turn, length));
    return fixes;
  });
}

function columns(line: readonly number[][]) {
  return { lon: Float64Array.from(line, ([lon]) => lon), lat: Float64Array.from(line, ([, lat]) => lat) };
}

const answer = ({ segment, distance, fraction, crossTrack }: SegmentTree) => ({
  segment,
  distance,
  fraction,
  crossTrack,
});

describe.each(Object.entries(lines))('%s', (_, anyLine) => {
  test('finds what a scan of every segment finds, whatever was asked before', () => {
    fc.assert(
      fc.property(anyLine, queries, fc.nat(), fc.nat(), metres(1), (line, walks, a, b, share) => {
        const { lon, lat } = columns(line);
        const tree = new SegmentTree(lon, lat);
        const feet = new EdgeFeet(lon, lat);
        const [from, to] = [a % tree.size, 1 + (b % tree.size)];
        for (const [x, y] of positions(line, walks)) {
          feet.moveTo(x, y);
          const distances = Array.from({ length: tree.size }, (_, segment) => feet.measure(segment));
          const least = Math.min(...distances);
          const found = tree.nearest(x, y);
          expect(tree.distance).toBeGreaterThanOrEqual(least - 1e-8);
          expect(tree.distance).toBeLessThanOrEqual(least + 2e-6);
          expect(Math.abs(tree.crossTrack)).toBe(tree.distance);
          // the first of those equally near, or the one that starts where it ends
          const first = distances.findIndex((distance) => distance <= least + 1e-6);
          expect(found).toBeGreaterThanOrEqual(first);
          expect(distances.slice(first, found + 1).every((distance) => distance <= least + 2e-6)).toBe(true);

          const fresh = new SegmentTree(lon, lat);
          fresh.nearest(x, y);
          expect(answer(tree)).toEqual(answer(fresh));

          // nothing within less than that, the same within it
          if (least > 1e-3) expect(tree.nearest(x, y, least * (1 - 0.9 * share) - 1e-4)).toBe(-1);
          expect(tree.nearest(x, y, least + 2e-6)).toBe(found);

          const part = Math.min(...distances.slice(from, to));
          const inPart = tree.nearest(x, y, Infinity, from, to);
          if (to <= from) expect(inPart).toBe(-1);
          else {
            expect(inPart).toBeGreaterThanOrEqual(from);
            expect(inPart).toBeLessThan(to);
            expect(Math.abs(tree.distance - part)).toBeLessThanOrEqual(2e-6);
          }
          for (const radius of [least + 1e-5, least + 7.3, least + 9 + 5000 * share]) {
            expect(tree.within(x, y, radius)).toEqual(
              distances.flatMap((distance, segment) => (distance <= radius ? [segment] : [])),
            );
          }
        }
      }),
      { seed: 1, numRuns: 40 },
    );
  });
});

test('a place that is none is nowhere', () => {
  const { lon, lat } = columns([
    [5, 52],
    [5.001, 52],
  ]);
  const tree = new SegmentTree(lon, lat);
  tree.nearest(5, 52);
  expect(tree.nearest(Number.NaN, Number.NaN)).toBe(-1);
  expect(tree.within(Number.NaN, 52, 100)).toEqual([]);
  expect(new SegmentTree([], []).nearest(5, 52)).toBe(-1);
});
