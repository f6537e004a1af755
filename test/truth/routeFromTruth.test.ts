import { assess, direct, hausdorff, indexRoute, routeFromRecipe, routeFromTruth } from 'datumline';
import { expect, test } from 'vitest';
import { normals } from '../support/correlatedOffsets';
import { every, TimedRide } from '../support/timedRide';

/** A way with a half turn, and a stop of 60 s in the middle of it. */
const ride = new TimedRide({
  seconds: 300,
  speed: (t) => (t > 120 && t < 180 ? 0 : 2),
  azimuth: (t) => (t < 80 ? 40 : t < 240 ? 40 + (t - 80) * 1.125 : 220),
});
const noise = normals(4);
const shaken = every(300, 0.1).map(() => [0.02 * noise(), 0.02 * noise()]);
const truth = {
  ...ride.record(every(300, 0.1), {
    ahead: (t) => shaken[Math.round(10 * t)][0],
    right: (t) => shaken[Math.round(10 * t)][1],
  }),
  accuracy: new Float64Array(3001).fill(0.04),
};

test('the line lies on the way travelled, stops and jitter taken out, in few vertices', () => {
  const route = routeFromTruth(truth, { tolerance: 0.1, name: 'survey' });
  const way = every(300, 0.5).map((t) => ride.place(t));
  expect(hausdorff(way, route).distance).toBeLessThan(0.1 + 0.3);
  const index = indexRoute(route);
  const apart = way.map((position) => index.nearest(position)!.distance).sort((a, b) => a - b);
  // the tolerance and three standard deviations of a fix
  expect(apart[Math.floor(0.95 * apart.length)]).toBeLessThan(0.1 + 3 * 0.02 * Math.SQRT2);
  // 2 m/s over 240 s; what the jitter of 3 cm adds to steps of 0.3 m is gone with the thinning
  expect(Math.abs(route.length - 481)).toBeLessThan(2);
  expect(Array.from(route.lateral95).every((value) => value === 0.04)).toBe(true);
  expect(route.name).toBe('survey');
  const authored = route.recipe.steps.flatMap((step) => (step.call === 'follow' ? step.line : []));
  expect(authored.length).toBeLessThan(80);
  expect(routeFromRecipe(route.recipe)).toEqual(route);
  const { rows } = assess(route, [ride.record(every(300, 1), { right: () => 3 })]);
  expect(Math.abs(rows[0].bias! - 3)).toBeLessThan(0.1);
});

test('legs say how well they are known, a gap that it was bridged', () => {
  const accuracy = truth.accuracy.map((_, i) => (i < 600 ? 0.04 : i < 1000 ? 0.5 : i < 2500 ? 0.03 : Number.NaN));
  const gapBefore = truth.gapBefore.map((gap, i) => (i === 2000 ? 1 : gap));
  const moved = {
    ...truth,
    accuracy,
    gapBefore,
    lat: truth.lat.map((lat, i) => (i >= 2000 ? direct([0, lat], 180, 30).position[1] : lat)),
  };
  const { provenance } = routeFromTruth(moved);
  expect(provenance.map(({ lateral95 }) => lateral95)).toEqual([0.04, 0.64, 0.04, undefined, 0.04, undefined]);
  expect(provenance[3].source).toMatch(/^a straight line across a gap/);
  expect(provenance[0].source).toBe('the recording “receiver”');
});

test('a recording that stands, and options that are wrong, are refused by name', () => {
  const still = { ...truth, lon: truth.lon.map(() => 6), lat: truth.lat.map(() => 51) };
  expect(() => routeFromTruth(still)).toThrow(/^truth must be a recording that moves/);
  expect(() => routeFromTruth(truth, { tolerance: 0 })).toThrow(/^options\.tolerance must be a number above 0/);
  expect(() => routeFromTruth(truth, { maxGap: 1 } as object)).toThrow(/^options\.maxGap must be one of/);
  expect(() => routeFromTruth({} as never)).toThrow(/^truth must be a recording/);
});
