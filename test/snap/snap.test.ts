import { describe, expect, test } from 'vitest';
import type { Route } from '../../src/route';
import { type Snapped, snap } from '../../src/snap';
import { lapsThenOutAndBack } from '../support/planeRoute';
import { type RunOptions, type SimulatedRecording, simulateRun } from '../support/simulateRun';

const seeds = [1, 2, 3, 4, 5, 6, 7, 8];

function shareRight({ alongTrack }: Snapped, truth: Float64Array): number {
  return alongTrack.filter((s, i) => Math.abs(s - truth[i]) <= 30).length / truth.length;
}

function runs(route: Route, options: Omit<RunOptions, 'seed'>): { run: SimulatedRecording; snapped: Snapped }[] {
  return seeds.map((seed) => {
    const [run] = simulateRun(route, { ...options, seed });
    return { run, snapped: snap(route, run.recording) };
  });
}

const laps = lapsThenOutAndBack([5, 52]);

describe('fixes within 30 m of the true place along the route, 8 seeds', () => {
  test.each<[string, Route, Omit<RunOptions, 'seed'>]>([
    ['3 laps, out and back on one line, sigma 5', laps, { receivers: [{ sigma: 5 }] }],
  ])('%s', (_, route, options) => {
    const shares = runs(route, options).map(({ run, snapped }) => shareRight(snapped, run.alongTrack));
    expect(shares.reduce((a, b) => a + b) / shares.length).toBeGreaterThanOrEqual(0.998);
    expect(Math.min(...shares)).toBeGreaterThanOrEqual(0.995);
  });
});
