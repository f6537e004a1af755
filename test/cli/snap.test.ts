import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { direct, pointAt, routeBuilder } from 'datumline';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { buildCommand, type Outcome } from '../support/commandLine';

const start = [2.1, 61.4];
const route = routeBuilder()
  .start(start)
  .section('quay, "old"')
  .lineTo(direct(start, 90, 200).position)
  .build();
const fixes = Array.from({ length: 50 }, (_, i) => {
  const [lon, lat] = direct(direct(start, 90, 4 * i).position, 180, 2).position;
  return { lon, lat, time: new Date(Date.UTC(2031, 4, 1, 8, 0, i)).toISOString() };
});
const gpx = `<gpx><trk><trkseg>${fixes.map(({ lon, lat, time }) => `<trkpt lat="${lat}" lon="${lon}"><time>${time}</time></trkpt>`).join('')}</trkseg></trk></gpx>`;

const folder = mkdtempSync(join(tmpdir(), 'datumline snap '));
let run: (words: readonly string[], input?: string) => Promise<Outcome>;

beforeAll(async () => {
  run = await buildCommand(folder);
  writeFileSync(join(folder, 'route.json'), JSON.stringify(route.recipe));
  writeFileSync(join(folder, 'my ride.gpx'), gpx);
  writeFileSync(join(folder, 'zoneless.gpx'), gpx.replaceAll('Z<', '<'));
  writeFileSync(join(folder, 'two.gpx'), gpx.replace(/<trk>.*<\/trk>/, '$&$&'));
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** The fields of a line of CSV (RFC 4180). */
const fields = (line: string) =>
  [...line.matchAll(/(?:^|,)(?:"((?:[^"]|"")*)"|([^,]*))/g)].map(
    ([, quoted, plain]) => quoted?.replaceAll('""', '"') ?? plain,
  );

test('snap prints one row a fix: metres along and right of the route', async () => {
  const { status, stdout, stderr } = await run(['snap', 'route.json', 'my ride.gpx']);
  expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
  const [head, ...rows] = stdout.trimEnd().split('\r\n').map(fields);
  expect(head.slice(0, 4)).toEqual(['fix', 'time (s)', 'along track (m)', 'cross track (m; right positive)']);
  expect(rows).toHaveLength(50);
  for (const [i, row] of rows.entries()) {
    expect(row).toHaveLength(head.length);
    expect(row.slice(0, 2)).toEqual([String(i), String(i)]);
    expect(Number(row[2])).toBeCloseTo(4 * i, 2);
    expect(Number(row[3])).toBeCloseTo(2, 2); // travelling east, south is right
    expect([row[5], row[8]]).toEqual(['quay, "old"', 'on']);
  }
});

test('snap --out writes the same table', async () => {
  const printed = await run(['snap', 'route.json', 'my ride.gpx']);
  expect(await run(['snap', 'route.json', 'my ride.gpx', '--out', 'ride.csv'])).toMatchObject({
    status: 0,
    stderr: '',
  });
  expect(readFileSync(join(folder, 'ride.csv'), 'utf8')).toBe(printed.stdout);
});

test('snap --out for a map has what lies on the route and no times of day', async () => {
  // 100 m before the route: somebody's home
  const home = direct(start, 270, 100).position;
  const from = `<trkpt lat="${home[1]}" lon="${home[0]}"><time>2031-05-01T07:59:00Z</time></trkpt>`;
  writeFileSync(join(folder, 'from home.gpx'), gpx.replace('<trkseg>', `<trkseg>${from}`));
  expect(await run(['snap', 'route.json', 'from home.gpx', '--out', 'ride.geojson'])).toMatchObject({ status: 0 });
  const text = readFileSync(join(folder, 'ride.geojson'), 'utf8');
  expect(text.includes('"2031')).toBe(false);
  expect(text.includes(String(home[0]).slice(0, 8))).toBe(false);
  const points = JSON.parse(text).features.filter(
    (feature: { geometry: { type: string } }) => feature.geometry.type === 'Point',
  );
  expect(points).toHaveLength(50);
  expect(points[9].properties).toMatchObject({ section: 'quay, "old"', state: 'on' });
  expect(points[9].properties.crossTrack).toBeCloseTo(2, 2);
});

describe('the table and the map', () => {
  const ring = direct(start, 90, 200).position;
  const laps = routeBuilder()
    .start(start)
    .laps(2, (lap) =>
      lap
        .section('lap', { halfWidth: 8 })
        .lineTo(ring)
        .lineTo(direct(ring, 0, 100).position)
        .lineTo(direct(start, 0, 100).position)
        .lineTo(start),
    )
    .section('quay', { from: 20, to: 120, halfWidth: 4 })
    .build();
  // 100 m before the start and back past it at the end; noise that would place the trimmed recording otherwise
  const home = Array.from({ length: 30 }, (_, i) => direct(start, 270, 100 - 3.4 * i).position);
  const ridden = Array.from({ length: 300 }, (_, i) => {
    const { position, azimuth } = pointAt(laps, Math.min(laps.length, 4 * i));
    return direct(position, azimuth + 90, 2 * Math.sin(i / 3)).position;
  });
  const track = [...home, ...ridden]
    .map(([lon, lat], i) => {
      const time = new Date(Date.UTC(2031, 4, 1, 8, 0, i)).toISOString();
      return `<trkpt lat="${lat}" lon="${lon}"><time>${time}</time></trkpt>`;
    })
    .join('');
  const rowsOf = (text: string) => {
    const [head, ...rows] = text.trimEnd().split('\r\n').map(fields);
    return rows.map((row) => Object.fromEntries(head.map((key, k) => [key, row[k]])));
  };

  beforeAll(() => {
    writeFileSync(join(folder, 'laps.json'), JSON.stringify(laps.recipe));
    writeFileSync(join(folder, 'laps.gpx'), `<gpx><trk><trkseg>${track}</trkseg></trk></gpx>`);
  });

  test('give each fix one place, by one number', async () => {
    expect(await run(['snap', 'laps.json', 'laps.gpx', '--out', 'laps.csv'])).toMatchObject({ status: 0 });
    expect(await run(['snap', 'laps.json', 'laps.gpx', '--out', 'laps.geojson'])).toMatchObject({ status: 0 });
    const rows = rowsOf(readFileSync(join(folder, 'laps.csv'), 'utf8'));
    const points = JSON.parse(readFileSync(join(folder, 'laps.geojson'), 'utf8')).features.filter(
      ({ properties }: { properties: { kind: string } }) => properties.kind === 'fix',
    );
    expect(points.length).toBeGreaterThan(250);
    expect(points[0].properties.fix).toBeGreaterThan(10);
    for (const { properties, geometry } of points) {
      const row = rows[properties.fix];
      expect(Number(row['along track (m)'])).toBeCloseTo(properties.alongTrack, 2);
      expect(Number(row['cross track (m; right positive)'])).toBeCloseTo(properties.crossTrack, 2);
      expect(Number(row['distance (m)'])).toBeCloseTo(properties.distance, 2);
      expect([row.section, row.lap, row.state]).toEqual([
        properties.section,
        `${properties.lap ?? ''}`,
        properties.state,
      ]);
      expect([Number(row.longitude), Number(row.latitude)]).toEqual(geometry.coordinates);
    }
    // positions of fixes on the route alone
    const shown = rows.filter(({ longitude }) => longitude !== '').map(({ fix }) => Number(fix));
    expect(shown).toEqual(points.map(({ properties }: { properties: { fix: number } }) => properties.fix));
  });

  test('name the innermost section, what it lies in, and the lap', async () => {
    const rows = rowsOf((await run(['snap', 'laps.json', 'laps.gpx'])).stdout);
    const at = (from: number, to: number) =>
      rows.filter((row) => Number(row['along track (m)']) > from && Number(row['along track (m)']) < to);
    for (const row of at(30, 110)) expect(row).toMatchObject({ section: 'quay', 'also in': 'lap', lap: '' });
    for (const row of at(150, 590)) expect(row).toMatchObject({ section: 'lap', 'also in': '', lap: '1' });
    for (const row of at(610, 1190)) expect(row).toMatchObject({ section: 'lap', 'also in': '', lap: '2' });
    expect(rows.filter(({ state }) => state === 'on').at(-1)).toMatchObject({ section: 'lap', lap: '2' });
  });

  test('give times of day where they are asked for', async () => {
    const [without, asked] = await Promise.all([
      run(['snap', 'laps.json', 'laps.gpx']),
      run(['snap', 'laps.json', 'laps.gpx', '--times', 'absolute']),
    ]);
    expect(without.stdout).not.toContain('2031-');
    const rows = rowsOf(asked.stdout);
    expect(rows[100]['time (UTC)']).toBe('2031-05-01T08:01:40.000Z');
    expect(rows[0]).toMatchObject({ longitude: '', latitude: '', 'time (UTC)': '' });
    await run(['snap', 'laps.json', 'laps.gpx', '--times', 'absolute', '--out', 'timed.geojson']);
    expect(readFileSync(join(folder, 'timed.geojson'), 'utf8')).toContain('"2031-05-01T08:01:40Z"');
    const { status, stderr } = await run(['snap', 'laps.json', 'laps.gpx', '--times', 'local']);
    expect({ status, stderr }).toEqual({
      status: 2,
      stderr: 'datumline: --times must be relative or absolute, not "local". See "datumline snap --help"\n',
    });
  });
});

test('a zone is asked for and taken', async () => {
  const without = await run(['snap', 'route.json', 'zoneless.gpx']);
  expect({ status: without.status, stdout: without.stdout }).toEqual({ status: 1, stdout: '' });
  expect(without.stderr).toMatch(/^datumline: zoneless\.gpx: [^\n]+\n$/);
  expect(await run(['snap', 'route.json', 'zoneless.gpx', '--zone', '+02:00'])).toMatchObject({ status: 0 });
});

test('two recordings in one file are refused by name', async () => {
  const { status, stderr } = await run(['snap', 'route.json', 'two.gpx']);
  expect(status).toBe(1);
  expect(stderr).toContain('two.gpx: expected one recording, found 2: "two 1", "two 2"');
});

const lines = [
  { id: 1, route: 'route.json', recording: 'my ride.gpx' },
  { id: 2, route: 'route.json', recording: 'missing.gpx' },
  'no object',
  { id: 4, route: 'route.json' },
  { id: 5, route: 'none.json', recording: 'my ride.gpx' },
  { id: 6, route: 'route.json', recording: 'zoneless.gpx' },
  { id: 7, route: 'route.json', recording: 'zoneless.gpx', zone: 'UTC' },
  { id: 8, route: 'route.json', recording: 'my ride.gpx', receiver: 7 },
];
const input = `${lines.map((line) => JSON.stringify(line)).join('\n')}\n\n{"broken":\n`;

test.each([1, 2])('snap --ndjson on %i threads answers each line in order, faults included', async (threads) => {
  const { status, stdout, stderr } = await run(['snap', '--ndjson', '--threads', String(threads)], input);
  expect({ status, stderr }).toEqual({ status: 3, stderr: '' });
  const answers = stdout
    .trimEnd()
    .split('\n')
    .map((line) => JSON.parse(line));
  expect(answers.map(({ line }) => line)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 10]);
  expect(answers.map(({ id, line, error }) => [id ?? line, error?.message ?? 'fine'])).toEqual([
    [1, 'fine'],
    [2, 'missing.gpx: no such file or folder'],
    [3, 'line 3: not a JSON object'],
    [4, 'line 4: "recording" must be a non-empty string'],
    [5, 'none.json: no such file or folder'],
    [6, expect.stringContaining('zoneless.gpx: ')],
    [7, 'fine'],
    [8, 'line 8: "receiver" must be a non-empty string'],
    [10, 'line 10: not valid JSON: it ends too soon, at line 1, column 11'],
  ]);
  expect(answers[0]).toMatchObject(lines[0] as object);
  expect(answers[0].crossTrack).toHaveLength(50);
  expect(answers[0].crossTrack[7]).toBeCloseTo(2, 2);
  expect(answers[6].alongTrack).toEqual(answers[0].alongTrack);
});

test('assess --ndjson gives rows and keeps the keys of others', async () => {
  const { status, stdout } = await run(
    ['assess', '--ndjson'],
    JSON.stringify({ ...(lines[0] as object), run: 'one', mine: [1] }),
  );
  expect(status).toBe(0);
  const answer = JSON.parse(stdout);
  expect(answer).toMatchObject({ id: 1, run: 'one', mine: [1] });
  expect(answer.rows.at(-1)).toMatchObject({ recording: 'my ride', section: null });
  expect(answer.rows.at(-1).bias).toBeCloseTo(2, 2);
});

test('nothing in, nothing out', async () => {
  expect(await run(['snap', '--ndjson'], '')).toEqual({ status: 0, stdout: '', stderr: '' });
});
