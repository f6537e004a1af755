import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { direct, inverse, routeBuilder, type TestFile, writeGpx } from 'datumline';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { buildCommand, type Outcome } from '../support/commandLine';

// An invented line in open sea: 400 m east, then 300 m south.
const start = [2.1, 61.4];
const corner = direct(start, 90, 400).position;
const end = direct(corner, 180, 300).position;
const route = routeBuilder({ name: 'loop' })
  .start(start)
  .section('quay, long', { halfWidth: 5 })
  .lineTo(corner)
  .section('lane', { halfWidth: 5 })
  .lineTo(end)
  .build();

/** A GPX track beside the line, `right` metres off, a fix every second at 4 m/s. */
function track(right: number): string {
  const points: string[] = [];
  for (const [from, to] of [
    [start, corner],
    [corner, end],
  ]) {
    const { distance, initialAzimuth } = inverse(from, to);
    for (let s = 0; s < distance; s += 4) {
      const on = direct(from, initialAzimuth, s).position;
      const [lon, lat] = direct(on, initialAzimuth + 90, right).position;
      const time = new Date(Date.UTC(2031, 4, 1, 8) + points.length * 1000).toISOString();
      points.push(`<trkpt lat="${lat}" lon="${lon}"><time>${time}</time></trkpt>`);
    }
  }
  return `<gpx><trk><trkseg>${points.join('')}</trkseg></trk></gpx>`;
}

const folder = mkdtempSync(join(tmpdir(), 'datumline assess '));
const write = (name: string, text: string) => writeFileSync(join(folder, name), text);
const read = (name: string) => readFileSync(join(folder, name), 'utf8');
let run: (words: readonly string[], input?: string) => Promise<Outcome>;

beforeAll(async () => {
  run = await buildCommand(folder);
  mkdirSync(join(folder, 'the runs'));
  mkdirSync(join(folder, 'tests'));
  write('my route.json', JSON.stringify(route.recipe));
  write('route.gpx', writeGpx(route));
  write('the runs/three right.gpx', track(3));
  write('the runs/one left.gpx', track(-1));
  write('broken.gpx', `${track(3).slice(0, 2000)}</trk>`);
  write('pulled out.gpx', track(3).slice(0, 9000));
  const day = (text: string) => text.replace(/<\/?gpx>/g, '');
  write(
    'two days.gpx',
    `<gpx>${day(track(2)).replace('</trk>', '')}${day(track(2)).replaceAll('-01T', '-02T').replace('<trk>', '')}</gpx>`,
  );
  write('elsewhere.gpx', track(3).replaceAll('lat="61.', 'lat="31.'));
  for (const k of [1, 2, 3]) write(`the runs/nine right ${k}.gpx`, track(9 + 0.1 * k));
  const lane = track(0.2).split('<trkpt');
  write('the runs/lane only.gpx', [lane[0], ...lane.slice(-80)].join('<trkpt'));
  write('tests/baseline.json', JSON.stringify(baselineTest));
  write('picture.gpx', '\u0089PNG\r\n\u0000\u0000');
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

const noTrace = (text: string) => expect(text).not.toMatch(/\n\s+at |node:internal|\.js:\d/);

test('assess prints how far off each was and to which side, and writes the assessment', async () => {
  const files = ['the runs/three right.gpx', 'the runs/one left.gpx'];
  const { status, stdout, stderr } = await run(['assess', 'my route.json', ...files, '--out', 'a new/folder']);
  expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
  expect(stdout).toMatch(/^quay, long +one left +\d+ % +1\.0 m /m);
  expect(stdout).toMatch(
    /^ +three right +\d+ % +3\.0 m .* 3\.0 m right \((2\.9|3\.0)–3\.[01]\) .* 100 % +kept, right /m,
  );
  const { rows } = JSON.parse(read('a new/folder/assessment.json'));
  const bias = Object.fromEntries(
    rows
      .filter((row: { section: string }) => row.section === 'lane')
      .map((row: { recording: string; bias: number }) => [row.recording, row.bias]),
  );
  // the first metres behind the corner are nearer to the other leg, or have no fix beside them
  expect(bias['three right']).toBeCloseTo(3, 1);
  expect(bias['one left']).toBeCloseTo(-1, 1);
  expect(read('a new/folder/report.html')).toMatch(/^<!doctype html>/i);
  expect(read('a new/folder/rows.csv').split('\r\n').length).toBeGreaterThan(10);
  expect(JSON.parse(read('a new/folder/places.geojson')).type).toBe('FeatureCollection');
  const written = [...stdout.matchAll(/^written: (.+)$/gm)].map(([, file]) => file);
  expect(written.map((file) => file.replace('a new/folder/', '')).sort()).toEqual(
    readdirSync(join(folder, 'a new/folder'))
      .filter((name) => name !== '.datumline-files')
      .sort(),
  );
});

test('a route drawn as a GPX line does as well, and the same twice is the same to the byte', async () => {
  for (const out of ['first', 'second']) {
    expect(await run(['assess', 'route.gpx', 'the runs/one left.gpx', '--out', out])).toMatchObject({ status: 0 });
  }
  for (const name of readdirSync(join(folder, 'first'))) expect(read(`first/${name}`)).toBe(read(`second/${name}`));
});

test('bad files among good ones are named on standard error and left out', async () => {
  const files = ['broken.gpx', 'the runs/three right.gpx', 'missing.gpx', 'picture.gpx', 'elsewhere.gpx', 'the runs'];
  const { status, stdout, stderr } = await run(['assess', 'my route.json', ...files, '--out', 'partly']);
  expect(status).toBe(3);
  const lines = stderr.trimEnd().split('\n');
  expect(lines.map((line) => line.match(/^datumline: left out: ([^:]+): ./)?.[1])).toEqual([
    ...['broken.gpx', 'missing.gpx', 'picture.gpx', 'the runs', 'elsewhere'],
  ]);
  noTrace(stderr);
  expect(stdout).toContain('elsewhere: ');
  const [lead] = read('partly/report.html').match(/<p class="lead">.*?<\/p>/s)!;
  for (const name of ['broken.gpx', 'missing.gpx', 'picture.gpx', 'the runs', 'elsewhere']) {
    expect(lead).toMatch(new RegExp(`Left out:.*${name}: `, 's'));
  }
  const assessment = JSON.parse(read('partly/assessment.json'));
  expect(assessment.rows.every(({ recording }: { recording: string }) => recording === 'three right')).toBe(true);
});

test('a file that holds two days is named on standard error, and its rows as left out', async () => {
  const { status, stdout, stderr } = await run([
    'assess',
    'my route.json',
    'two days.gpx',
    'the runs/one left.gpx',
    '--out',
    'days',
  ]);
  expect(status).toBe(3);
  expect(stderr).toBe(
    'datumline: left out: two days: Its times span 1.0 days: more than a single run. Its figures take them together; cut it into one recording a run.\n',
  );
  expect(stdout).toMatch(/^ +two days \(left out\) +\d+ % +2\.0 m /m);
});

test('worker threads give the same to the byte, bad files included', async () => {
  const files = ['the runs/three right.gpx', 'broken.gpx', 'the runs/one left.gpx', 'missing.gpx'];
  const one = await run(['assess', 'my route.json', ...files, '--out', 'one', '--threads', '1']);
  const two = await run(['assess', 'my route.json', ...files, '--out', 'two', '--threads', '2']);
  expect(one.status).toBe(3);
  expect(two).toEqual({ ...one, stdout: one.stdout.replaceAll('written: one', 'written: two') });
  for (const name of readdirSync(join(folder, 'one'))) expect(read(`one/${name}`)).toBe(read(`two/${name}`));
});

test.each([
  { words: ['broken.gpx', 'missing.gpx'], about: 'none of the recordings could be read' },
  { route: 'missing.json', words: ['the runs/one left.gpx'], about: 'missing.json: no such file or folder' },
  { route: 'broken.gpx', words: ['the runs/one left.gpx'], about: 'broken.gpx: ' },
])('assess $words exits 1: $about', async ({ route: file = 'my route.json', words, about }) => {
  const { status, stdout, stderr } = await run(['assess', file, ...words, '--out', 'nothing']);
  expect({ status, stdout }).toEqual({ status: 1, stdout: '' });
  expect(stderr.trimEnd().split('\n').at(-1)).toContain(`datumline: ${about}`);
  noTrace(stderr);
  expect(existsSync(join(folder, 'nothing'))).toBe(false);
});

test('an output folder where no folders are made is named, and so is what is missing above it made', async () => {
  // procfs makes none, and says of each that it isn't there: Node's own way of making it and all above never ends
  const { status, stderr } = await run(['assess', 'my route.json', 'the runs/one left.gpx', '--out', '/proc/no/where']);
  expect(status).toBe(1);
  expect(stderr).toMatch(/^datumline: \/proc\/no\/where: [^\n]*\n$/);
  const deep = join('as', 'deep', 'as', 'this');
  expect((await run(['assess', 'my route.json', 'the runs/one left.gpx', '--out', deep])).status).toBe(0);
  expect(existsSync(join(folder, deep, 'report.html'))).toBe(true);
});

test('an output folder that is a file is named', async () => {
  const { status, stderr } = await run(['assess', 'my route.json', 'the runs/one left.gpx', '--out', 'broken.gpx']);
  expect(status).toBe(1);
  expect(stderr).toMatch(/^datumline: broken\.gpx[^\n]*\n$/);
});

const plan: TestFile = {
  version: 1,
  name: 'spring <test>',
  route: '../my route.json',
  runs: [
    {
      name: 'morning',
      recordings: [
        { file: '../the runs/three right.gpx', receiver: 'A', placement: 'left wrist' },
        { file: '../the runs/one left.gpx', receiver: 'A', placement: 'right wrist' },
        { file: '../broken.gpx', receiver: 'B' },
      ],
      exclusions: [{ from: 350, to: 420, reason: 'road works' }],
    },
    { name: 'evening', recordings: [{ file: '../the runs/one left.gpx', receiver: 'A' }] },
  ],
  options: { leverArm: 0.3 },
};

test('a test file makes a test of several runs one command, from any folder', async () => {
  write('tests/spring.json', JSON.stringify(plan));
  const { status, stdout, stderr } = await run(['assess', 'tests/spring.json', '--out', 'spring']);
  expect(status, stderr).toBe(3);
  expect(stderr).toMatch(/^datumline: left out: [^\n]*broken\.gpx: [^\n]+\n$/);
  expect(stdout).toMatch(
    /^section +receiver +runs +covered +off by +95 % over runs +side \(95 %\) +in corridor +line +morning +evening$/m,
  );
  expect(JSON.parse(read('spring/summary.json')).receivers).toEqual(['A']);
  expect(read('spring/report.html')).toContain('spring &lt;test&gt;');
  // a report is passed on: it names files, not folders
  expect(read('spring/report.html')).toMatch(/<strong>Left out:<\/strong> broken\.gpx: /);
  expect(read('spring/report.html')).not.toContain(folder);
  const morning = JSON.parse(read('spring/assessment-1.json'));
  expect(
    morning.recordings.map(({ name, receiver, placement, run }: Record<string, string>) => [
      name,
      receiver,
      placement,
      run,
    ]),
  ).toEqual([
    ['A, left wrist', 'A', 'left wrist', 'morning'],
    ['A, right wrist', 'A', 'right wrist', 'morning'],
  ]);
  expect(morning.route.excluded).toEqual(plan.runs[0].exclusions);
  expect(morning.method.options.leverArm).toBe(0.3);
  expect(JSON.parse(read('spring/assessment-2.json')).route.excluded).toEqual([]);
});

test.each([
  ['a key of another name', { ...plan, runs: [{ ...plan.runs[1], weather: 'wind' }] }, 'test.runs[0]'],
  ['no runs', { ...plan, runs: [] }, 'test.runs'],
  [
    'a recording without receiver',
    { ...plan, runs: [{ name: 'x', recordings: [{ file: 'a.gpx' }] }] },
    'test.runs[0].recordings[0]',
  ],
  ['a missing decoy', { ...plan, decoy: 'none.kml' }, 'none.kml: no such file'],
  ['another version', { ...plan, version: 2 }, 'test.version'],
])('a test file with %s exits 1 and names the place', async (_, document, place) => {
  write('tests/bad.json', JSON.stringify(document));
  const { status, stdout, stderr } = await run(['assess', 'tests/bad.json', '--out', 'bad']);
  expect({ status, stdout }).toEqual({ status: 1, stdout: '' });
  expect(stderr).toContain(place);
  expect(stderr.trimEnd().split('\n')).toHaveLength(1);
  noTrace(stderr);
});

test.each([
  { words: ['tests/spring.json', 'broken.gpx'], about: 'names its recordings itself' },
  { words: ['tests/spring.json', '--zone', 'Z'], about: 'states the "zone" of each recording' },
  { words: ['my route.json'], about: 'takes RECORDINGs after the ROUTE' },
])('assess $words is wrong usage', async ({ words, about }) => {
  write('tests/spring.json', JSON.stringify(plan));
  const { status, stderr } = await run(['assess', ...words, '--out', 'x']);
  expect(status).toBe(2);
  expect(stderr).toContain(about);
});

/** Three runs: A 1 m left, B 9 m right, beyond the corridor; C covers the lane only, in the first. */
const baselineTest = {
  version: 1,
  route: '../my route.json',
  runs: [1, 2, 3].map((k) => ({
    name: `run ${k}`,
    recordings: [
      { file: '../the runs/one left.gpx', receiver: 'A' },
      { file: `../the runs/nine right ${k}.gpx`, receiver: 'B' },
      ...(k < 3 ? [{ file: '../the runs/lane only.gpx', receiver: 'C' }] : []),
    ],
  })),
  options: { baseline: 'A' },
};

/** The lines of the table about a section, blanks for its name from the second on. */
const linesOf = (stdout: string, section: string) => {
  const lines = stdout.split('\n');
  const first = lines.findIndex((line) => line.startsWith(section));
  const next = lines.findIndex((line, i) => i > first && !line.startsWith(' '));
  return lines.slice(first, next);
};

test('the table over runs has side, coverage, corridor and the verdict; who covered little never stands first unmarked', async () => {
  const { status, stdout, stderr } = await run(['assess', 'tests/baseline.json', '--out', 'with baseline']);
  expect(status, stderr).toBe(0);
  const [a, b] = linesOf(stdout, 'quay, long');
  expect(a).toMatch(
    /^quay, long +A \(baseline\) +3 +\d+ % +1\.0 m .* 1\.0 m left \(1\.0–1\.0\) +100 % +kept, left +1\.0 +1\.0 +1\.0$/,
  );
  expect(b).toMatch(/^ +B +3 +\d+ % +9\.[12] m .* 9\.[12] m right \(.*\) +0 % +strayed right +9\.[01] /);
  const whole = linesOf(stdout, 'whole route');
  expect(
    whole.map(
      (line) =>
        line
          .trim()
          .split(/ {2,}/)
          .find((cell) => /^[ABC]( |$)/.test(cell))?.[0],
    ),
  ).toEqual([...'ABC']);
  expect(whole[2]).toMatch(/ C +2 +4\d % +\(0\.2 m\) /);
  expect(stdout).toContain('(…): less than half of the stretch was covered.');
  expect(stdout).toContain('On “quay, long”: “B” strayed to the right by 9.');
  const { baseline, pairs } = JSON.parse(read('with baseline/summary.json'));
  expect(baseline).toBe('A');
  expect(new Set(pairs.map(({ first, second }: Record<string, string>) => `${first} ${second}`))).toEqual(
    new Set(['A B', 'A C']),
  );
});

test('--baseline is asked for before the test file is, and of recordings without a receiver by their name', async () => {
  const { status, stdout } = await run(['assess', 'tests/baseline.json', '--baseline', 'B', '--out', 'another']);
  expect(status).toBe(0);
  expect(stdout).toContain('B (baseline)');
  expect(stdout).not.toContain('A (baseline)');
  expect(JSON.parse(read('another/assessment-1.json')).method.options.baseline).toBe('B');
  const files = ['the runs/three right.gpx', 'the runs/one left.gpx', 'the runs/nine right 1.gpx'];
  const words = ['assess', 'my route.json', ...files, '--baseline', 'one left', '--out', 'named'];
  expect((await run(words)).stdout).toMatch(/^quay, long +one left \(baseline\) /m);
  expect(JSON.parse(read('named/assessment.json')).pairs).toHaveLength(3 * 2);
});

test('a run without the baseline is told of, and no comparison rests on it', async () => {
  const { status, stderr } = await run(['assess', 'tests/baseline.json', '--baseline', 'C', '--out', 'partly there']);
  expect(status).toBe(0);
  expect(stderr).toBe('datumline: run "run 3" has no recording of the baseline "C": no comparison rests on it\n');
  const { baseline, pairs } = JSON.parse(read('partly there/summary.json'));
  expect(baseline).toBe('C');
  for (const { runs } of pairs) expect(runs).toBeLessThanOrEqual(2);
});

test.each([
  [
    ['tests/baseline.json', '--baseline', 'D'],
    2,
    '--baseline must be "A", "B" or "C", not "D". See "datumline assess --help"',
  ],
  [
    ['tests/wrong baseline.json'],
    1,
    'tests/wrong baseline.json: test.options.baseline must be "A", "B" or "C", not "D"',
  ],
  [['my route.json', 'the runs/one left.gpx', '--baseline', 'left'], 2, '--baseline must be "one left", not "left"'],
  [
    ['my route.json', 'elsewhere.gpx', 'the runs/one left.gpx', '--baseline', 'elsewhere'],
    1,
    'no recording of the baseline "elsewhere" could be placed on the route',
  ],
] as const)('a baseline that is not there: assess %j exits %i', async (words, exit, message) => {
  write('tests/wrong baseline.json', JSON.stringify({ ...baselineTest, options: { baseline: 'D' } }));
  const { status, stdout, stderr } = await run(['assess', ...words, '--out', 'no baseline']);
  expect({ status, stdout }).toEqual({ status: exit, stdout: '' });
  expect(stderr).toContain(message);
  expect(stderr.trimEnd().split('\n')).toHaveLength(1);
  expect(existsSync(join(folder, 'no baseline'))).toBe(false);
});
