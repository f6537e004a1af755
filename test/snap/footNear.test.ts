import type { Position } from 'geojson';
import { describe, expect, test, vi } from 'vitest';
import { EdgeFeet } from '../../src/geodesy';
import { SegmentTree } from '../../src/index';
import { footNear } from '../../src/snap/footNear';
import type { Recording } from '../../src/subpaths/formats';
import { direct, pointToSegment } from '../../src/subpaths/geodesy';
import { type Route, routeFromLine } from '../../src/subpaths/route';
import { snap } from '../../src/subpaths/snap';
import { figureOfEight, lapsThenOutAndBack, parallelStreets } from '../support/planeRoute';
import { seeded, wanderingLine } from '../support/randomLine';
import { simulateRun } from '../support/simulateRun';

function recordingOf(positions: readonly Position[]): Recording {
  return {
    name: 'made up',
    lon: Float64Array.from(positions, ([lon]) => lon),
    lat: Float64Array.from(positions, ([, lat]) => lat),
    gapBefore: new Uint8Array(positions.length),
    issues: [],
    source: { format: 'csv' },
    attributes: {},
  };
}

/** Every foot against the exact one on its segment, and against the segments beside it: none of them is nearer. */
function expectExact(route: Route, { lon, lat, time, ...rest }: Recording): void {
  const { crossTrack, distance, footAlongTrack, segment, state } = snap(route, { lon, lat, time, ...rest });
  const vertex = (i: number) => [route.lon[i], route.lat[i]];
  segment.forEach((at, i) => {
    expect(state[i]).toBe('on');
    const exact = pointToSegment([lon[i], lat[i]], vertex(at), vertex(at + 1));
    expect(Math.abs(exact.distance - distance[i])).toBeLessThanOrEqual(1e-5);
    expect(Math.abs(crossTrack[i])).toBe(distance[i]);
    expect(Math.abs(route.alongTrack[at] + exact.alongTrack - footAlongTrack[i])).toBeLessThanOrEqual(1e-5);
    if (!exact.beyond && exact.distance > 1e-5) expect(Math.sign(crossTrack[i])).toBe(Math.sign(exact.crossTrack));
    for (const beside of [at - 1, at + 1]) {
      if (beside < 0 || beside + 2 > route.lon.length) continue;
      const other = pointToSegment([lon[i], lat[i]], vertex(beside), vertex(beside + 1));
      expect(other.distance).toBeGreaterThan(distance[i] - 1e-5);
    }
  });
}

describe('distance, side and foot are those of the exact ellipsoidal foot to 1e-5 m', () => {
  test.each<[string, Route]>([
    ['laps, out and back', lapsThenOutAndBack([5, 52])],
    ['over ±180°', lapsThenOutAndBack([180, -17])],
    ['figure of eight at 80° N', figureOfEight([20, 80])],
    ['streets at 45° S', parallelStreets([-70, -45])],
  ])('%s', (_, route) => {
    expectExact(route, simulateRun(route, { seed: 951, receivers: [{ sigma: 8 }] })[0].recording);
  });

  // 100 000 m is beyond what the plane around a fix reaches: the exact interception takes over
  test.each([0.5, 5, 50, 500, 5_000, 100_000])('edges of %d m', (edge) => {
    const random = seeded(edge * 10);
    for (const lat of [0, 47, -79]) {
      const line = wanderingLine(random, { start: [179.9, lat], count: 12, step: edge, turn: 40 });
      const route = routeFromLine(line, { maxSpacing: 2 * edge });
      const run = simulateRun(route, { seed: 7, speed: route.length / 200, receivers: [{ sigma: 10 }] })[0];
      expectExact(route, run.recording);
    }
  });
});

describe('the side beyond a vertex', () => {
  // a sharp turn to the left, a sharp turn to the right, and one straight back
  const corner = (turn: number): Route => {
    const start: Position = [8, 47];
    const middle = direct(start, 90, 200).position;
    return routeFromLine([start, middle, direct(middle, 90 + turn, 200).position]);
  };

  test.each([
    ['left', -100, 1],
    ['right', 100, -1],
    ['slightly left', -8, 1],
    ['slightly right', 8, -1],
    ['nearly back', -172, 1],
  ])('is the outside of the turn all the way round it: turning %s', (_, turn, outside) => {
    const route = corner(turn);
    const middle = direct([8, 47], 90, 200).position;
    // round the outside of the corner: from beside the end of the first edge to beside the start of the second
    const steps = 60;
    const round = Array.from({ length: steps + 1 }, (_, k) => {
      const azimuth = 90 + 90 * outside + (turn * k) / steps;
      return direct(middle, azimuth, 6).position;
    });
    const approach = Array.from({ length: 20 }, (_, k) => {
      const beside = direct([8, 47], 90, 10 * k).position;
      return direct(beside, 90 + 90 * outside, 6).position;
    });
    const { crossTrack } = snap(route, recordingOf([...approach, ...round]));
    crossTrack.forEach((offset) => {
      expect(Math.abs(offset - 6 * outside)).toBeLessThan(1e-3);
    });
  });

  test('fixes that wander about a shallow bend change side only where they cross the line', () => {
    const route = corner(-5);
    const middle = direct([8, 47], 90, 200).position;
    const random = seeded(77);
    const path = Array.from({ length: 400 }, (_, k) => {
      const along = direct([8, 47], 90, 195 + k / 40).position;
      return direct(along, 180, 0.2 + random() * 3).position;
    });
    expect(pointToSegment(path[399], middle, direct(middle, 85, 200).position).crossTrack).toBeGreaterThan(0);
    snap(route, recordingOf(path)).crossTrack.forEach((offset) => {
      expect(offset).toBeGreaterThan(0);
    });
  });
});

// 2026-11-28: each of 118 000 edges was measured, a tenth of a millisecond each, for every fix on the wrong side of a leap
test('of a fix hundreds of kilometres from its place no edge is measured on the way to it', () => {
  const route = routeFromLine([
    [5, 50],
    [9, 52],
  ]);
  const tree = new SegmentTree(route.lon, route.lat);
  const measure = vi.spyOn(EdgeFeet.prototype, 'measure');
  try {
    for (const place of [0, 0.25 * route.length, route.length]) {
      measure.mockClear();
      const [lon, lat] = place > 0 ? [5, 50] : [9, 52];
      tree.moveTo(lon, lat);
      footNear(route, tree, place);
      expect(Math.abs(route.alongTrack[tree.segment] - place)).toBeLessThan(20);
      expect(tree.distance).toBeGreaterThan(0.2 * route.length);
      expect(measure.mock.calls.length).toBeLessThan(20);
    }
  } finally {
    measure.mockRestore();
  }
});
