import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Assessment, direct, routeBuilder, type TestFile, writeGpx } from 'datumline';
import type { Position } from 'geojson';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { besideRoute, steadyFixes } from '../support/besideRoute';
import { buildCommand } from '../support/commandLine';

const start: Position = [20, 0];
const quay = routeBuilder({ name: 'quay', lateral95: 0.1 })
  .start(start)
  .section('west', { halfWidth: 10 })
  .lineBy({ azimuth: 90, distance: 600 })
  .build();
const at = (along: number, right: number): Position => direct(direct(start, 90, along).position, 180, right).position;
const box = ([from, to]: number[], [a, b]: number[]) => [[at(from, a), at(to, a), at(to, b), at(from, b), at(from, a)]];
const feature = (properties: object, coordinates: unknown) => ({
  type: 'Feature',
  properties,
  geometry: { type: 'Polygon', coordinates },
});
const collection = (...features: object[]) => JSON.stringify({ type: 'FeatureCollection', features });
const recorded = (name: string, shift: number) =>
  writeGpx(
    besideRoute(
      quay,
      name,
      steadyFixes({ from: 0, to: 600 }, (s) => (s >= 90 + shift && s <= 210 ? 8 : 0)),
    ),
    {
      times: 'absolute',
    },
  );

const folder = mkdtempSync(join(tmpdir(), 'datumline areas '));
const write = (name: string, text: string) => writeFileSync(join(folder, name), text);
const read = (name: string) => readFileSync(join(folder, name), 'utf8');
let run: Awaited<ReturnType<typeof buildCommand>>;

beforeAll(async () => {
  run = await buildCommand(folder);
  write('route.json', JSON.stringify(quay.recipe));
  write('one.gpx', recorded('one', 0));
  write('two.gpx', recorded('two', 6));
  const road = feature({ area: 'road', kind: 'allowed' }, box([-20, 620], [-5, 5]));
  const mill = feature({ area: 'mill', kind: 'impossible' }, box([100, 160], [6, 20]));
  write('areas.geojson', collection(road, mill));
  write('open.geojson', collection(road, feature({ kind: 'allowed' }, [mill.geometry.coordinates, []])));
  write('around.geojson', collection(feature({ kind: 'water' }, box([0, 600], [30, 60]))));
  const runs = ['one', 'two'].map((name) => ({ name, recordings: [{ file: `${name}.gpx`, receiver: 'A' }] }));
  const file: TestFile = {
    version: 1,
    route: 'route.json',
    areas: 'areas.geojson',
    surroundings: 'around.geojson',
    runs,
  };
  write('test.json', JSON.stringify(file));
});
afterAll(() => rmSync(folder, { recursive: true }));

test('assess --areas says who went through what, and draws --surroundings', async () => {
  const words = ['assess', 'route.json', 'one.gpx', '--areas', 'areas.geojson', '--surroundings', 'around.geojson'];
  const { status, stdout } = await run([...words, '--out', 'out']);
  expect(status).toBe(0);
  expect(stdout).toContain('“one” went through “mill” for 60.0 m, 20 s.');
  expect(stdout).toMatch(/“one” lay inside “road” on 79 % of its line/);
  const { passages, route } = JSON.parse(read('out/assessment.json')) as Assessment;
  expect(passages.map(({ area }) => area)).toEqual([null, 'mill']);
  expect(route.areas!.map(({ name }) => name)).toEqual(['road', 'mill']);
  expect(read('out/report.html')).toMatch(/dl-water/);
  expect(read('out/report.html')).toContain('state no licence');
  expect(read('out/rows.csv')).toContain('insideImpossible');
});

test('the pictures to publish have what surrounds the line under them', async () => {
  const words = ['assess', 'route.json', 'one.gpx', '--out', 'drawn', '--pictures', 'svg'];
  expect((await run([...words, '--surroundings', 'around.geojson'])).status).toBe(0);
  for (const name of ['plan', 'stretch-1-west-plan']) {
    expect(read(`drawn/${name}.svg`)).toContain('dl-water');
    expect(read(`drawn/${name}.svg`)).toContain('The surroundings state no licence');
  }
  expect(read('drawn/strip.svg')).not.toContain('<path class="dl-ground');
});

test('a line has them as a file, as GeoJSON itself, or by its test', async () => {
  const line = { route: 'route.json', recording: 'one.gpx' };
  const geoJson = JSON.parse(read('areas.geojson'));
  const whole = JSON.parse(read('test.json'));
  const open = structuredClone(geoJson);
  open.features[1].geometry.coordinates[0].pop();
  const lines = [
    { ...line, areas: 'areas.geojson' },
    { ...line, areas: geoJson },
    { test: 'test.json' },
    { test: { ...whole, runs: whole.runs.slice(0, 1) } },
    line,
    { ...line, areas: 'none.geojson' },
    { ...line, areas: open },
    { ...line, areas: 7 },
    { ...line, areas: null },
    { test: 'test.json', areas: 'areas.geojson' },
  ];
  const input = lines.map((one) => `${JSON.stringify(one)}\n`).join('');
  const { status, stdout } = await run(['assess', '--ndjson'], input);
  expect(status).toBe(3);
  const [file, inline, test, asObject, without, ...wrong] = stdout
    .trimEnd()
    .split('\n')
    .map((one) => JSON.parse(one));
  const { rows, passages } = JSON.parse(read('out/assessment.json')) as Assessment;
  expect(file.rows.map(({ run: _, ...row }: object & { run: unknown }) => row)).toEqual(rows);
  expect(file.passages).toEqual(passages.map((passage) => ({ run: null, ...passage })));
  for (const key of ['rows', 'passages']) expect(inline[key]).toEqual(file[key]);
  expect(test.passages.map(({ run: day, area }: never) => [day, area])).toEqual(
    ['one', 'two'].flatMap((day) => [
      [day, null],
      [day, 'mill'],
    ]),
  );
  expect(test.summary.rows.at(-1).insideAllowed).toBeCloseTo(0.79, 1);
  expect(asObject.passages).toEqual(test.passages.slice(0, 2));
  expect(without.passages).toBeUndefined();
  expect(without.rows.at(-1).insideAllowed).toBeNull();
  expect(wrong.map(({ error }) => error.message)).toEqual([
    'none.geojson: no such file or folder',
    expect.stringContaining(
      'line 7: areas: features[1].geometry.coordinates[0][3] must be the first position of the ring again',
    ),
    'line 8: "areas" must be a FILE of polygons, or GeoJSON itself',
    expect.stringContaining('line 9: areas: json must be a GeoJSON FeatureCollection'),
    'line 10: "test" names its areas itself: give no "areas"',
  ]);
});

test('a test file names them for all of its runs', async () => {
  const { status, stdout } = await run(['assess', 'test.json', '--out', 'whole']);
  expect(status).toBe(0);
  expect(stdout).toMatch(/“A” went through “mill” for 12\d m, 4\d s \(2 times\)\./);
  const summary = JSON.parse(read('whole/summary.json'));
  expect(summary.rows.at(-1).insideAllowed).toBeCloseTo(0.79, 1);
});

test.each([
  [['assess', 'test.json', '--out', 'x', '--areas', 'areas.geojson'], 2, 'a test file states its "areas" itself'],
  [['assess', 'route.json', 'one.gpx', '--out', 'x', '--areas', ''], 2, '--areas must not be empty'],
  [['assess', 'route.json', 'one.gpx', '--out', 'x', '--areas', 'none.geojson'], 1, 'none.geojson'],
  [['assess', 'route.json', 'one.gpx', '--out', 'x', '--areas', 'around.geojson'], 1, 'at least one polygon'],
  [['assess', 'route.json', 'one.gpx', '--out', 'x', '--areas', 'open.geojson'], 1, 'open.geojson'],
  [['assess', 'route.json', 'one.gpx', '--out', 'x', '--surroundings', 'one.gpx'], 1, 'one.gpx'],
])('refused: %j', async (words, code, message) => {
  const { status, stderr } = await run(words);
  expect(status).toBe(code);
  expect(stderr).toContain(message);
});
