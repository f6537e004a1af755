import { describe, expect, test } from 'vitest';
import type { Recording } from '../../src/model';
import { localPlane } from '../../src/subpaths/geodesy';
import { snap } from '../../src/subpaths/snap';
import { skippedLoop } from '../support/hardRides';
import { circle, type PlanePoint, planeRoute } from '../support/planeRoute';
import { simulateRide } from '../support/simulateRide';

const origin = [5, 52];

/** A recording without noise of a body that has gone so many metres along a line of the plane at each second. */
function recorded(points: readonly PlanePoint[], goneAt: (second: number) => number): Recording {
  const { toPosition } = localPlane(origin);
  const lengths = points.map(([x, y], i) => (i > 0 ? Math.hypot(x - points[i - 1][0], y - points[i - 1][1]) : 0));
  const total = lengths.reduce((a, b) => a + b, 0);
  const places: number[][] = [];
  for (let second = 0; goneAt(second) < total; second++) {
    let left = goneAt(second);
    let edge = 1;
    while (edge < points.length - 1 && left > lengths[edge]) left -= lengths[edge++];
    const share = left / lengths[edge];
    const [[ax, ay], [bx, by]] = [points[edge - 1], points[edge]];
    places.push(toPosition([ax + share * (bx - ax), ay + share * (by - ay)]));
  }
  return {
    name: 'recorded',
    lon: Float64Array.from(places, ([lon]) => lon),
    lat: Float64Array.from(places, ([, lat]) => lat),
    time: Float64Array.from(places, (_, second) => 1000 * second),
    gapBefore: Uint8Array.from(places, (_, i) => (i === 0 ? 1 : 0)),
    issues: [],
    source: { format: 'gpx' },
    attributes: {},
  };
}

describe('a loop where the route crosses itself', () => {
  const points: PlanePoint[] = [[-600, 0], ...circle([0, 24], 24, -90, 360), [600, 0]];
  const loop = 2 * Math.PI * 24;

  test('is left out where the fixes go straight on, whatever the clock leaves room for', () => {
    for (const interval of [1, 5]) {
      const { route, recording, alongTrack: truth } = skippedLoop(150, { seed: 43_000, interval, sigma: 0 });
      const { skips, alongTrack, confidence } = snap(route, recording);
      expect(skips.length).toBe(1);
      // at the crossing, to a step and a bin
      expect(Math.abs(skips[0].from - 600)).toBeLessThan(3 * interval + 5);
      expect(Math.abs(skips[0].to - 750)).toBeLessThan(3 * interval + 5);
      alongTrack.forEach((s, i) => {
        if (Math.abs(s - truth[i]) > 20) expect(confidence[i]).toBeLessThan(0.9);
        // far from the crossing nothing is unsure
        if (Math.abs(truth[i] - 675) > 75 + 70) expect(confidence[i]).toBeGreaterThan(0.9);
      });
    }
  });

  test.each([3, 6, 9])('gone round at %d m a second, elsewhere at 3: no skip, and where it was', (speed) => {
    const recording = recorded(points, (t) =>
      t < 190 ? 3 * t : t < 190 + 230 / speed ? 570 + speed * (t - 190) : 800 + 3 * (t - 190 - 230 / speed),
    );
    const { skips, alongTrack, confidence } = snap(planeRoute(origin, points), recording);
    expect(skips).toEqual([]);
    const at = Math.round(190 + (30 + loop / 2) / speed);
    expect(Math.abs(alongTrack[at] - (570 + speed * (at - 190)))).toBeLessThan(15);
    for (const sure of confidence) expect(sure).toBeGreaterThan(0.9);
  });
});

describe('thrown along the route', () => {
  const straight: PlanePoint[] = [
    [0, 0],
    [1500, 0],
  ];

  test.each([-90, -60, 60, 90])(
    'by %d m for 40 s: its fixes say that they are unsure, and no others, and stay on their place',
    (metres) => {
      for (const interval of [1, 5, 10]) {
        const push = { at: 200, seconds: 40, ramp: 0, by: [metres, 0] as const };
        const ride = simulateRide(straight, { seed: 43_001, sigma: 3, interval, pushes: [push] });
        const { recording, pushed, alongTrack: truth } = ride;
        const { confidence, alongTrack, footAlongTrack, ambiguous } = snap(ride.route, recording);
        for (const { reason, message, shift } of ambiguous) {
          expect([reason, message]).toEqual(['leap-along', expect.stringContaining('or the body hurried')]);
          expect(Math.abs(shift - metres)).toBeLessThan(25);
        }
        expect(ambiguous.length).toBeGreaterThan(0);
        alongTrack.forEach((s, i) => {
          expect(Math.abs(s - truth[i]), `${interval}: ${i}`).toBeLessThan(20);
          // what the receiver erred is seen on the foot
          if (pushed[i] === 1) expect(Math.abs(footAlongTrack[i] - truth[i] - metres)).toBeLessThan(20);
        });
        confidence.forEach((sure, i) => {
          const seconds = i * interval;
          if (pushed[i] === 1) expect(sure, `${interval}: ${i}`).toBeLessThan(0.9);
          else if (seconds < 180 || seconds > 260) expect(sure, `${interval}: ${i}`).toBeGreaterThan(0.9);
        });
      }
    },
  );

  test('again as soon as it is back: every time it stays on its place', () => {
    const thrown = (t: number) => t >= 200 && t < 260 && t % 10 < 5;
    const jumping = recorded(straight, (t) => 3 * t + (thrown(t) ? 60 : 0));
    for (const every of [1, 2, 5]) {
      const some = <T extends Float64Array | Uint8Array>(column: T) => column.filter((_, i) => i % every === 0) as T;
      const { lon, lat, time, gapBefore, ...rest } = jumping;
      const columns = { lon: some(lon), lat: some(lat), time: some(time!), gapBefore: some(gapBefore) };
      const { alongTrack, confidence } = snap(planeRoute(origin, straight), { ...rest, ...columns });
      for (let i = 0; i < alongTrack.length; i++) {
        expect(Math.abs(alongTrack[i] - 3 * i * every), `${every}: ${i}`).toBeLessThan(15);
        if (thrown(i * every)) expect(confidence[i], `${every}: ${i}`).toBeLessThan(0.9);
      }
    }
  });

  test('a body that hurries, or stands for a while, is none', () => {
    const hurried = recorded(straight, (t) => (t < 200 ? 3 * t : t < 230 ? 600 + 8 * (t - 200) : 840 + 3 * (t - 230)));
    const stood = recorded(straight, (t) => (t < 200 ? 3 * t : t < 260 ? 600 : 600 + 3 * (t - 260)));
    // down a slope and then at a halt, at 5 m/s else
    const dashed = recorded(straight, (t) =>
      t < 100 ? 5 * t : t < 110 ? 500 + 12 * (t - 100) : t < 130 ? 620 : 620 + 5 * (t - 130),
    );
    for (const recording of [hurried, stood, dashed]) {
      for (const every of recording === dashed ? [1, 5] : [1, 5, 10]) {
        const some = <T extends Float64Array | Uint8Array>(column: T) => column.filter((_, i) => i % every === 0) as T;
        const { lon, lat, time, gapBefore, ...rest } = recording;
        const columns = { lon: some(lon), lat: some(lat), time: some(time!), gapBefore: some(gapBefore) };
        const { confidence, alongTrack, footAlongTrack } = snap(planeRoute(origin, straight), { ...rest, ...columns });
        for (const sure of confidence) expect(sure, `${every}`).toBeGreaterThan(0.9);
        alongTrack.forEach((s, i) => {
          expect(Math.abs(s - footAlongTrack[i])).toBeLessThan(40);
        });
      }
    }
  });

  /** At a pace, and from 200 s on for 10 s at another, then at a halt until the pace has caught up. */
  const dashes = (pace: number, dash: number) => (t: number) =>
    t < 200 ? pace * t : Math.max(200 * pace + dash * Math.min(t - 200, 10), pace * t);
  const seen = (place: (t: number) => number, first: number) => {
    const { lon, lat, time, gapBefore, ...rest } = recorded(straight, place);
    const some = <T extends Float64Array | Uint8Array>(column: T) => column.filter((_, i) => i % 10 === first) as T;
    return { ...rest, lon: some(lon), lat: some(lat), time: some(time!), gapBefore: some(gapBefore) };
  };

  test('one who walks, dashes for 10 s and waits, a fix each 10 s: where it was, or unsure', () => {
    let unsure = 0;
    for (const pace of [1.4, 2, 2.5]) {
      for (const dash of [6, 7, 7.5]) {
        for (const first of [0, 3, 7]) {
          const place = dashes(pace, dash);
          const { alongTrack, confidence, ambiguous } = snap(planeRoute(origin, straight), seen(place, first));
          alongTrack.forEach((s, i) => {
            expect(Math.abs(s - place(first + 10 * i)), `${pace}, ${dash}, ${first}: ${i}`).toBeLessThan(25);
          });
          unsure += confidence.filter((sure) => sure < 0.9).length;
          for (const { reason, shift } of ambiguous) {
            expect(reason).toBe('leap-along');
            expect(shift).toBeLessThan(0);
          }
        }
      }
    }
    expect(unsure).toBeGreaterThan(0);
  });

  test('one who is faster is taken for thrown, and it is said where else it may have been', () => {
    const place = dashes(5, 12);
    const { ambiguous, footAlongTrack } = snap(planeRoute(origin, straight), seen(place, 0));
    expect(ambiguous).toHaveLength(1);
    const [{ reason, shift, firstFix, from }] = ambiguous;
    expect(reason).toBe('leap-along');
    // to half a bin at either end, and the leash
    expect(Math.abs(from + shift - footAlongTrack[firstFix])).toBeLessThan(2.5 + 2.5 + 4);
    expect(Math.abs(footAlongTrack[firstFix] - place(10 * firstFix))).toBeLessThan(1);
  });
});
