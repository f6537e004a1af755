import { describe, expect, test } from 'vitest';
import type { Route, Section } from '../../src/subpaths/route';
import { snap } from '../../src/subpaths/snap';
import { lapLine, lapsRide } from '../support/hardRides';
import { judgePlacing } from '../support/judgePlacing';
import { circle, type PlanePoint } from '../support/planeRoute';
import { simulateRide } from '../support/simulateRide';

/** Never used while this was written; that was done on 23. */
const HELD_BACK = 59;

/** A route whose sections or marks are others: copied by its properties, as its warnings are found only when they are read. */
function withParts(route: Route, parts: Partial<Route>): Route {
  const given = Object.fromEntries(Object.entries(parts).map(([key, value]) => [key, { value, enumerable: true }]));
  return Object.defineProperties({}, { ...Object.getOwnPropertyDescriptors(route), ...given }) as Route;
}

const planned = [
  [4, 3],
  [3, 4],
  [4, 2],
  [5, 4],
  [3, 2],
  [5, 3],
] as const;

describe.each([
  ['laps that are sections', true],
  ['laps that nobody named', false],
])('%s, some left out or ridden again', (_, named) => {
  test.each(['true', 'none'] as const)('no fix on another lap than its own is sure, clock: %s', (clock) => {
    let sure = 0;
    let fixes = 0;
    for (const [laps, ridden] of planned) {
      for (let k = 0; k < 6; k++) {
        const seed = 1000 * HELD_BACK + 13 * k + laps;
        const options = { seed, interval: [1, 5][k % 2], sigma: [3, 5, 8][k % 3], tail: 300, clock };
        const { lap, begin } = lapLine(laps, options);
        const ride = lapsRide(laps, ridden, options);
        const sections = Array.from(
          { length: laps },
          (_, i): Section => ({ name: `lap ${i + 1}`, from: begin + i * lap, to: begin + (i + 1) * lap, lap: i + 1 }),
        );
        const route = named ? withParts(ride.route, { sections }) : ride.route;
        const snapped = snap(route, ride.recording);
        const { told, unflagged } = judgePlacing({ ...ride, route }, snapped);
        expect(unflagged, `${laps} planned, ${ridden} ridden, ${k}`).toBeLessThanOrEqual(2);
        expect(snapped.ambiguous.length).toBeGreaterThan(0);
        for (const { shift } of snapped.ambiguous) {
          const whole = Math.abs(shift) / lap;
          expect(Math.abs(whole - Math.round(whole)) * lap, `${shift}`).toBeLessThan(60);
        }
        fixes += told.length;
        sure += told.filter(({ confidence }) => confidence >= 0.9).length;
      }
    }
    // on the way to the laps and from them it is
    expect(sure / fixes).toBeGreaterThan(0.2);
  });
});

test('of four laps one is left out: the first that was ridden is its own in three cases of four, the second in two', () => {
  const { lap, begin } = lapLine(4, {});
  const { route, recording } = lapsRide(4, 3, { seed: 1000 * HELD_BACK, sigma: 3 });
  const { confidence, skips } = snap(route, recording);
  expect(skips).toHaveLength(1);
  const [{ fix, from, to }] = skips;
  expect(Math.abs(to - from - lap)).toBeLessThan(40);
  // by the clock: 3 m a second, give or take
  const lapOf = (i: number) => Math.floor((3 * i - begin) / lap);
  const least = [0.75, 0.5, 0.25];
  for (let i = 0; i < confidence.length; i++) {
    const into = (3 * i - begin) / lap;
    if (into < -0.2 || into > 3.2) expect(confidence[i], `${i}`).toBeGreaterThan(0.8);
    if (into < 0 || into > 3 || Math.abs(into - Math.round(into)) < 0.2) continue;
    const most = i < fix ? least[lapOf(i)] : 1 - least[lapOf(i)];
    expect(confidence[i], `${i}`).toBeLessThanOrEqual(most + 1e-6);
  }
});

test('a mark with a time tells which lap it was: no doubt beyond it', () => {
  const { lap, begin } = lapLine(3, {});
  const ride = lapsRide(3, 2, { seed: 1000 * HELD_BACK + 1, sigma: 3 });
  // the first lap that was ridden is the first
  const fix = Math.round((begin + lap / 2) / 3);
  const alongTrack = ride.alongTrack[fix];
  const marks = [{ name: 'gate', alongTrack, time: ride.recording.time![fix] }];
  const { confidence } = snap(withParts(ride.route, { marks }), ride.recording);
  expect(confidence[fix]).toBeGreaterThan(0.9);
  expect(confidence[Math.round(fix + lap / 2 / 3)]).toBeLessThan(0.9);
});

test('a loop left out where it crosses itself is no lap: beside its crossing all are sure', () => {
  const around = circle([0, 100], 100, -90, 360);
  const points: PlanePoint[] = [[-600, 0], ...around, [600, 0]];
  const round = around.reduce(
    (sum, [x, y], i) => (i > 0 ? sum + Math.hypot(x - around[i - 1][0], y - around[i - 1][1]) : 0),
    0,
  );
  const ridden = [
    { from: 0, to: 600 },
    { from: 600 + round, to: 1199 + round },
  ];
  const { route, recording } = simulateRide(points, { seed: HELD_BACK, sigma: 3, ridden });
  const { confidence, alongTrack } = snap(route, recording);
  confidence.forEach((one, i) => {
    if (alongTrack[i] < 480 || alongTrack[i] > 720 + round) expect(one, `${i}`).toBeGreaterThan(0.9);
  });
});
