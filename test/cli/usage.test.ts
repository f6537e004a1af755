import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { routeBuilder } from 'datumline';
import { afterAll, beforeAll, expect, test } from 'vitest';
import manifest from '../../package.json';
import { buildCommand, type Outcome } from '../support/commandLine';

const folder = mkdtempSync(join(tmpdir(), 'datumline usage '));
let run: (words: readonly string[], input?: string) => Promise<Outcome>;

beforeAll(async () => {
  run = await buildCommand(folder);
  const { recipe } = routeBuilder({ name: 'quay' })
    .start([5, 60])
    .section('quay', { halfWidth: 5 })
    .lineTo([5.01, 60])
    .build();
  writeFileSync(join(folder, 'my route.json'), JSON.stringify(recipe));
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

test.each([
  { words: [], about: 'missing command: assess, combine, page, plan, route, snap or test' },
  { words: ['judge'], about: 'unknown command "judge"' },
  { words: ['toString'], about: 'unknown command "toString"' },
  { words: ['route'], about: 'route takes one FILE, not 0' },
  { words: ['route', 'a', 'b'], about: 'route takes one FILE, not 2' },
  { words: ['route', 'my route.json', '--zone', 'Z'], about: "Unknown option '--zone'" },
  { words: ['route', 'my route.json', '--out', 'x.shp'], about: '--out must end in' },
  { words: ['snap', 'my route.json'], about: 'snap takes one ROUTE and one RECORDING, not 1' },
  { words: ['assess'], about: 'assess takes a ROUTE and RECORDINGs' },
  { words: ['assess', 'my route.json', 'a.gpx'], about: 'assess needs --out DIR' },
  { words: ['assess', 'my route.json', 'a.gpx', '--out'], about: "Option '--out <value>' argument missing" },
  { words: ['assess', 'my route.json', 'a.gpx', '--out', ''], about: '--out must not be empty' },
  {
    words: ['assess', 'my route.json', 'a.gpx', '--out', 'x', '--times', 'absolute'],
    about: '--times is for fixes.csv: it needs --fixes',
  },
  {
    words: ['assess', 'my route.json', 'a.gpx', '--out', 'x', '--threads', '10000'],
    about: '--threads must be a whole number of 1 to 9999, not "10000"',
  },
  {
    words: ['assess', 'my route.json', 'a.gpx', '--out', 'x', '--baseline', ''],
    about: '--baseline must not be empty',
  },
  {
    words: ['assess', '--ndjson', '--baseline', 'A'],
    about: 'takes no files, no --baseline, no --truth, no --areas and no --surroundings',
  },
  { words: ['assess', 'my route.json', 'a.gpx', '--out', 'x', '--figures'], about: '--figures goes with --ndjson' },
  { words: ['page'], about: 'page takes either --out FILE or --serve' },
  { words: ['page', '--out', 'x.html', '--serve'], about: 'page takes either --out FILE or --serve' },
  { words: ['page', 'a.gpx', '--serve'], about: 'page takes no files, not "a.gpx"' },
  { words: ['combine', 'a.json'], about: 'combine reads lines from standard input' },
  { words: ['combine'], about: 'combine reads lines from standard input' },
  { words: ['snap', 'my route.json', 'a.gpx', '--baseline', 'A'], about: "Unknown option '--baseline'" },
  { words: ['assess', 'my route.json', 'a.gpx', '--out', 'x', '--threads', '0'], about: '--threads must be a whole' },
])('wrong usage $words exits 2 with one sentence on standard error', async ({ words, about }) => {
  const { status, stdout, stderr } = await run(words);
  expect(stderr).toContain(about);
  expect(stderr).toMatch(
    /^datumline: [^\n]+ See "datumline [^\n]*--help"\n$|^datumline: [^\n]+\. See "datumline [^\n]*--help"\n$/,
  );
  expect({ status, stdout }).toEqual({ status: 2, stdout: '' });
});

test('--version prints the version of the package', async () => {
  expect(await run(['--version'])).toEqual({ status: 0, stdout: `${manifest.version}\n`, stderr: '' });
});

test.each(['assess', 'combine', 'page', 'route', 'snap'])(
  '%s --help shows its options and examples',
  async (command) => {
    const { status, stdout, stderr } = await run([command, '--help']);
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    expect(stdout).toMatch(new RegExp(`^datumline ${command} `));
    expect(stdout).toContain('Examples:\n  ');
    expect(stdout.split('\n').filter((line) => line.length > 132)).toEqual([]);
  },
);

test('--help names every command and the exit statuses', async () => {
  const { status, stdout } = await run(['--help']);
  expect(status).toBe(0);
  for (const word of ['assess', 'combine', 'page', 'route', 'snap', 'Exit status: 0 done, 1', '2 wrong usage'])
    expect(stdout).toContain(word);
});
