import { assess, prepareRoute, snap } from 'datumline';
import { reportHtml } from 'datumline/report';
import type { Bench, BenchRow } from './support/Bench';
import { promised } from './support/promised';
import { ringRide } from './support/ringRide';
import { showTime } from './support/showTime';
import { wanderingRide } from './support/wanderingRide';

/** Bytes that the process may hold at most. */
const MOST_MEMORY = 1.5e9;
/** Fixes of 400 laps of 400 m at 3 m/s. */
const RING = 53_333;

/** Eleven days at 1 Hz along streets, and 400 laps of 400 m: placed, judged and drawn, each once, by processor time. */
export const run: Bench = ({ smoke }) => {
  const fixes = smoke ? 2000 : 1_000_000;
  const rides = [
    [`${fixes} fixes along streets`, wanderingRide(fixes), 1],
    ['400 laps of 400 m', ringRide(smoke ? 500 : RING), RING / 1_000_000],
  ] as const;
  const rows = rides.flatMap(([what, { route, recording }, share]): BenchRow[] => {
    const used = prepareRoute(route);
    const [placing] = spent(() => snap(used, recording));
    const [judging, assessment] = spent(() => assess(used, [recording]));
    const [drawing] = spent(() => reportHtml(assessment));
    return [
      { what: `snap, ${what}`, ...promised(placing, 8000 * share) },
      // with the placing that is done in it
      { what: `assess, ${what}, the placing as well`, ...promised(judging, 14_000 * share) },
      share === 1
        ? { what: `reportHtml, ${what}`, ...promised(drawing, 2000) }
        : { what: `reportHtml, ${what}`, ours: showTime(drawing) },
    ];
  });
  const most = process.resourceUsage().maxRSS * 1024;
  rows.push({
    what: `memory at its highest for all of it`,
    ours: `${(most / 1e9).toFixed(2)} GB`,
    promise: `≤ ${MOST_MEMORY / 1e9} GB`,
    held: most <= MOST_MEMORY,
  });
  return rows;
};

function spent<T>(call: () => T): [milliseconds: number, result: T] {
  const begun = process.cpuUsage();
  const result = call();
  const { user, system } = process.cpuUsage(begun);
  return [(user + system) / 1000, result];
}
