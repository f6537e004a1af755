import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { planTest } from 'datumline';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { buildCommand, type Outcome } from '../support/commandLine';

const folder = mkdtempSync(join(tmpdir(), 'datumline plan '));
let run: (words: readonly string[], input?: string) => Promise<Outcome>;

beforeAll(async () => {
  run = await buildCommand(folder);
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

const plan = ['plan', '--sigma', '5', '--correlation-time', '30', '--seconds', '600', '--difference', '3'];

test('the chance, the runs it takes and what is found four times in five, as planTest has them', async () => {
  const { status, stdout, stderr } = await run([...plan, '--receivers', '3', '--runs', '3']);
  const { chance, runsNeeded, detectable } = planTest({
    sigma: 5,
    correlationTime: 30,
    seconds: 600,
    difference: 3,
    receivers: 3,
    runs: 3,
  });
  expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
  expect(stdout).toContain(`a chance of ${Math.round(100 * chance)} % (3 receivers, 3 runs of 600 s)`);
  expect(stdout).toContain(`${runsNeeded} runs find it four times in five`);
  expect(stdout).toContain(`Found four times in five: ${detectable!.toFixed(1)} m and more.`);
});

test('a stretch too short to tell anything is said to be', async () => {
  const short = await run([
    'plan',
    '--sigma',
    '5',
    '--correlation-time',
    '600',
    '--seconds',
    '60',
    '--difference',
    '3',
  ]);
  expect(short.status).toBe(0);
  expect(short.stdout).toMatch(/found with a chance of [1-9]\d? %/);
  expect(short.stdout).toContain(
    'None, however great, is found four times in five like this: the stretch is too short',
  );
  expect(short.stdout).toContain('A run is worth 1.1 independent samples.');
});

test.each([
  [['plan'], '--sigma is missing'],
  [[...plan.slice(0, -1), 'three'], '--difference must be a number, not "three"'],
  [[...plan, '--receivers', '1'], '--receivers must be a whole number of at least 2 up to 20, not 1'],
  [[...plan, '--between-runs', '-1'], "'--between-runs'"],
  [[...plan, '--between-runs=-1'], '--between-runs must be a number of at least 0 up to 1000000000, not -1'],
  [[...plan, '--sigma=1e308'], '--sigma must be a number above 0 up to 1000000000, not 1e+308'],
  [[...plan, 'file.gpx'], "Unexpected argument 'file.gpx'"],
])('wrong usage %j exits 2 and names what', async (words, about) => {
  const { status, stdout, stderr } = await run(words);
  expect(stderr).toContain(about);
  expect({ status, stdout }).toEqual({ status: 2, stdout: '' });
});

test('--help', async () => {
  const { status, stdout } = await run(['plan', '--help']);
  expect(status).toBe(0);
  expect(stdout).toContain('datumline plan --sigma M');
});
