import {
  chmodSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Assessment, direct, indexRoute, routeBuilder, rowOf, type TestFile, type TestSummary } from 'datumline';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { buildCommand, type Outcome } from '../support/commandLine';

// An invented quay in open sea, two receivers carried along it on two days, and a way home of 400 m that is nobody's business.
const start: [number, number] = [2.1, 61.4];
const on = (metres: number, aside = 0) => direct(direct(start, 90, metres).position, 180, aside).position;
const route = routeBuilder({ name: 'quay' })
  .start(start)
  .section('west', { halfWidth: 5 })
  .lineTo(on(200))
  .section('east', { halfWidth: 5 })
  .lineTo(on(400))
  .build();
const fixes = (day: number, right: number) =>
  Array.from({ length: 300 }, (_, i) => {
    const [lon, lat] = i <= 200 ? on(2 * i, right) : on(400, right - 4 * (i - 200));
    return { lon, lat, time: new Date(Date.UTC(2031, 4, day, 8, 0, i)).toISOString() };
  });
const gpx = (day: number, right: number) =>
  `<gpx><trk><trkseg>${fixes(day, right)
    .map(({ lon, lat, time }) => `<trkpt lat="${lat}" lon="${lon}"><time>${time}</time></trkpt>`)
    .join('')}</trkseg></trk></gpx>`;
const csv = (day: number, right: number) =>
  `time,latitude,longitude\n${fixes(day, right)
    .map(({ lon, lat, time }) => `${time.slice(0, -5)},${lat},${lon}\n`)
    .join('')}`;

const folder = mkdtempSync(join(tmpdir(), 'datumline folder '));
const read = (name: string) => readFileSync(join(folder, name), 'utf8');
let run: (words: readonly string[], input?: string) => Promise<Outcome>;

beforeAll(async () => {
  run = await buildCommand(folder);
  mkdirSync(join(folder, 'rides'));
  writeFileSync(join(folder, 'route.json'), JSON.stringify(route.recipe));
  writeFileSync(join(folder, 'rides/alder run 1.gpx'), gpx(1, 3));
  writeFileSync(join(folder, 'rides/alder run 2.gpx'), gpx(2, 2));
  writeFileSync(join(folder, 'rides/birch_2031-05-01.csv'), csv(1, -1));
  writeFileSync(join(folder, 'rides/birch_2031-05-02.csv'), csv(2, -2));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('datumline test', () => {
  test('writes a test file, each guess said, and never over one that is there', async () => {
    const words = ['test', 'rides', '--route', 'route.json', '--zone', 'Z', '--out', 'spring.json'];
    const { status, stdout, stderr } = await run(words);
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    for (const sentence of [
      '“run 1”: alder run 1.gpx, birch_2031-05-01.csv, recorded at the same time.',
      '“run 2”: alder run 2.gpx, birch_2031-05-02.csv, recorded at the same time.',
      'Receiver “alder”, by the names “alder run 1”, “alder run 2”.',
      'Receiver “birch”, by the names “birch_2031-05-01”, “birch_2031-05-02”.',
    ]) {
      expect(stdout).toContain(`- ${sentence}\n`);
    }
    const written: TestFile = JSON.parse(read('spring.json'));
    expect(written).toEqual({
      version: 1,
      name: 'rides',
      route: 'route.json',
      runs: [1, 2].map((k) => ({
        name: `run ${k}`,
        recordings: [
          { file: `rides/alder run ${k}.gpx`, receiver: 'alder' },
          { file: `rides/birch_2031-05-0${k}.csv`, receiver: 'birch', zone: 'Z' },
        ],
      })),
    });
    expect(await run(words)).toEqual({
      status: 1,
      stdout: '',
      stderr: 'datumline: spring.json: is there already; give another --out, or --overwrite\n',
    });
    expect(await run([...words, '--overwrite'])).toMatchObject({ status: 0, stderr: '' });
  });

  test('what cannot be read is named, and the status is 3', async () => {
    const { status, stdout, stderr } = await run(['test', 'rides', '--route', 'route.json', '--out', 'zoneless.json']);
    expect(status).toBe(3);
    expect(stderr.match(/^datumline: left out: rides\/birch_2031-05-0\d\.csv: /gm)).toHaveLength(2);
    expect(stdout).toContain('written: zoneless.json');
  });

  test('a link that leads round and a folder that is not to be read leave the others', async () => {
    mkdirSync(join(folder, 'odd', 'closed'), { recursive: true });
    writeFileSync(join(folder, 'odd', 'right.gpx'), gpx(1, 3));
    symlinkSync('round', join(folder, 'odd', 'round'));
    chmodSync(join(folder, 'odd', 'closed'), 0);
    const { status, stderr } = await run(['test', 'odd', '--route', 'route.json', '--out', 'odd.json']);
    chmodSync(join(folder, 'odd', 'closed'), 0o700);
    expect(status).toBe(3);
    expect(stderr).toContain('datumline: left out: odd/round: links to itself');
    // whoever may read all may read this too
    if (process.getuid?.() !== 0) expect(stderr).toContain('datumline: left out: odd/closed: permission denied');
    expect(JSON.parse(read('odd.json')).runs).toHaveLength(1);
  });

  test.each([
    [['test', 'rides'], 2, 'test needs --route FILE'],
    [['test', 'nowhere', '--route', 'route.json'], 1, 'nowhere: no such file or folder'],
    [['test', 'rides', '--route', 'none.json'], 1, 'none.json: no such file or folder'],
  ])('%j exits %i', async (words, status, sentence) => {
    const ended = await run(words);
    expect({ status: ended.status, stdout: ended.stdout }).toEqual({ status, stdout: '' });
    expect(ended.stderr).toContain(`datumline: ${sentence}`);
  });
});

describe('tables to use', () => {
  const rowsOf = (text: string) => {
    const [head, ...rows] = text
      .trimEnd()
      .split('\r\n')
      .map((line) => line.split(','));
    return rows.map((row) => Object.fromEntries(head.map((key, k) => [key.replace(/"/g, ''), row[k]])));
  };

  beforeAll(async () => {
    await run(['test', 'rides', '--route', 'route.json', '--zone', 'Z', '--out', 'tables.json']);
    await run(['assess', 'tables.json', '--table', 'wide', '--fixes', '--out', 'tables']);
    await run(['assess', 'tables.json', '--fixes', '--times', 'absolute', '--out', 'timed']);
  }, 60_000);

  test('stretches.csv has a row a stretch and the receivers beside each other', () => {
    const table = read('tables/stretches.csv').replace(/"([^"]*)"/g, (_, cell: string) => cell.replaceAll(',', ';'));
    const rows = rowsOf(table);
    expect(rows.map(({ section }) => section)).toEqual(['west', 'east', 'whole route']);
    const summary: TestSummary = JSON.parse(read('tables/summary.json'));
    for (const row of rows) {
      const section = row.section === 'whole route' ? null : row.section;
      for (const receiver of ['alder', 'birch']) {
        const of = summary.rows.find((one) => one.receiver === receiver && one.section === section)!;
        expect(Number(row[`${receiver}: off by (m)`])).toBeCloseTo(of.meanAbsolute!, 9);
        expect(Number(row[`${receiver}: side (m; right positive)`])).toBeCloseTo(of.bias!, 9);
        expect(row[`${receiver}: line`]).toBe(of.lineVerdict);
      }
    }
    expect(Number(rows[0]['alder: off by (m)'])).toBeCloseTo(2.5, 1);
  });

  test('fixes.csv has every fix on the route at the place it was judged by, and nobody’s way home', () => {
    const rows = rowsOf(read('tables/fixes.csv'));
    expect(rows.length).toBeGreaterThan(4 * 190);
    const index = indexRoute(route);
    for (const { longitude, latitude } of rows) {
      expect(index.nearest([Number(longitude), Number(latitude)])!.distance).toBeLessThanOrEqual(50);
    }
    const mine = rows.filter(
      ({ receiver, run: of, section }) => receiver === 'alder' && of === 'run 1' && section === 'west',
    );
    const mean = mine.reduce((sum, row) => sum + Number(row['cross track (m; right positive)']) / mine.length, 0);
    const assessment: Assessment = JSON.parse(read('tables/assessment-1.json'));
    expect(mean).toBeCloseTo(rowOf(assessment, { recording: 'alder', section: 'west' })!.bias!, 1);
    expect(Number(mine[50]['along track (m)'])).toBeCloseTo(100, 0);
    expect(Number(mine[50]['time (s)'])).toBe(50);
  });

  test('times of day stand in it where they are asked for, in nothing else', () => {
    const [first] = rowsOf(read('timed/fixes.csv'));
    expect(first['time (UTC)']).toBe('2031-05-01T08:00:00.000Z');
    for (const name of readdirSync(join(folder, 'tables')))
      expect(read(`tables/${name}`), name).not.toContain('2031-05');
  });

  test.each([
    [['--table', 'long'], 0],
    [['--table', 'broad'], 2],
  ])('assess %j exits %i', async (words, status) => {
    expect((await run(['assess', 'tables.json', ...words, '--out', 'once'])).status).toBe(status);
    if (status === 0) expect(readdirSync(join(folder, 'once'))).not.toContain('stretches.csv');
  });
});

describe('one given for the other is told', () => {
  test.each([
    ['route.json', 'route.json: a route, not a recording: the ROUTE comes first'],
    ['drawn.geojson', 'drawn.geojson: a route, not a recording: the ROUTE comes first'],
    ['tables.json', 'tables.json: a test file, not a recording'],
    ['empty.gpx', 'empty.gpx: an empty file'],
  ])('%s as a recording', async (file, sentence) => {
    await run(['route', 'route.json', '--out', 'drawn.geojson']);
    writeFileSync(join(folder, 'empty.gpx'), '');
    const { status, stderr } = await run(['snap', 'route.json', file]);
    expect({ status, stderr }).toEqual({ status: 1, stderr: `datumline: ${sentence}\n` });
  });

  test('a recording as the route', async () => {
    const { status, stderr } = await run(['snap', 'rides/alder run 1.gpx', 'rides/alder run 2.gpx']);
    expect(status).toBe(0);
    expect(stderr).toContain(
      'datumline: rides/alder run 1.gpx: taken as the line travelled, though it has times as a recording has; the ROUTE comes first\n',
    );
  });
});
