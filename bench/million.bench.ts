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

/** A million fixes, eleven days at 1 Hz, along streets and round 400 laps of 400 m: placed, judged and drawn, each ride once, by processor time. */
export const run: Bench = ({ smoke }) => {
  const all = smoke ? 2500 : 1_000_000;
  const round = smoke ? 500 : RING;
  const rides = [
    [`of them ${all - round} along streets`, wanderingRide(all - round)],
    [`of them ${round} round 400 laps of 400 m`, ringRide(round)],
  ] as const;
  const times = rides.map(([what, { route, recording }]) => {
    const used = prepareRoute(route);
    const [placing] = spent(() => snap(used, recording));
    const [judging, assessment] = spent(() => assess(used, [recording]));
    const [drawing] = spent(() => reportHtml(assessment));
    return { what, placing, judging, drawing };
  });
  const rowsOf = (work: string, which: 'placing' | 'judging' | 'drawing', most: number): BenchRow[] => [
    { what: `${work}, ${all} fixes`, ...promised(times[0][which] + times[1][which], most) },
    ...times.map((one) => ({ what: `${work}, ${one.what}`, ours: showTime(one[which]) })),
  ];
  const rows = [
    ...rowsOf('snap', 'placing', 8000),
    // with the placing that is done in it
    ...rowsOf('assess, the placing as well', 'judging', 14_000),
    ...rowsOf('reportHtml', 'drawing', 2000),
  ];
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
