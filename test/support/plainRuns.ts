import type { Route } from '../../src/model';
import { figureOfEight, lapsThenOutAndBack, parallelStreets } from './planeRoute';
import { type RunOptions, type SimulatedReceiver, type SimulatedRecording, simulateRun } from './simulateRun';

/** Runs whose errors are those of a good receiver: along which route, how the body moved, and how it was recorded. */
export interface PlainRun {
  readonly name: string;
  readonly route: Route;
  readonly options: Omit<RunOptions, 'seed' | 'receivers'>;
  readonly receiver: SimulatedReceiver;
  /** Standard deviations of a fix, metres per axis. */
  readonly sigmas: readonly number[];
}

const laps = lapsThenOutAndBack([5, 52]);
const eight = figureOfEight([5, 52]);
const streets = parallelStreets([5, 52]);
const stops = [{ at: 700, seconds: 60 }];
const gaps = [{ from: 200, to: 320 }];
const lap = [{ from: 234, to: 402 }];
const backtracks = [60, 80].map((metres) => ({ at: 20 * metres, metres }));

const run = (
  name: string,
  route: Route,
  options: PlainRun['options'] = {},
  receiver: SimulatedReceiver = {},
  sigmas: readonly number[] = [5, 10],
): PlainRun => ({ name, route, options, receiver, sigmas });

export const plainRuns: readonly PlainRun[] = [
  run('as it comes', laps),
  run('the way back 8 m aside', lapsThenOutAndBack([5, 52], { beside: 8 })),
  run('a stop of 60 s', laps, { stops }),
  run('late start', laps, { from: 150 }),
  run('stop, late start, early end', laps, { stops, from: 60, to: 2500 }),
  run('a gap of 120 s', laps, {}, { gaps }),
  run('three segments', laps, {}, { gaps: [...gaps, { from: 500, to: 530 }] }),
  run('a fix every 10 s', laps, {}, { interval: 10 }),
  run('a fix every 30 s', laps, {}, { interval: 30 }),
  run('no times', laps, {}, { clock: 'none' }, [5, 8]),
  run('a lap missing, the clock kept', laps, {}, { gaps: lap }, [5, 8]),
  run('going back twice', laps, { backtracks }),
  run('three times as fast', laps, { speed: 9 }),
  run('figure of eight', eight),
  run('figure of eight, a stop of 60 s', eight, { stops }),
  run('streets 30 m apart, start = finish', streets),
  run('streets 30 m apart, a gap of 120 s', streets, {}, { gaps }),
  run('over ±180°', lapsThenOutAndBack([180, -17])),
  run('at 80° N', lapsThenOutAndBack([20, 80])),
];

/** Such a run as it was recorded with one of its deviations, other ones for each seed. */
export function recordRun({ route, options, receiver }: PlainRun, sigma: number, seed: number): SimulatedRecording {
  return simulateRun(route, { ...options, seed, receivers: [{ ...receiver, sigma }] })[0];
}
