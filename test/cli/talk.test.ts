import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { direct, routeBuilder } from 'datumline';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { mapInOrder } from '../../src/cli/mapInOrder';
import { buildCommand, commandFile } from '../support/commandLine';

const folder = mkdtempSync(join(tmpdir(), 'datumline talk '));
const start: [number, number] = [2.1, 61.4];

beforeAll(async () => {
  await buildCommand(folder);
  const { recipe } = routeBuilder()
    .start(start)
    .lineTo(direct(start, 90, 200).position)
    .build();
  writeFileSync(join(folder, 'route.json'), JSON.stringify(recipe));
  const fixes = Array.from({ length: 50 }, (_, i) => {
    const [lon, lat] = direct(start, 91, 4 * i).position;
    return `<trkpt lat="${lat}" lon="${lon}"><time>${new Date(Date.UTC(2031, 4, 1, 8, 0, i)).toISOString()}</time></trkpt>`;
  });
  writeFileSync(join(folder, 'ride.gpx'), `<gpx><trk><trkseg>${fixes.join('')}</trkseg></trk></gpx>`);
  writeFileSync(join(folder, 'broken.gpx'), '<gpx><trk>');
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

const shell = (line: string) => spawnSync('bash', ['-c', line], { cwd: folder, encoding: 'utf8' });
const pseudoTerminal = shell('command -v script').status === 0;
if (!pseudoTerminal) console.log('No "script" here: the test of progress on a terminal is skipped.');

test.skipIf(!pseudoTerminal)('on a terminal progress is written over, and nothing stands in the same line', () => {
  const command = `"${process.execPath}" "${commandFile}" assess route.json ride.gpx broken.gpx --out result`;
  const { status, stdout } = shell(`script -qec '${command}' /dev/null`);
  expect(status).toBe(3);
  for (const done of ['0 of 2', '1 of 2', '2 of 2'])
    expect(stdout).toContain(`\r\u001b[K${done} recordings read and placed`);
  expect(stdout).toContain('\r\u001b[Kdatumline: left out: broken.gpx: ');
  // the last progress is wiped before the result
  expect(stdout.slice(0, stdout.indexOf('section ')).endsWith('\r\u001b[K')).toBe(true);
  const failing = shell(
    `script -qec '"${process.execPath}" "${commandFile}" assess route.json broken.gpx --out x' /dev/null`,
  );
  expect(failing.status).toBe(1);
  expect(failing.stdout).toContain('\r\u001b[Kdatumline: none of the recordings could be read');
});

test('in a shell pipe one line in gives one line out, a bad one an error, and no terminal no progress', () => {
  const { status, stdout, stderr } = shell(
    `printf '%s\\n' '{"route":"route.json","recording":"ride.gpx"}' 'rubbish' '{"route":"route.json","recording":"broken.gpx"}' ` +
      `'{"route":"route.json","recording":"ride.gpx","id":7}' | "${process.execPath}" "${commandFile}" snap --ndjson | cat`,
  );
  // of a pipe the shell tells the last status
  expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
  const answers = stdout
    .trimEnd()
    .split('\n')
    .map((line) => JSON.parse(line));
  expect(answers.map(({ error }) => error?.message.split(':')[0] ?? 'fine')).toEqual([
    'fine',
    'line 2',
    'broken.gpx',
    'fine',
  ]);
  expect(answers[3].id).toBe(7);
});

test('a program that waits for each answer before it asks again gets it', async () => {
  const child = spawn(process.execPath, [commandFile, 'assess', '--ndjson'], { cwd: folder });
  const answers = createInterface({ input: child.stdout })[Symbol.asyncIterator]();
  for (let id = 1; id <= 3; id++) {
    child.stdin.write(`${JSON.stringify({ route: 'route.json', recording: 'ride.gpx', id })}\n`);
    const { value } = await answers.next();
    expect(JSON.parse(value!)).toMatchObject({ id, rows: [{ section: null }] });
  }
  child.stdin.end();
  expect(await new Promise((resolve) => child.on('close', resolve))).toBe(0);
});

test('answers keep the order of the questions, and no more are worked on than allowed', async () => {
  let [under, most] = [0, 0];
  async function* questions() {
    for (let i = 0; i < 40; i++) yield i;
  }
  const answer = async (question: number) => {
    most = Math.max(most, ++under);
    await new Promise((resolve) => setTimeout(resolve, (question * 7) % 5));
    under--;
    return question;
  };
  const answers: number[] = [];
  for await (const one of mapInOrder(questions(), () => 3, answer)) answers.push(one);
  expect(answers).toEqual(Array.from({ length: 40 }, (_, i) => i));
  expect(most).toBe(3);
});
