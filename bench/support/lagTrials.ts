import { deviation, mean } from 'd3-array';
import { clockOffsets } from '../../src/snap/clockOffsets';
import { sharedClock } from '../../src/snap/sharedClock';
import { localPlane } from '../../src/subpaths/geodesy';
import { snap } from '../../src/subpaths/snap';
import { normals } from '../../test/support/correlatedOffsets';
import { planeRoute } from '../../test/support/planeRoute';
import { placeBeside, simulateRun } from '../../test/support/simulateRun';

/** A walk of an hour through four corners, metres a second. */
const town = planeRoute([5, 52], [[0, 0], [1500, 0], [1500, 1000], [0, 1000], [0, 2000]]); // biome-ignore format: a line
const PACE = 1.4;

/** What was told of so many receivers, the last of which is late. */
export interface LagTrial {
  readonly receivers: number;
  readonly sigma: number;
  /** Seconds that the last is late, the mean of what is told of it and of the others, and the standard deviation of the former. */
  readonly late: number;
  readonly told: number;
  readonly others: number;
  readonly sd: number;
}

/** Lags of receivers of an hour's walk whose errors persist for 30 s: means over so many walks. */
export function lagTrials(
  walks: number,
  begin: number,
  sigmas: readonly number[],
  lates: readonly number[],
): LagTrial[] {
  const most = 5;
  return sigmas.flatMap((sigma) => {
    const runs = Array.from({ length: walks }, (_, k) =>
      simulateRun(town, {
        seed: begin + k,
        speed: PACE,
        receivers: Array.from({ length: most }, () => ({ sigma })),
      }).map(({ recording }) => ({ time: recording.time!, snapped: snap(town, recording) })),
    );
    return [3, 4, 5].flatMap((receivers) =>
      lates.map((late): LagTrial => {
        const told = runs.map((run) => {
          const members = run.slice(0, receivers);
          const times = members.map(({ time }, i) => (i === receivers - 1 ? time.map((t) => t + 1000 * late) : time));
          const clocks = clockOffsets(town.length, times, members.map(({ snapped }) => snapped)); // biome-ignore format: short
          return clocks.map(({ offset }) => offset);
        });
        const last = told.map((offsets) => offsets[receivers - 1]);
        const others = told.flatMap((offsets) => offsets.slice(0, -1));
        return { receivers, sigma, late, told: mean(last)!, others: mean(others)!, sd: deviation(last)! };
      }),
    );
  });
}

/**
 * Standard deviation in seconds of the lag of one receiver to an observer who knows where the body was at every second and the law of
 * the errors: generalised least squares of what a lag shifts fixes by, along the way and round its corners.
 */
export function lagObserver(walks: number, begin: number, sigma: number): number {
  const { toPlane } = localPlane([5, 52]);
  const keep = Math.exp(-1 / 30);
  const lags = Array.from({ length: walks }, (_, k) => {
    const [{ recording, alongTrack }] = simulateRun(town, { seed: begin + k, speed: PACE, receivers: [{ sigma }] });
    const truth = Array.from(alongTrack, (s) => toPlane(placeBeside(town, s, 0)));
    const seen = truth.map((_, i) => toPlane([recording.lon[i], recording.lat[i]]));
    let shifted = 0;
    let shifts = 0;
    for (let i = 2; i + 1 < truth.length; i++) {
      for (const axis of [0, 1]) {
        const fresh = (of: (at: number) => number) => of(i) - keep * of(i - 1);
        const speed = fresh((at) => (truth[at + 1][axis] - truth[at - 1][axis]) / 2);
        shifted += fresh((at) => truth[at][axis] - seen[at][axis]) * speed;
        shifts += speed * speed;
      }
    }
    return shifted / shifts;
  });
  return deviation(lags)!;
}

/** By how many seconds the clock that so many receivers share is drawn to one that is late, where that is all that is wrong. */
export function drawnBy(receivers: number, late: number, sd: number): number {
  const normal = normals(97);
  const shared = Array.from({ length: 20_000 }, () =>
    sharedClock(
      Array.from({ length: receivers }, (_, i) => ({ offset: sd * normal() + (i > 0 ? 0 : late), standardError: sd })),
    ),
  );
  return mean(shared)!;
}
