import {
  assess,
  combineByTime,
  draftRoute,
  errorsByTime,
  judgeByTime,
  type Recording,
  routeFromTruth,
} from 'datumline';
import { reportHtml } from 'datumline/report';
import { correlatedOffsets, normals } from '../test/support/correlatedOffsets';
import { every, TimedRide } from '../test/support/timedRide';
import type { Bench } from './support/Bench';
import { medianTime } from './support/medianTime';
import { promised } from './support/promised';
import { showTime } from './support/showTime';

/** Six recordings of an hour at 1 Hz against a truth at 10 Hz, errors of σ 4 m that persist for 30 s. */
export const run: Bench = ({ smoke }) => {
  const seconds = smoke ? 120 : 3600;
  const { truth, recordings } = timedHour(seconds);
  const route = routeFromTruth(truth);
  const onRoute = assess(route, recordings);
  const judged = judgeByTime(truth, recordings, { truth95: 0.05, route });
  const runs = [1, 2, 3].map((run) => ({
    ...judged,
    recordings: judged.recordings.map((one) => ({ ...one, run: `${run}` })),
  }));
  const megabytes = (text: string) => `${(text.length / 1e6).toFixed(2)} MB`;
  const times = medianTime(
    {
      judging: () => judgeByTime(truth, recordings, { truth95: 0.05 }).rows.length,
      drafting: () => draftRoute(recordings).lon.length,
      combining: () => combineByTime(runs).rows.length,
      page: () => reportHtml(onRoute, { byTime: judged }).length,
      bare: () => reportHtml(onRoute).length,
      errors: () => recordings.map((recording) => errorsByTime(truth, recording)).length,
    },
    smoke ? 1 : 9,
  );
  return [
    {
      what: `judgeByTime, 6 recordings of ${seconds} fixes against a truth of ${10 * seconds}: all figures, delays, pairs`,
      ...promised(times.judging, 120),
      peers: [{ name: 'errorsByTime alone, the truth read six times', time: showTime(times.errors) }],
    },
    { what: `draftRoute, 6 recordings of ${seconds} fixes`, ...promised(times.drafting, 500) },
    { what: 'combineByTime, 3 runs of 6 recordings', ours: showTime(times.combining) },
    {
      what: `reportHtml with the part by the clock, 6 recordings of ${seconds} fixes: ${megabytes(reportHtml(onRoute, { byTime: judged }))}`,
      ours: showTime(times.page),
      peers: [{ name: `without it: ${megabytes(reportHtml(onRoute))}`, time: showTime(times.bare) }],
    },
  ];
};

function timedHour(seconds: number): { truth: Recording; recordings: Recording[] } {
  const ride = new TimedRide({ seconds, speed: (t) => 3 + Math.sin(t / 40), azimuth: (t) => 60 * Math.sin(t / 50) });
  const normal = normals(3);
  const recordings = Array.from({ length: 6 }, (_, i) => {
    const [ahead, right] = [0, 1].map(() => correlatedOffsets(normal, { seconds, correlation: 30, sigma: 4 }));
    return ride.record(
      every(seconds - 1, 1),
      { ahead: (t) => ahead[t], right: (t) => right[t], delay: i / 4 },
      `receiver ${i + 1}`,
    );
  });
  return { truth: ride.truth(10), recordings };
}
