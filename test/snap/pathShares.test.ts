import { expect, test } from 'vitest';
import type { Route } from '../../src/subpaths/route';
import { snap } from '../../src/subpaths/snap';
import { figureOfEight, lapsThenOutAndBack, parallelStreets } from '../support/planeRoute';
import { type SimulatedReceiver, simulateRun } from '../support/simulateRun';

const seeds = [941, 942, 943, 944, 945, 946, 947, 948];
const laps = lapsThenOutAndBack([5, 52]);

interface Told {
  readonly confidence: number;
  readonly right: boolean;
}

/** For each fix how sure it was of its part of the route, and whether it lies on it. */
function tell(route: Route, receiver: SimulatedReceiver): Told[] {
  return seeds.flatMap((seed) => {
    const [run] = simulateRun(route, { seed, receivers: [receiver] });
    const { alongTrack, confidence } = snap(route, run.recording);
    return Array.from(alongTrack, (place, i) => ({
      confidence: confidence[i],
      right: Math.abs(place - run.alongTrack[i]) <= 60,
    }));
  });
}

const share = (told: readonly Told[], holds: (one: Told) => boolean) => told.filter(holds).length / told.length;

// what can't be told: laps without a clock, excerpts that know neither start nor finish
const open: [string, Route, SimulatedReceiver][] = [
  ['a lap lost, the clock stood still', laps, { sigma: 8, clock: 'collapsed', gaps: [{ from: 234, to: 402 }] }],
  [
    'once round two streets lost, the clock stood still',
    parallelStreets([5, 52]),
    { sigma: 8, clock: 'collapsed', gaps: [{ from: 300, to: 587 }] },
  ],
  [
    'once round an eight lost, the clock stood still',
    figureOfEight([5, 52]),
    { sigma: 8, clock: 'collapsed', gaps: [{ from: 60, to: 311 }] },
  ],
  [
    'an excerpt out of the laps',
    laps,
    {
      sigma: 8,
      gaps: [
        { from: 0, to: 130 },
        { from: 300, to: Infinity },
      ],
    },
  ],
];

// what can be told, however rough the receiver
const settled: [string, Route, SimulatedReceiver][] = [
  ['sigma 20', laps, { sigma: 20 }],
  ['sigma 20 on streets 30 m apart', parallelStreets([5, 52]), { sigma: 20 }],
  ['sigma 15, a fix every 30 s', laps, { sigma: 15, interval: 30 }],
];

test.each(open)(
  'of %s, no fix on the wrong pass is sure, and the unsure ones are the wrong ones',
  (_, route, receiver) => {
    const told = tell(route, receiver);
    const wrong = told.filter(({ right }) => !right);
    const sure = told.filter(({ confidence }) => confidence >= 0.99);
    const unsure = told.filter(({ confidence }) => confidence < 0.9);
    expect(wrong.length).toBeGreaterThan(100);
    expect(share(wrong, ({ confidence }) => confidence < 0.9)).toBeGreaterThan(0.99);
    if (sure.length > 0) expect(share(sure, ({ right }) => right)).toBeGreaterThanOrEqual(0.98);
    // a share of all paths that is a share of the truth: as many are right as say so, give or take a third
    const expected = unsure.reduce((sum, { confidence }) => sum + confidence, 0) / unsure.length;
    expect(Math.abs(share(unsure, ({ right }) => right) - expected)).toBeLessThan(0.34);
  },
);

test.each(settled)('with %s every sure fix is right, and most are sure', (_, route, receiver) => {
  const told = tell(route, receiver);
  const sure = told.filter(({ confidence }) => confidence >= 0.9);
  expect(sure.length / told.length).toBeGreaterThan(0.95);
  expect(share(sure, ({ right }) => right)).toBeGreaterThanOrEqual(0.998);
});
