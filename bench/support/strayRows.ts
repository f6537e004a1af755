import { clockOffsets } from '../../src/snap/clockOffsets';
import type { Route } from '../../src/subpaths/route';
import { snap } from '../../src/subpaths/snap';
import { type PlanePoint, planeRoute } from '../../test/support/planeRoute';
import { simulateRun } from '../../test/support/simulateRun';
import type { BenchRow } from './Bench';

const line = (...points: PlanePoint[]) => planeRoute([5, 52], points);
const percent = (share: number) => `${Math.round(100 * share)} %`;

/** Metres beside the route, and metres along it, of a way of one minute at 3 m a second. */
const ASIDE = 40;
const [LEFT, BACK] = [600, 780];

/** How surely a way beside the route is told from errors, and a clock's offset: shares and means over seeds, none tuned on. */
export function strayRows(smoke: boolean): BenchRow[] {
  const seeds = Array.from({ length: smoke ? 2 : 100 }, (_, i) => 71_000 + i);
  const straight = line([0, 0], [1500, 0]);
  const detour = line([0, 0], [LEFT, 0], [LEFT, -ASIDE], [BACK, -ASIDE], [BACK, 0], [1500, 0]);
  const hour = line([0, 0], [3000, 0], [3000, 2000], [0, 2000], [0, 4000]);
  const town = line([0, 0], [1500, 0], [1500, 1000], [0, 1000], [0, 2000]);
  const states = (travelled: Route, route: Route, seed: number, sigma: number) => {
    const [run] = simulateRun(travelled, { seed, receivers: [{ sigma }] });
    return { ...run, state: snap(route, run.recording).state };
  };
  const ways = [5, 10].map((sigma): BenchRow => {
    const off = seeds.map((seed) => {
      const { alongTrack, state } = states(detour, straight, seed, sigma);
      const beside = state.filter((_, i) => alongTrack[i] > LEFT + ASIDE && alongTrack[i] < BACK + ASIDE);
      return beside.filter((one) => one === 'off').length / beside.length;
    });
    const share = off.reduce((sum, one) => sum + one / off.length, 0);
    const least = sigma === 5 ? 0.85 : 0.6;
    return {
      what: `a way of a minute ${ASIDE} m beside the route, σ ${sigma} m: fixes told to be off it, ${seeds.length} seeds`,
      ours: percent(share),
      promise: `≥ ${percent(least)}`,
      held: share >= least,
    };
  });
  const alarms = [5, 10].map((sigma): BenchRow => {
    const some = seeds.slice(0, 60).filter((seed) => states(hour, hour, seed, sigma).state.includes('off'));
    return {
      what: `50 minutes on the route, σ ${sigma} m: runs with a fix said to be off it`,
      ours: `${some.length} of ${Math.min(seeds.length, 60)}`,
      promise: '≤ 1 in 20',
      held: some.length <= Math.max(1, Math.min(seeds.length, 60) / 20),
    };
  });
  // the same errors with the clock ahead and without: what they make of it cancels, what the estimator makes of it stays
  const lags = seeds.map((seed) => {
    const runs = simulateRun(town, { seed, speed: 1.4, receivers: [{ sigma: 8 }, { sigma: 8 }, { sigma: 8 }] });
    const snapped = runs.map(({ recording }) => snap(town, recording));
    const [told, without] = [2000, 0].map((ahead) => {
      const times = runs.map(({ recording }, i) => recording.time!.map((instant) => instant + (i === 2 ? ahead : 0)));
      return clockOffsets(town.length, times, snapped);
    });
    const [late, none] = [told, without].map((clocks) => clocks[2].offset);
    const [apart, noneApart] = [told, without].map(([a, b, c]) => c.offset - (a.offset + b.offset) / 2);
    return { late, bias: late - none, apart: apart - noneApart, sound: told[0].offset - without[0].offset };
  });
  const mean = (key: keyof (typeof lags)[0]) => lags.reduce((sum, one) => sum + one[key] / lags.length, 0);
  const scatter = Math.sqrt(lags.reduce((sum, one) => sum + (one.late - mean('late')) ** 2 / lags.length, 0));
  const walked = `a clock 2 s ahead, three receivers of σ 8 m, 72 minutes of walking, ${seeds.length} seeds`;
  return [
    ...ways,
    ...alarms,
    {
      what: `${walked}: how far it is from the two others`,
      ours: `${mean('apart').toFixed(2)} s`,
      promise: 'within 0.15 s',
      held: Math.abs(mean('apart') - 2) <= 0.15,
    },
    {
      what: `${walked}: lag and clock offset told beyond those without`,
      ours: `${mean('bias').toFixed(2)} s`,
      promise: 'within 0.15 s',
      held: Math.abs(mean('bias') - 2) <= 0.15,
      error: `${mean('late').toFixed(2)} s on the mean, ${scatter.toFixed(1)} s from run to run; ${mean('sound').toFixed(2)} s told of one that has none`,
    },
  ];
}
