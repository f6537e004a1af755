import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, test } from 'vitest';

/**
 * The package as a stranger gets it: packed, installed in an empty folder, imported, required, compiled against.
 * Needs `dist`: `npm test` builds it first.
 */
const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'datumline-package-'));
const manifest = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'));
const entries = Object.keys(manifest.exports)
  .filter((entry) => !/json|\*/.test(entry))
  .map((entry) => entry.replace('.', 'datumline'));

const run = (command: string, args: readonly string[], cwd = folder) =>
  execFileSync(command, args, { cwd, encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'] });

beforeAll(() => {
  expect(existsSync(join(root, 'dist/index.js')), 'dist is built').toBe(true);
  run('npm', ['pack', '--silent', '--ignore-scripts', '--pack-destination', folder], root);
  writeFileSync(join(folder, 'package.json'), '{ "name": "stranger", "private": true, "type": "module" }');
  const quiet = ['--no-audit', '--no-fund', '--prefer-offline', '--ignore-scripts'];
  run('npm', ['install', ...quiet, `./datumline-${manifest.version}.tgz`]);
}, 240_000);

afterAll(() => rmSync(folder, { recursive: true, force: true }));

const probe = `
  const { distance } = geodesy.inverse([5, 52], [6, 51.4]);
  let reason;
  try { main.lineLength([[5, 95]]) } catch (error) { reason = error instanceof geodesy.InputError && error.reason }
  console.log(distance.toFixed(3), reason);
`;

test('import finds every entry, and InputError is one class through all of them', () => {
  const imports = entries.map((entry) => `await import('${entry}');`).join('');
  const code = `${imports} import * as main from 'datumline'; import * as geodesy from 'datumline/geodesy'; ${probe}`;
  expect(run('node', ['--input-type=module', '-e', code])).toBe('96103.975 swapped\n');
});

test.each([[[]], [['--no-experimental-require-module']]])('require does the same %j', (flags) => {
  const requires = entries.map((entry) => `require('${entry}');`).join('');
  const code = `${requires} const main = require('datumline'), geodesy = require('datumline/geodesy'); ${probe}`;
  expect(run('node', [...flags, '--input-type=commonjs', '-e', code])).toBe('96103.975 swapped\n');
});

/** Under the newest compiler and the oldest that is promised, as a module and as CommonJS. */
test.each([
  ['typescript', 'nodenext', ['probe.mts', 'probe.cts']],
  ['typescript', 'bundler', ['probe.mts']],
  ['typescript-5.4', 'node16', ['probe.mts', 'probe.cts']],
  ['typescript-5.4', 'bundler', ['probe.mts']],
])('a user compiles against the types, and writes their own: %s, %s', (compiler, resolution, files) => {
  const text = `import { inverse, routeFromLine, type Recording, type Route } from 'datumline';
     import { lineLength } from 'datumline/geodesy';
     ${entries.map((entry, i) => `import * as entry${i} from '${entry}';`).join('\n')}
     export const route: Route = routeFromLine({ type: 'LineString', coordinates: [[5, 52], [5, 52.001]] });
     export const metres: number = inverse([5, 52], [6, 51.4]).distance + lineLength([[5, 52], [6, 51.4]]);
     export const fixes = (recording: Recording): number => recording.lon.length;
     // @ts-expect-error a distance is no string
     export const wrong: string = inverse([5, 52], [6, 51.4]).distance;
     export const judged = (recording: Recording) => entry0.assess(route, [recording]);
     export const all = [${entries.map((_, i) => `entry${i}`).join(', ')}];`;
  for (const file of files) writeFileSync(join(folder, file), text);
  const compilerOptions = {
    // its own declarations name the types of this package
    ...{
      declaration: true,
      emitDeclarationOnly: true,
      outDir: 'declared',
      strict: true,
      target: 'es2022',
      types: [],
      lib: ['es2022', 'dom'],
    },
    ...{ module: resolution === 'bundler' ? 'esnext' : resolution, moduleResolution: resolution },
  };
  writeFileSync(join(folder, 'tsconfig.json'), JSON.stringify({ compilerOptions, files }));
  const tsc = join(root, 'node_modules', compiler, 'bin/tsc');
  const { stdout } = spawnSync('node', [tsc, '-p', '.'], { cwd: folder, encoding: 'utf8' });
  expect(stdout).toBe('');
});

test('every schema is found by its name, and closed', () => {
  const names = ['assessment', 'recipe', 'testFile', 'testSummary'];
  const code = `for (const name of ${JSON.stringify(names)}) {
    const schema = require('datumline/schemas/' + name + '.json');
    console.log(name, schema.type, schema.additionalProperties, schema.required.length > 2, schema.description.length > 50);
  }`;
  expect(run('node', ['--input-type=commonjs', '-e', code])).toBe(
    names.map((name) => `${name} object false true true\n`).join(''),
  );
});

test('a user installs no more than two packages, 3.5 MB and the page of 2 MB', () => {
  const lock = JSON.parse(readFileSync(join(folder, 'package-lock.json'), 'utf8'));
  expect(Object.keys(lock.packages).filter((path) => path !== '')).toEqual([
    'node_modules/@types/geojson',
    'node_modules/datumline',
  ]);
  const size = (path: string): number =>
    statSync(path).isDirectory()
      ? readdirSync(path).reduce((sum, name) => sum + size(join(path, name)), 0)
      : statSync(path).size;
  const page = size(join(folder, 'node_modules/datumline/dist/page.html'));
  expect(page).toBeLessThanOrEqual(2e6);
  expect(size(join(folder, 'node_modules')) - page).toBeLessThanOrEqual(3.5e6);
});

test('the tarball holds what is used and nothing else', () => {
  const listing = JSON.parse(run('npm', ['pack', '--dry-run', '--json', '--ignore-scripts'], root));
  const [packed] = Array.isArray(listing) ? listing : Object.values(listing);
  const paths: string[] = (packed as { files: { path: string }[] }).files.map((file) => file.path);
  expect(paths).toContain('LICENSE');
  expect(paths).toContain('README.md');
  expect(paths).toContain('docs/questions.md');
  expect(paths).not.toContain('examples/out');
  const known =
    /^(dist\/|docs\/[\w-]+\.md$|examples\/(?!out\/|demo\/recordings\/)|(LICENSE|README\.md|package\.json)$)/;
  expect(paths.filter((path) => !known.test(path))).toEqual([]);
});
