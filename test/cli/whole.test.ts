import { spawn, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  existsSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { open } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { direct, routeBuilder } from 'datumline';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { buildCommand, commandFile, type Outcome } from '../support/commandLine';

const folder = mkdtempSync(join(tmpdir(), 'datumline whole '));
const start: [number, number] = [2.1, 61.4];
const inFolder = (name: string) => join(folder, name);
const command = `"${process.execPath}" "${commandFile}"`;
const shell = (line: string) => spawnSync('bash', ['-c', line], { cwd: folder, encoding: 'utf8' });
const FILES = ['.datumline-files', 'assessment.json', 'places.geojson', 'report.html', 'rows.csv'];
let run: (words: readonly string[], input?: string) => Promise<Outcome>;

const ride = (side: number, fixes = 50) =>
  `<gpx><trk><trkseg>${Array.from({ length: fixes }, (_, i) => {
    const on = direct(start, 90, (200 * i) / fixes).position;
    const [lon, lat] = direct(on, 180, side).position;
    return `<trkpt lat="${lat}" lon="${lon}"><time>${new Date(Date.UTC(2031, 4, 1, 8, 0, i)).toISOString()}</time></trkpt>`;
  }).join('')}</trkseg></trk></gpx>`;

beforeAll(async () => {
  run = await buildCommand(folder);
  const { recipe } = routeBuilder()
    .start(start)
    .lineTo(direct(start, 90, 200).position)
    .build();
  writeFileSync(inFolder('route.json'), JSON.stringify(recipe));
  writeFileSync(inFolder('right.gpx'), ride(3));
  writeFileSync(inFolder('left.gpx'), ride(-3));
});
afterAll(() => {
  if (mounted.status === 0) spawnSync('umount', [inFolder('tiny')]);
  rmSync(folder, { recursive: true, force: true });
});

const assessing = (out: string, recording = 'right.gpx') => ['assess', 'route.json', recording, '--out', out];
const sideIn = (out: string) => {
  const { rows } = JSON.parse(readFileSync(inFolder(`${out}/assessment.json`), 'utf8'));
  return rows[0].biasInWords;
};
const oneSentence = (stderr: string, about: string | RegExp) => {
  expect(stderr).toMatch(/^datumline: [^\n]+\n$/);
  expect(stderr).toMatch(about);
};

test('who reads one line and closes the pipe finds every file, and no complaint', () => {
  const { status, stdout, stderr } = shell(
    `${command} assess route.json right.gpx --out headed | head -1; echo "ends \${PIPESTATUS[0]}"`,
  );
  expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
  expect(stdout).toMatch(/^section .*\nends 0\n$/);
  expect(readdirSync(inFolder('headed')).sort()).toEqual(FILES);
  for (const words of ['route route.json --out headed.gpx', 'snap route.json right.gpx --out headed.csv']) {
    expect(shell(`${command} ${words} | head -0; exit \${PIPESTATUS[0]}`)).toMatchObject({ status: 0, stderr: '' });
  }
  expect(readFileSync(inFolder('headed.gpx'), 'utf8')).toMatch(/<\/gpx>\s*$/);
  expect(readFileSync(inFolder('headed.csv'), 'utf8').trim().split('\n')).toHaveLength(51);
});

test('a closed pipe leaves the status that the run earned, 0 or 3', () => {
  for (const [recordings, earned] of [
    ['right.gpx', 0],
    ['right.gpx none.gpx', 3],
  ] as const) {
    const out = `left ${earned}`;
    // the pipe is closed long before anything is printed
    const line = `${command} assess route.json ${recordings} --out "${out}" | head -0; exit \${PIPESTATUS[0]}`;
    expect(shell(line).status, recordings).toBe(earned);
    expect(readdirSync(inFolder(out)).sort()).toEqual(FILES);
  }
  expect(shell(`${command} snap route.json none.gpx | head -0; exit \${PIPESTATUS[0]}`).status).toBe(1);
  writeFileSync(inFolder('cut.gpx'), ride(3).slice(0, -300));
  expect(shell(`${command} snap route.json cut.gpx | head -0; exit \${PIPESTATUS[0]}`).status).toBe(3);
});

test('answers that nobody reads are not gone on with', () => {
  const ask = JSON.stringify({ route: 'route.json', recording: 'right.gpx' });
  // without an end to the lines, only the closed pipe ends it
  const line = `yes '${ask}' 2> /dev/null | timeout 60 ${command} snap --ndjson --threads 1 | head -1 > /dev/null; exit \${PIPESTATUS[1]}`;
  expect(shell(line)).toMatchObject({ status: 0, stderr: '' });
});

test('a recording that was cut off is told with how much of it was used, and the status is 3', async () => {
  // the last whole point is the 40th
  writeFileSync(inFolder('a.gpx'), ride(3).split('</trkpt>').slice(0, 40).join('</trkpt>').concat('</trkpt><trkpt la'));
  const told = 'datumline: a.gpx is cut off: the 40 points before were used\n';
  const assessed = await run(['assess', 'route.json', 'a.gpx', 'right.gpx', '--out', 'cut']);
  expect(assessed).toMatchObject({ status: 3, stderr: told });
  expect(readdirSync(inFolder('cut')).sort()).toEqual(FILES);
  const snapped = await run(['snap', 'route.json', 'a.gpx']);
  expect(snapped).toMatchObject({ status: 3, stderr: told });
  expect(snapped.stdout.trimEnd().split('\n')).toHaveLength(41);
  expect(await run(['snap', 'route.json', 'a.gpx', '--out', 'a.csv'])).toMatchObject({ status: 3, stderr: told });
  const truth = await run(['assess', 'route.json', 'right.gpx', '--truth', 'a.gpx', '--out', 'cut truth']);
  expect(truth.status).toBe(3);
  expect(truth.stderr).toContain(told);
});

test('a standard output that is closed or full loses no file; a full one is said', () => {
  expect(shell(`${command} assess route.json right.gpx --out closed >&-`).status).toBe(0);
  expect(readdirSync(inFolder('closed')).sort()).toEqual(FILES);
  for (const words of ['assess route.json right.gpx --out full', 'snap route.json right.gpx', '--help', '--version']) {
    const { status, stderr } = shell(`${command} ${words} > /dev/full`);
    expect(status, words).toBe(1);
    oneSentence(stderr, /^datumline: standard output: no space left on the disk\n$/);
  }
  expect(readdirSync(inFolder('full')).sort()).toEqual(FILES);
  // nobody hears standard error: that is no failure
  expect(shell(`${command} assess route.json right.gpx none.gpx --out deaf 2> >(head -c0) | cat`).status).toBe(0);
  expect(readdirSync(inFolder('deaf')).sort()).toEqual(FILES);
});

test('one file that cannot be put there leaves all as they were', async () => {
  await run(assessing('kept'));
  rmSync(inFolder('kept/rows.csv'));
  mkdirSync(inFolder('kept/rows.csv'));
  writeFileSync(inFolder('kept/rows.csv/mine'), 'mine');
  const refused = await run(assessing('kept', 'left.gpx'));
  expect(refused).toMatchObject({ status: 1, stdout: '' });
  oneSentence(refused.stderr, /^datumline: kept\/rows\.csv: is a folder, not a file\n$/);
  expect(readdirSync(inFolder('kept')).sort()).toEqual(FILES);
  expect(readFileSync(inFolder('kept/rows.csv/mine'), 'utf8')).toBe('mine');
  for (const name of ['assessment.json', 'report.html']) {
    expect(readFileSync(inFolder(`kept/${name}`), 'utf8')).not.toMatch(/3\.0 m left/);
  }
  expect(sideIn('kept')).toMatch('right');

  // a name that is too long for its own folder, and for a folder on the way
  for (const out of ['n'.repeat(300), `new/${'n'.repeat(300)}`, 'right.gpx', 'right.gpx/deeper']) {
    const { status, stdout, stderr } = await run(assessing(out));
    expect({ status, stdout }, out).toEqual({ status: 1, stdout: '' });
    oneSentence(stderr, /too long|not a folder/);
  }
  expect(readFileSync(inFolder('right.gpx'), 'utf8')).toBe(ride(3));
});

const mounted = spawnSync('bash', [
  '-c',
  `mkdir -p "${inFolder('tiny')}" && mount -t tmpfs -o size=64k none "${inFolder('tiny')}"`,
]);
if (mounted.status !== 0) console.log('No file system can be mounted here: the test of a full one is skipped.');
test.skipIf(mounted.status !== 0)('a full disk: one sentence, and nothing half-written', async () => {
  writeFileSync(inFolder('tiny/report.html'), 'the one before');
  for (const out of ['tiny', 'tiny/new/folder']) {
    const { status, stdout, stderr } = await run(assessing(out));
    expect({ status, stdout }).toEqual({ status: 1, stdout: '' });
    oneSentence(stderr, /: no space left on the disk\n$/);
  }
  writeFileSync(inFolder('tiny/filled'), 'x'.repeat(60_000));
  oneSentence((await run(['snap', 'route.json', 'right.gpx', '--out', 'tiny/right.csv'])).stderr, /no space left/);
  expect(readdirSync(inFolder('tiny')).sort()).toEqual(['filled', 'report.html']);
  expect(readFileSync(inFolder('tiny/report.html'), 'utf8')).toBe('the one before');
});

test('two runs into one folder: both are whole, and who comes while the other writes is told', async () => {
  const both = await Promise.all([run(assessing('shared')), run(assessing('shared', 'left.gpx'))]);
  for (const { status, stderr } of both) {
    if (status !== 0) oneSentence(stderr, /another run is writing into it/);
  }
  expect(both.some(({ status }) => status === 0)).toBe(true);
  expect(readdirSync(inFolder('shared')).sort()).toEqual(FILES);
  const side = /right|left/.exec(sideIn('shared'))![0];
  for (const name of FILES.slice(1)) expect(readFileSync(inFolder(`shared/${name}`), 'utf8')).toContain(side);

  mkdirSync(inFolder('shared/.datumline-writing'));
  const { status, stderr } = await run(assessing('shared'));
  expect(status).toBe(1);
  oneSentence(
    stderr,
    /^datumline: shared: another run is writing into it; if none is, delete "shared\/\.datumline-writing"\n$/,
  );
  expect(readdirSync(inFolder('shared')).sort()).toEqual(['.datumline-writing', ...FILES].sort());
});

test('what is no file is written to, a link stays one', async () => {
  expect(await run(['snap', 'route.json', 'right.gpx', '--out', '/dev/null'])).toMatchObject({ status: 2 });
  symlinkSync('there.csv', inFolder('link.csv'));
  writeFileSync(inFolder('there.csv'), 'before');
  expect(await run(['snap', 'route.json', 'right.gpx', '--out', 'link.csv'])).toMatchObject({ status: 0 });
  expect(lstatSync(inFolder('link.csv')).isSymbolicLink()).toBe(true);
  expect(readFileSync(inFolder('there.csv'), 'utf8')).toMatch(/^fix,/);
  symlinkSync('/dev/full', inFolder('full.csv'));
  const { status, stderr } = await run(['snap', 'route.json', 'right.gpx', '--out', 'full.csv']);
  expect(status).toBe(1);
  oneSentence(stderr, /^datumline: full\.csv: no space left on the disk\n$/);
  expect(lstatSync(inFolder('full.csv')).isSymbolicLink()).toBe(true);
});

test('interrupted: a sentence, 130, and no file', async () => {
  // a pipe to be read shows by its other end when the command has come so far
  expect(shell('mkfifo waiting.gpx').status).toBe(0);
  for (const [signal, status] of [
    ['SIGINT', 130],
    ['SIGTERM', 143],
  ] as const) {
    const words = ['assess', 'route.json', 'left.gpx', 'waiting.gpx', '--out', 'interrupted'];
    const child = spawn(process.execPath, [commandFile, ...words], { cwd: folder });
    let stderr = '';
    child.stderr.on('data', (text) => (stderr += text));
    const ended = new Promise((resolve) => child.on('close', resolve));
    const pipe = await open(inFolder('waiting.gpx'), 'w');
    child.kill(signal);
    await new Promise((resolve) => child.stderr.once('data', resolve));
    await pipe.close();
    expect(await ended).toBe(status);
    oneSentence(stderr, /interrupted/);
    expect(existsSync(inFolder('interrupted'))).toBe(false);
  }
});

test.each(['route.json', 'waiting.json'])(
  'interrupted while it waits for a pipe that nobody writes to: %s',
  async (route) => {
    shell('mkfifo unwritten.gpx waiting.json');
    const child = spawn(process.execPath, [commandFile, 'assess', route, 'unwritten.gpx', '--out', 'interrupted'], {
      cwd: folder,
    });
    let stderr = '';
    child.stderr.on('data', (text) => (stderr += text));
    const ended = new Promise((resolve) => child.on('close', resolve));
    // nothing tells that it waits
    await new Promise((resolve) => setTimeout(resolve, 2000));
    child.kill('SIGINT');
    expect(await ended).toBe(130);
    oneSentence(stderr, /interrupted/);
  },
);

test('a route and a recording may come from pipes', () => {
  const piped = (words: string) => shell(`${command} ${words}`);
  const { status, stderr } = piped('assess <(cat route.json) <(cat right.gpx) --out piped');
  expect([status, stderr]).toEqual([0, '']);
  expect(sideIn('piped')).toMatch(/right/);
  expect(piped('snap <(cat route.json) right.gpx').stdout).toBe(piped('snap route.json right.gpx').stdout);
});

test('a name with a line end in it is one line, on the screen and in what is told', async () => {
  writeFileSync(inFolder('two\nlines.gpx'), ride(3));
  const { status, stdout, stderr } = await run([
    'assess',
    'route.json',
    'two\nlines.gpx',
    'no\nfile.gpx',
    '--out',
    'lines',
  ]);
  expect(status).toBe(3);
  oneSentence(stderr, /no.file\.gpx: no such file/);
  expect(stdout).toMatch(/^whole route +two lines /m);
});

test('interrupted while it computes: at once a sentence, 130, and no file', async () => {
  const corner = (i: number) => direct(start, [0, 90, 45, 0][i], [0, 20, 20 * Math.SQRT2, 20][i]).position;
  const { recipe } = routeBuilder()
    .start(start)
    .laps(400, (lap) => {
      for (const i of [1, 2, 3, 0]) lap.section(`side ${i}`).lineTo(corner(i));
    })
    .build();
  writeFileSync(inFolder('laps.json'), JSON.stringify(recipe));
  const fixes = Array.from({ length: 8000 }, (_, i) => {
    const [a, b] = [corner(Math.floor(i / 5) % 4), corner((Math.floor(i / 5) + 1) % 4)];
    const [lon, lat] = a.map((value, k) => value + ((i % 5) / 5) * (b[k] - value));
    return `<trkpt lat="${lat}" lon="${lon}"/>`;
  });
  expect(shell('mkfifo laps.gpx').status).toBe(0);
  const words = ['assess', 'laps.json', 'laps.gpx', '--out', 'computing', '--threads', '1'];
  const child = spawn(process.execPath, [commandFile, ...words], { cwd: folder });
  let stderr = '';
  child.stderr.on('data', (text) => (stderr += text));
  const ended = new Promise((resolve) => child.on('close', resolve));
  // takes the file only once the route is read; then it computes for seconds
  const pipe = await open(inFolder('laps.gpx'), 'w');
  await pipe.writeFile(`<gpx><trk><trkseg>${fixes.join('')}</trkseg></trk></gpx>`);
  await pipe.close();
  await new Promise((resolve) => setTimeout(resolve, 500));
  const begun = performance.now();
  child.kill('SIGINT');
  expect(await ended).toBe(130);
  // not when the computation is done, which takes seconds
  expect(performance.now() - begun).toBeLessThan(1500);
  oneSentence(stderr, /interrupted/);
  expect(existsSync(inFolder('computing'))).toBe(false);
});

test('what an earlier run wrote does not stand beside this one; nothing else is removed', async () => {
  const recordings = (side: string) => [{ file: `${side}.gpx`, receiver: 'A' }];
  const runs = ['right', 'left'].map((side) => ({ name: side, recordings: recordings(side) }));
  writeFileSync(inFolder('two.json'), JSON.stringify({ version: 1, route: 'route.json', runs }));
  const names = () => readdirSync(inFolder('again')).sort();

  expect(await run(['assess', 'two.json', '--out', 'again'])).toMatchObject({ status: 0, stderr: '' });
  expect(names()).toEqual(expect.arrayContaining(['assessment-1.json', 'assessment-2.json', 'summary.json']));
  writeFileSync(inFolder('again/notes.txt'), 'mine');
  writeFileSync(inFolder('again/assessment-7.json'), 'mine, though it is called so');
  writeFileSync(inFolder('again/summary.json'), 'written over by hand');

  const { status, stdout, stderr } = await run(assessing('again'));
  expect(status).toBe(0);
  expect(stdout).toContain('removed, written by an earlier run: again/assessment-1.json\n');
  oneSentence(stderr, 'again/summary.json: written by an earlier run and changed since: left as it is');
  expect(names()).toEqual([...FILES, 'assessment-7.json', 'notes.txt', 'summary.json'].sort());
  expect(readFileSync(inFolder('again/assessment-7.json'), 'utf8')).toBe('mine, though it is called so');
});

test('a list of files that names others than those in the folder removes nothing', async () => {
  mkdirSync(inFolder('listed'));
  writeFileSync(inFolder('outside.txt'), 'mine');
  const hash = createHash('sha256').update('mine').digest('hex');
  writeFileSync(inFolder('listed/.datumline-files'), `${hash}  ../outside.txt\n${hash}  ..\n`);
  expect(await run(assessing('listed'))).toMatchObject({ status: 0, stderr: '' });
  expect(existsSync(inFolder('outside.txt'))).toBe(true);
});
