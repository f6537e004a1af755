import { routeFromLine } from '../src/route';
import { snap } from '../src/snap';
import { seeded, wanderingLine } from '../test/support/randomLine';
import { simulateRun } from '../test/support/simulateRun';
import type { Bench, BenchRow } from './support/Bench';
import { medianTime } from './support/medianTime';
import { promised } from './support/promised';

/** A whole recording placed on its route: fixes each second or so, errors of 5 m that persist for 30 s. */
export const run: Bench = ({ smoke }) => {
  const sizes = smoke ? [200, 400] : [3_600, 40_000];
  const jobs = sizes.map((fixes) => {
    const length = smoke ? fixes * 2.5 : fixes === 3_600 ? 10_000 : 100_000;
    const line = wanderingLine(seeded(9), { start: [11, 48], count: Math.round(length / 10), step: 20, turn: 30 });
    const route = routeFromLine(line);
    const [{ recording, alongTrack }] = simulateRun(route, { seed: 3, speed: route.length / fixes });
    return { route, recording, alongTrack };
  });
  const times = medianTime(
    {
      small: () => snap(jobs[0].route, jobs[0].recording).alongTrack.length,
      large: () => snap(jobs[1].route, jobs[1].recording).alongTrack.length,
    },
    smoke ? 1 : 7,
  );
  const row = (job: (typeof jobs)[0], time: number, limit: number): BenchRow => {
    const snapped = snap(job.route, job.recording);
    const right = snapped.alongTrack.filter((s, i) => Math.abs(s - job.alongTrack[i]) <= 30).length;
    const n = job.alongTrack.length;
    return {
      what: `snap, ${n} fixes on ${(job.route.length / 1000).toFixed(1)} km`,
      ...promised(time, limit),
      error: `${((100 * right) / n).toFixed(2)} % within 30 m of the truth`,
    };
  };
  return [row(jobs[0], times.small, 40), row(jobs[1], times.large, 600)];
};
