import { describe, expect, test } from 'vitest';
import type { Recording } from '../../src/subpaths/formats';
import { type SnappedTogether, snap, snapTogether } from '../../src/subpaths/snap';
import { lapsThenOutAndBack } from '../support/planeRoute';
import { type SimulatedRecording, simulateRun } from '../support/simulateRun';

const laps = lapsThenOutAndBack([5, 52]);
const seeds = [911, 912, 913, 914, 915, 916, 917, 918];

// different clocks, different noise, one with a gap; all on one body that stops for a minute
const receivers = [
  { sigma: 5, clockAhead: 0 },
  { sigma: 8, clockAhead: 2.5 },
  { sigma: 8, clockAhead: -7 },
  { sigma: 5, clockAhead: 3600, gaps: [{ from: 300, to: 420 }] },
];
const aheadOfMedian = receivers.map(({ clockAhead }) => clockAhead - 1.25);
const stops = [{ at: 700, seconds: 60 }];

const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
const rms = (values: readonly number[]) => Math.sqrt(mean(values.map((value) => value * value)));

/** The true error along the route of each foot, and what the receivers together say it is, where they say it. */
function errorsOf(
  { alongTrack }: SimulatedRecording,
  { footAlongTrack, alongTrackError }: SnappedTogether['recordings'][0],
) {
  const told = Array.from(alongTrackError, (error, k) => [footAlongTrack[k] - alongTrack[k], error]);
  return told.filter(([truth, error]) => Number.isFinite(error) && Math.abs(truth) < 60);
}

function correlation(pairs: readonly (readonly number[])[]): number {
  const [a, b] = [mean(pairs.map(([x]) => x)), mean(pairs.map(([, y]) => y))];
  const covariance = mean(pairs.map(([x, y]) => (x - a) * (y - b)));
  return covariance / Math.sqrt(mean(pairs.map(([x]) => (x - a) ** 2)) * mean(pairs.map(([, y]) => (y - b) ** 2)));
}

describe('four receivers on one body, 8 seeds', () => {
  const all = seeds.map((seed) => {
    const runs = simulateRun(laps, { seed, receivers, stops });
    return {
      runs,
      together: snapTogether(
        laps,
        runs.map(({ recording }) => recording),
      ),
    };
  });

  test('every clock is told within 1.5 s, half a second on average: errors of 5 to 8 m are 2 to 3 s of running', () => {
    const misses = all.flatMap(({ together }) =>
      together.recordings.map(({ clockOffset }, i) => Math.abs(clockOffset - aheadOfMedian[i])),
    );
    expect(Math.max(...misses)).toBeLessThanOrEqual(1.5);
    expect(mean(misses)).toBeLessThanOrEqual(0.5);
  });

  test('the error along the route comes back, while each aligned alone hides it', () => {
    for (const { runs, together } of all) {
      together.recordings.forEach((one, i) => {
        const pairs = errorsOf(runs[i], one);
        expect(pairs.length / one.footAlongTrack.length).toBeGreaterThan(0.99);
        const truth = rms(pairs.map(([error]) => error));
        const told = rms(pairs.map(([, error]) => error));
        expect(told / truth).toBeGreaterThan(0.65);
        expect(told / truth).toBeLessThan(1.35);
        expect(correlation(pairs)).toBeGreaterThan(receivers[i].sigma === 8 ? 0.8 : 0.6);
        // alone, what a receiver says the body did follows its own errors
        const { footAlongTrack, alongTrack } = snap(laps, runs[i].recording);
        const hidden = rms(Array.from(footAlongTrack, (place, k) => place - alongTrack[k]));
        expect(hidden).toBeLessThan(0.45 * truth);
      });
    }
  });

  test('the shared pace is nearer to the truth than any receiver alone, and bridges the gap of one', () => {
    for (const { runs, together } of all) {
      const { time, alongTrack, receivers: known } = together.pace;
      // the median clock is 1.25 s ahead of the first, which is true
      const begun = runs[0].recording.time![0] + 1250;
      const misses = Array.from(time, (instant, k) => {
        return alongTrack[k] - runs[0].alongTrack[Math.round((instant - begun) / 1000)];
      }).filter(Number.isFinite);
      const alone = runs.map(({ recording, alongTrack: truth }) =>
        rms(Array.from(snap(laps, recording).alongTrack, (place, k) => place - truth[k])),
      );
      expect(misses.length).toBeGreaterThan(0.98 * runs[0].alongTrack.length);
      expect(rms(misses)).toBeLessThan(mean(alone));
      const inGap = Array.from(known).slice(320, 400);
      expect(Math.min(...inGap)).toBe(3);
    }
  });
});

/** The recording as it would be had the receiver shown, between two fixes, where it was so many fixes before. */
function lagging({ lon, lat, ...rest }: Recording, from: number, to: number, fixes: number): Recording {
  const late = (column: Float64Array) => column.map((_, i) => column[i >= from && i < to ? i - fixes : i]);
  return { ...rest, lon: late(lon), lat: late(lat) };
}

test('a receiver that falls behind for two minutes is shown to, by as much; alone it hides it', () => {
  for (const seed of seeds) {
    const runs = simulateRun(laps, { seed, receivers: [{ sigma: 4 }, { sigma: 4 }, { sigma: 4 }, { sigma: 4 }] });
    const recording = lagging(runs[3].recording, 450, 570, 5);
    const { recordings } = snapTogether(laps, [...runs.slice(0, 3).map((run) => run.recording), recording]);
    const behind = (error: ArrayLike<number>) => mean(Array.from(error).slice(450, 570));
    const truth = behind(recordings[3].footAlongTrack.map((foot, k) => foot - runs[3].alongTrack[k]));
    expect(truth).toBeLessThan(-8);
    expect(Math.abs(behind(recordings[3].alongTrackError) - truth)).toBeLessThan(4);
    const { footAlongTrack, alongTrack } = snap(laps, recording);
    expect(Math.abs(behind(footAlongTrack.map((place, k) => place - alongTrack[k])))).toBeLessThan(2);
  }
});

test('a lag all the way long is a clock that is ahead: nothing tells one from the other', () => {
  const runs = simulateRun(laps, { seed: 921, receivers: [{ sigma: 3 }, { sigma: 3 }, { sigma: 3 }] });
  const late = lagging(runs[2].recording, 5, runs[2].alongTrack.length, 5);
  const { recordings } = snapTogether(laps, [runs[0].recording, runs[1].recording, late]);
  expect(Math.abs(recordings[2].clockOffset - recordings[0].clockOffset - 5)).toBeLessThan(1.5);
});

test('what the others saw decides where one alone takes a stop in its gap for another lap', () => {
  // it stops recording before the way out and back could tell
  const gaps = [
    { from: 225, to: 415 },
    { from: 500, to: Infinity },
  ];
  let mended = 0;
  for (const seed of seeds) {
    const runs = simulateRun(laps, {
      seed,
      stops: [{ at: 700, seconds: 170 }],
      receivers: [{ sigma: 5 }, { sigma: 5 }, { sigma: 8, gaps }],
    });
    const share = (places: Float64Array) =>
      places.filter((place, k) => Math.abs(place - runs[2].alongTrack[k]) <= 30).length / places.length;
    const { recordings } = snapTogether(
      laps,
      runs.map((run) => run.recording),
    );
    expect(share(recordings[2].alongTrack)).toBeGreaterThan(0.995);
    if (share(snap(laps, runs[2].recording).alongTrack) < 0.9) mended++;
  }
  expect(mended).toBeGreaterThan(0);
});

test('of two receivers each shows half of their difference', () => {
  const runs = simulateRun(laps, { seed: 931, receivers: [{ sigma: 6 }, { sigma: 6 }] });
  const [a, b] = snapTogether(
    laps,
    runs.map((run) => run.recording),
  ).recordings;
  const both = Array.from(a.alongTrackError, (error, k) => error + b.alongTrackError[k]).filter(Number.isFinite);
  const apart = Array.from(a.alongTrackError, (error, k) => error - b.alongTrackError[k]).filter(Number.isFinite);
  expect(rms(both)).toBeLessThan(0.5 * rms(apart));
});

describe('refuses', () => {
  const [{ recording }] = simulateRun(laps, { seed: 1, to: 50 });
  const { time: _, ...timeless } = recording;

  test.each([
    [[], {}, 'too-few', 'recordings must be at least 2'],
    [[recording], {}, 'too-few', 'recordings must be at least 2'],
    [[recording, timeless], {}, 'missing', 'recordings[1].time must be given'],
    [[recording, recording], { sigm: 3 }, 'unknown-key', 'options.sigm must be'],
    [[recording, recording], { sigma: -1 }, 'out-of-range', 'options.sigma must be'],
  ])('%#', (recordings, options, reason, message) => {
    expect(() => snapTogether(laps, recordings as Recording[], options as object)).toThrow(
      expect.objectContaining({ reason, message: expect.stringContaining(message) }),
    );
  });
});
