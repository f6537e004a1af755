import { judgeByTime } from 'datumline';
import { correlatedOffsets, normals } from '../../test/support/correlatedOffsets';
import { every, TimedRide } from '../../test/support/timedRide';

/** Of rides of so many seconds, σ 4 m: how far delays told are off, and how often their interval holds the true one. */
export function delayTrial(seed: number, trials: number, seconds: number, correlation: number) {
  const ride = new TimedRide({ seconds, speed: (t) => 3 + Math.sin(t / 40), azimuth: (t) => 60 * Math.sin(t / 50) });
  const truth = ride.truth(2, 0.05);
  let held = 0;
  let given = 0;
  let square = 0;
  for (let t = 0; t < trials; t++) {
    const normal = normals(seed + t);
    const delays = [0, 0.4, -1.3];
    const recordings = delays.map((delay, i) => {
      const [ahead, right] = [0, 1].map(() => correlatedOffsets(normal, { seconds, correlation, sigma: 4 }));
      const errors = { ahead: (s: number) => ahead[s], right: (s: number) => right[s], delay };
      return ride.record(every(seconds - 4, 1, 3), errors, `receiver ${i + 1}`);
    });
    judgeByTime(truth, recordings).rows.forEach(({ delay: told }, i) => {
      square += (told!.seconds - delays[i]) ** 2;
      if (told!.interval95 === null) return;
      given++;
      const [low, high] = told!.interval95;
      if (low <= delays[i] && delays[i] <= high) held++;
    });
  }
  return { held: held / given, off: Math.sqrt(square / (3 * trials)) };
}
