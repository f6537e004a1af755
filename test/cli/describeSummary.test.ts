import { assess, combine, type Recording } from 'datumline';
import { expect, test } from 'vitest';
import { describeSummary } from '../../src/cli/describeSummary';
import { besideRoute, steadyFixes } from '../support/besideRoute';
import { planeRoute } from '../support/planeRoute';

const route = planeRoute(
  [5, 52],
  [
    [0, 0],
    [900, 0],
  ],
);
const beside = (name: string, metres: number) =>
  besideRoute(
    route,
    name,
    steadyFixes({ from: 0, to: route.length }, () => metres),
  );
const carried = (run: string, recordings: readonly Recording[]) =>
  assess(
    route,
    recordings.map((recording) => ({ recording, receiver: recording.name, run })),
  );

test('what was left out of a run is marked in its column; what was not there is a dash', () => {
  const elsewhere = beside('B', 1);
  const lost: Recording = { ...elsewhere, lat: elsewhere.lat.map((lat) => lat + 1) };
  const runs = [
    carried('first', [beside('A', 2), beside('B', 1), beside('C', 3)]),
    carried('second', [beside('A', 2), lost]),
  ];
  const lines = describeSummary(combine(runs), runs).split('\n');
  const lastOf = (receiver: string) => lines.find((line) => new RegExp(`\\b${receiver} +\\d`).test(line))!;
  expect(lastOf('A')).toMatch(/ 2\.0 +2\.0$/);
  expect(lastOf('B')).toMatch(/ 1\.0 +left out$/);
  expect(lastOf('C')).toMatch(/ 3\.0 +–$/);
});

test('what is wrong with a recording is said once, with its run and name', () => {
  const message = 'It passes places 2.4 s later than the others of its run.';
  const late = { reason: 'clock', recording: 'B', section: null, from: null, to: null, message } as const;
  const runs = ['first', 'second'].map((run) => {
    const assessment = carried(run, [beside('A', 2), beside('B', 1)]);
    return { ...assessment, warnings: [...assessment.warnings, late] };
  });
  const summary = combine(runs);
  expect(summary.warnings.filter((warning) => warning.message === message)).toHaveLength(2);
  const told = describeSummary(summary, runs)
    .split('\n')
    .filter((line) => line.includes(message));
  expect(told).toEqual([`- first, B: ${message}`, `- second, B: ${message}`]);
});
