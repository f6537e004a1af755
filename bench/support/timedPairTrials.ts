import { combineByTime, judgeByTime } from 'datumline';
import { correlatedOffsets, normals } from '../../test/support/correlatedOffsets';
import { every, TimedRide } from '../../test/support/timedRide';

/**
 * Of tests of so many runs, receivers of these standard deviations carried together: how often any two that are alike were
 * called different, and how often the last was found further off than the first.
 */
export function timedPairTrial(seed: number, trials: number, runs: number, sigmas: readonly number[]) {
  const seconds = 600;
  const ride = new TimedRide({ seconds, speed: (t) => 3 + Math.sin(t / 40), azimuth: (t) => 60 * Math.sin(t / 50) });
  const truth = ride.truth(1, 0.05);
  let different = 0;
  let found = 0;
  for (let t = 0; t < trials; t++) {
    const judged = Array.from({ length: runs }, (_, r) => {
      const normal = normals(seed + 10 * t + r);
      const recordings = sigmas.map((sigma, i) => {
        const [ahead, right] = [0, 1].map(() => correlatedOffsets(normal, { seconds, correlation: 30, sigma }));
        return ride.record(every(seconds - 2, 1, 1), { ahead: (s) => ahead[s], right: (s) => right[s] }, `${i}`);
      });
      return judgeByTime(truth, recordings);
    });
    const { pairs } = runs > 1 ? combineByTime(judged) : judged[0];
    const closer = pairs.filter(({ verdict }) => verdict === 'closer');
    if (closer.some(({ first, second }) => sigmas[Number(first)] === sigmas[Number(second)])) different++;
    const last = `${sigmas.length - 1}`;
    if (closer.some(({ first, second, closer: better }) => first === '0' && second === last && better === '0')) found++;
  }
  return { different: different / trials, found: found / trials };
}
