import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { routeBuilder, routeFromRecipe } from 'datumline';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { buildCommand, type Outcome } from '../support/commandLine';

const folder = mkdtempSync(join(tmpdir(), 'datumline route '));
const route = routeBuilder({ name: 'quay' })
  .start([5, 60])
  .section('long side', { halfWidth: 5 })
  .lineTo([5.01, 60])
  .build();
const full = routeBuilder({ name: 'quay', lateral95: 0.5 })
  .start([5, 60])
  .provenance({ source: 'orthophoto' })
  .section('long side', { halfWidth: 5 })
  .lineTo([5.01, 60])
  .mark('bench', { near: [5.005, 60] })
  .build();
let run: (words: readonly string[], input?: string) => Promise<Outcome>;

beforeAll(async () => {
  run = await buildCommand(folder);
  writeFileSync(join(folder, 'my route.json'), JSON.stringify(route.recipe));
  writeFileSync(join(folder, 'full.json'), JSON.stringify(full.recipe));
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

test('route prints length, sections and what is not stated', async () => {
  const { status, stdout, stderr } = await run(['route', 'my route.json']);
  expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
  // 0.01° of longitude at 60° N: 558.00 m, N cos φ Δλ with N from NGA.STND.0036's axes
  expect(stdout).toContain('quay: 558.0 m');
  expect(stdout).toContain('lateral uncertainty (95 %): not stated; verdicts will take the line as exact');
  expect(stdout).toMatch(/^long side +0\.0 +558\.0 +558\.0 +5\.0$/m);
});

test('a route of 640 km prints how well it is known (its 128 000 vertices overflowed the stack)', async () => {
  const far = routeBuilder({ name: 'far', lateral95: 2 }).start([5, 60]).lineBy({ azimuth: 90, distance: 640_000 });
  writeFileSync(join(folder, 'far.json'), JSON.stringify(far.build().recipe));
  const { status, stdout } = await run(['route', 'far.json']);
  expect(status).toBe(0);
  expect(stdout).toContain('lateral uncertainty (95 %): up to 2.0 m');
});

test('route --out writes the recipe, which builds the same route again', async () => {
  const { status, stdout } = await run(['route', 'my route.json', '--out', 'again.json']);
  expect(status).toBe(0);
  expect(stdout).toContain('written: again.json');
  const again = routeFromRecipe(JSON.parse(readFileSync(join(folder, 'again.json'), 'utf8')));
  expect(again).toEqual(route);
});

test.each(['.gpx', '.kml'])(
  'route --out writes %s, which is the same line again; what it lacks is said',
  async (ending) => {
    expect(await run(['route', 'full.json', '--out', `line${ending}`])).toMatchObject({
      status: 0,
      stderr:
        `datumline: line${ending}: it holds the line, its marks and the edges of the corridor, but not ` +
        'its sections other than in words, how well it is known and its sources; .json and .geojson do\n',
    });
    const text = readFileSync(join(folder, `line${ending}`), 'utf8');
    for (const said of ['bench', 'long side: 0.0–558.0 m, half width 5 m']) expect(text).toContain(said);
    const { status, stdout } = await run(['route', `line${ending}`]);
    expect(status).toBe(0);
    expect(stdout).toContain('quay: 558.0 m');
  },
);

test('what a file of lines holds all of is said to lack nothing, and when a mark was passed is said to be missing', async () => {
  const lines = routeBuilder().start([5, 60]).lineTo([5.01, 60]);
  writeFileSync(join(folder, 'plain.json'), JSON.stringify(lines.mark('bench').build().recipe));
  expect(await run(['route', 'plain.json', '--out', 'plain.gpx'])).toMatchObject({ status: 0, stderr: '' });
  writeFileSync(join(folder, 'timed.json'), JSON.stringify(lines.mark('post', { time: 1e12 }).build().recipe));
  expect((await run(['route', 'timed.json', '--out', 'timed.gpx'])).stderr).toContain(
    'but not when its marks were passed; .json and .geojson do',
  );
});

test('route --out as GeoJSON keeps all of it', async () => {
  expect(await run(['route', 'full.json', '--out', 'full.geojson'])).toMatchObject({ status: 0, stderr: '' });
  expect(await run(['route', 'full.geojson', '--out', 'full again.json'])).toMatchObject({ status: 0, stderr: '' });
  expect(readFileSync(join(folder, 'full again.json'), 'utf8')).toBe(`${JSON.stringify(full.recipe, null, 2)}\n`);
});

test('a byte order mark before JSON is passed over', async () => {
  writeFileSync(join(folder, 'marked.json'), `\ufeff${JSON.stringify(route.recipe)}`);
  expect(await run(['route', 'marked.json'])).toEqual(await run(['route', 'my route.json']));
});

test.each(['.geojson'])('route --out writes %s, which is the same line again', async (ending) => {
  expect(await run(['route', 'my route.json', '--out', `line${ending}`])).toMatchObject({ status: 0, stderr: '' });
  const { status, stdout } = await run(['route', `line${ending}`]);
  expect(status).toBe(0);
  expect(stdout).toContain('quay: 558.0 m');
});

test.each([
  { name: 'missing', content: undefined, sentence: 'missing: no such file or folder' },
  { name: 'empty', content: '', sentence: 'empty: ' },
  {
    name: 'cut.json',
    content: '{"version": 1,\n "steps": [',
    sentence: 'cut.json: not valid JSON: it ends too soon, at line 2, column 12',
  },
  {
    name: 'typo.json',
    content: '{"version": 1,\n "steps": [},\n',
    sentence: 'typo.json: not valid JSON at line 2, column 12',
  },
  { name: 'test.json', content: '{"runs": []}', sentence: 'test.json: a test file, not a route' },
  { name: 'binary', content: '\u0000\u0001\u0002', sentence: 'binary: ' },
])('route of $name exits 1 with one sentence that names the file', async ({ name, content, sentence }) => {
  if (content !== undefined) writeFileSync(join(folder, name), content);
  const { status, stdout, stderr } = await run(['route', name]);
  expect(stderr.startsWith(`datumline: ${sentence}`), stderr).toBe(true);
  expect(stderr.trimEnd().split('\n')).toHaveLength(1);
  expect(stderr).not.toMatch(/\n\s+at |node:internal|\.js:\d/);
  expect({ status, stdout }).toEqual({ status: 1, stdout: '' });
});

test('a folder that cannot be written to is named', async () => {
  const { status, stderr } = await run(['route', 'my route.json', '--out', 'no folder/again.json']);
  expect({ status, stderr }).toEqual({
    status: 1,
    stderr: 'datumline: no folder/again.json: no such file or folder\n',
  });
});
