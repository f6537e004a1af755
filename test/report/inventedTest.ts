import { type Assessment, assess, type Route, routeBuilder } from 'datumline';
import { placeBeside, simulateRun } from '../support/simulateRun';

/** An invented line over open sea: a street with a corner, then two laps, with marks and a stated uncertainty. */
export function inventedCourse(): Route {
  return routeBuilder({ name: 'Invented course', lateral95: 0.6 })
    .start([2.1, 61.4])
    .section('street', { halfWidth: 4, environment: 'houses' })
    .lineBy({ azimuth: 90, distance: 200 })
    .lineBy({ azimuth: 0, distance: 150 })
    .mark('gate')
    .laps(2, (lap) => lap.section('oval', { halfWidth: 4 }).arc({ turn: 'left', radius: 35, sweep: 360 }))
    .build();
}

const places = ['wrist', 'chest', 'helmet'];
const receivers = [
  { name: 'A', sigma: 1, bias: 0 },
  { name: 'B', sigma: 2, bias: -3 },
  { name: 'C', sigma: 3, bias: 2 },
];

/** So many runs of three receivers, swapped between three places, against a decoy and a centreline. */
export function inventedRuns(runs: number): Assessment[] {
  const route = inventedCourse();
  const beside = (right: (s: number) => number) =>
    Array.from({ length: Math.floor(route.length / 4) }, (_, i) => placeBeside(route, 4 * i, right(4 * i)));
  const options = { decoy: beside((s) => 5 * Math.sin(s / 25)), centreline: beside(() => -3) };
  return Array.from({ length: runs }, (_, run) => {
    const made = simulateRun(route, {
      seed: 41 + run,
      correlation: 10,
      receivers: receivers.map((receiver, k) => (k === 2 ? { ...receiver, gaps: [{ from: 30, to: 55 }] } : receiver)),
    });
    const entries = made.map(({ recording }, k) => ({
      recording,
      receiver: receivers[k].name,
      placement: places[(k + run) % 3],
      run: `run ${run + 1}`,
    }));
    return assess(route, entries, options);
  });
}
