import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Recording, routeFromTruth, type TestSummary, type TimedAssessment, writeCsv, writeGpx } from 'datumline';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { buildCommand, type Outcome } from '../support/commandLine';
import { correlatedOffsets, normals } from '../support/correlatedOffsets';
import { every, TimedRide } from '../support/timedRide';

const ride = new TimedRide({ seconds: 400, speed: () => 3, azimuth: (t) => (t < 200 ? 90 : 180) });
const noise = normals(8);
const receiver = (name: string, sigma: number, delay: number): Recording => {
  const [right, ahead] = [0, 1].map(() => correlatedOffsets(noise, { seconds: 401, correlation: 3, sigma }));
  return ride.record(every(399, 1), { right: (t) => right[t], ahead: (t) => ahead[t], delay }, name);
};

const times = { times: 'absolute' } as const;
const folder = mkdtempSync(join(tmpdir(), 'datumline truth '));
const write = (name: string, text: string) => writeFileSync(join(folder, name), text);
const read = (name: string) => readFileSync(join(folder, name), 'utf8');
let run: (words: readonly string[]) => Promise<Outcome>;

beforeAll(async () => {
  run = await buildCommand(folder);
  const truth = ride.truth(10, 0.05);
  write('survey.csv', writeCsv(truth, times));
  write('route.json', JSON.stringify(routeFromTruth(truth).recipe));
  write('near.gpx', writeGpx(receiver('near', 1, 0), times));
  write('far.gpx', writeGpx(receiver('far', 5, 2), times));
  const other = receiver('other', 1, 0);
  write('other.gpx', writeGpx({ ...other, time: other.time!.map((t) => t + 9e8) }, times));
});
afterAll(() => rmSync(folder, { recursive: true }));

test('assess --truth writes and prints the errors by the clock', async () => {
  const { status, stdout } = await run([
    'assess',
    'route.json',
    'near.gpx',
    'far.gpx',
    '--truth',
    'survey.csv',
    '--out',
    'out',
  ]);
  expect(status).toBe(0);
  const told = JSON.parse(read('out/by-time.json')) as TimedAssessment;
  const late = told.rows.find((row) => row.recording === 'far')!;
  expect(Math.abs(late.delay!.seconds - 2)).toBeLessThan(0.5);
  expect(told.pairs[0]).toMatchObject({ verdict: 'closer', closer: 'near' });
  expect(stdout).toMatch(/By the clock: metres from where the truth was at that second/);
  expect(stdout).toMatch(/“near” lay closer than “far”, by \d+\.\d m\./);
  expect(stdout).toMatch(/far: It is [12]\.\d s late/);
  expect(read('out/by-time.csv').split('\r\n')[0]).toBe(
    'run,receiver,placement,recording,section,component,metric,value,unit',
  );
  // no time of day is passed on
  expect(read('out/by-time.json')).not.toMatch(/20\d\d-\d\d|\b19\d{11}\b/);
});

test('a test file names the truth of each run; a recording of another day is left out, with status 3', async () => {
  const recordings = ['near', 'other'].map((name) => ({ file: `${name}.gpx`, receiver: name }));
  write(
    'test.json',
    JSON.stringify({ version: 1, route: 'route.json', runs: [{ name: 'one', recordings, truth: 'survey.csv' }] }),
  );
  const { status, stdout, stderr } = await run(['assess', 'test.json', '--out', 'tested']);
  expect(status).toBe(3);
  expect(stderr).toMatch(/^datumline: not judged by the clock: other: It begins 10\.4 days after the truth ends/m);
  expect(stdout).toMatch(/By the clock, run “one”/);
  expect(stdout).toMatch(/other \(left out\): It begins 10\.4 days after the truth ends/);
  expect(existsSync(join(folder, 'tested/by-time.csv'))).toBe(true);
});

test('several runs: a document each, one table, the summary and the report tell what they say together', async () => {
  const recordings = ['near', 'far'].map((name) => ({ file: `${name}.gpx`, receiver: name }));
  const runs = ['one', 'two'].map((name) => ({ name, recordings, truth: 'survey.csv' }));
  write('runs.json', JSON.stringify({ version: 1, route: 'route.json', runs }));
  const { status, stdout } = await run(['assess', 'runs.json', '--out', 'runs']);
  expect(status).toBe(0);
  expect(existsSync(join(folder, 'runs/by-time-2.json'))).toBe(true);
  const { byTime } = JSON.parse(read('runs/summary.json')) as TestSummary;
  expect(byTime!.rows[0]).toMatchObject({ receiver: 'near', runs: 2 });
  const table = read('runs/by-time.csv');
  expect(table).toMatch(/^one,near,,near,/m);
  expect(table).toMatch(/^,near,,,,horizontal,mean,/m);
  expect(read('runs/report.html')).toContain('By the clock: how far from where it was at that second');
  expect(stdout).toMatch(/By the clock over 2 runs/);
});

test('a truth that is none is told in a sentence, before anything is written', async () => {
  const missing = await run(['assess', 'route.json', 'near.gpx', '--truth', 'nowhere.csv', '--out', 'none']);
  expect(missing.status).toBe(1);
  expect(missing.stderr).toMatch(/nowhere\.csv/);
  const { time: _, ...untimed } = ride.truth(1);
  write('untimed.csv', writeCsv(untimed, times));
  const refused = await run(['assess', 'route.json', 'near.gpx', '--truth', 'untimed.csv', '--out', 'none']);
  expect(refused.status).toBe(1);
  expect(refused.stderr).toMatch(/truth\.time must be given/);
  expect(existsSync(join(folder, 'none'))).toBe(false);
  const twice = await run(['assess', 'test.json', '--truth', 'survey.csv', '--out', 'none']);
  expect(twice.status).toBe(2);
});

test('route --draft draws a first line; assess tells that it was drafted from what is judged', async () => {
  const { status, stdout } = await run(['route', '--draft', 'near.gpx', 'far.gpx', '--out', 'draft.geojson']);
  expect(status).toBe(0);
  expect(stdout).toMatch(/A draft to be corrected in a map editor/);
  const judged = await run(['assess', 'draft.geojson', 'near.gpx', 'far.gpx', '--out', 'drafted']);
  expect(judged.stdout).toMatch(/near: The line was drafted from this recording and not corrected since/);
  expect(judged.stdout).toMatch(
    /Drafted from 2 recordings, not corrected since: a first line to correct, no reference/,
  );
  expect(read('drafted/report.html')).toMatch(/drafted from this recording and not corrected since/);
  expect((await run(['route', '--draft', 'near.gpx'])).status).toBe(2);
  const apart = await run(['route', '--draft', 'near.gpx', 'nowhere.gpx', '--out', 'none.geojson']);
  expect(apart.status).toBe(1);
});
