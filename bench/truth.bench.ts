import { draftRoute, errorsByTime, judgeByTime, type Recording } from 'datumline';
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
  const times = medianTime(
    {
      judging: () => judgeByTime(truth, recordings, { truth95: 0.05 }).rows.length,
      drafting: () => draftRoute(recordings).lon.length,
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
