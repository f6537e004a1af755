import { execFileSync, spawnSync } from 'node:child_process';
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { build as esbuild } from 'esbuild';
import { JSDOM } from 'jsdom';
import { rollup } from 'rollup';
import { build as vite } from 'vite';
import { afterAll, beforeAll, expect, test } from 'vitest';
import webpack from 'webpack';

/**
 * The built package through each bundler, without a plugin or a word about `@resvg/resvg-js`, which only `toPng` asks for and
 * nobody need install; what comes out is run. A warning is a failure.
 * Needs `dist`.
 */
const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'datumline-bundlers-'));
const entry = join(folder, 'page.js');

beforeAll(() => {
  expect(existsSync(join(root, 'dist/index.js')), 'dist is built').toBe(true);
  mkdirSync(join(folder, 'node_modules'));
  symlinkSync(root, join(folder, 'node_modules/datumline'), 'dir');
  writeFileSync(join(folder, 'package.json'), '{ "name": "stranger", "private": true, "type": "module" }');
  writeFileSync(
    entry,
    `import { assess, readRecordings, routeFromGeoJson } from 'datumline';
     import { reportHtml } from 'datumline/report';
     const route = routeFromGeoJson({ type: 'LineString', coordinates: [[5, 60], [5.01, 60]] });
     const rows = Array.from({ length: 60 }, (_, i) => [new Date(1e12 + 5e3 * i).toISOString(), 60.00002, 5.0001 + i * 1e-4].join());
     const recordings = await readRecordings(['time,lat,lon', ...rows].join('\\n'), { name: 'A' });
     const assessment = assess(route, recordings);
     const page = reportHtml(assessment);
     console.log(assessment.rows[0].meanAbsolute.toFixed(1), page.startsWith('<!doctype html>'));`,
  );
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

// 0.00002° of latitude at 60° is 2.2 m: 111.4 km a degree
const answer = '2.2 true\n';
const ran = (file: string) => execFileSync('node', [file], { encoding: 'utf8' });
const onlyScript = (out: string) => join(out, readdirSync(out).find((name) => /\.m?js$/.test(name))!);

test('esbuild', async () => {
  const outfile = join(folder, 'esbuild.mjs');
  const { warnings } = await esbuild({
    ...{
      entryPoints: [entry],
      outfile,
      bundle: true,
      format: 'esm',
      platform: 'browser',
      minify: true,
      preserveSymlinks: true,
    },
    logLevel: 'silent',
  });
  expect(warnings).toEqual([]);
  expect(ran(outfile)).toBe(answer);
});

test('Rollup without a plugin, given where the package lies', async () => {
  const dist = (name: string) => JSON.stringify(join(root, 'dist', name));
  const own = join(folder, 'rollup-page.js');
  const text = readFileSync(entry, 'utf8').replace("'datumline'", dist('index.js')).replace("'datumline/report'", dist('report/index.js')); // biome-ignore format: one line
  writeFileSync(own, text);
  const warned: string[] = [];
  const bundle = await rollup({
    input: own,
    onwarn: ({ message }) => warned.push(message),
  });
  await bundle.write({ file: join(folder, 'rollup.mjs'), format: 'es', inlineDynamicImports: true });
  expect(warned).toEqual([]);
  expect(ran(join(folder, 'rollup.mjs'))).toBe(answer);
});

test('webpack', async () => {
  const out = join(folder, 'webpack');
  const compiler = webpack({
    ...{ mode: 'production', target: 'es2022', entry, context: folder },
    experiments: { outputModule: true },
    performance: false,
    output: { path: out, filename: 'page.mjs', module: true },
  })!;
  const stats = await promisify(compiler.run.bind(compiler))();
  await promisify(compiler.close.bind(compiler))();
  const { errors, warnings } = stats!.toJson({ all: false, errors: true, warnings: true });
  expect([...errors!, ...warnings!].map(({ message }) => message)).toEqual([]);
  expect(ran(join(out, 'page.mjs'))).toBe(answer);
});

test('Vite', async () => {
  const outDir = join(folder, 'vite');
  const warned: string[] = [];
  await vite({
    ...{ root: folder, logLevel: 'silent', configFile: false },
    build: {
      ...{ outDir, target: 'es2022', modulePreload: false },
      lib: { entry, formats: ['es'], fileName: 'page' },
      rollupOptions: {
        onwarn: ({ message = '' }) => {
          warned.push(message);
        },
      },
    },
  });
  expect(warned).toEqual([]);
  expect(ran(onlyScript(outDir))).toBe(answer);
});

test('Parcel', () => {
  // as a stranger has it: a folder of its own, the package in it as it is packed
  const own = join(folder, 'parcel');
  mkdirSync(join(own, 'node_modules/datumline'), { recursive: true });
  for (const part of ['package.json', 'dist']) {
    cpSync(join(root, part), join(own, 'node_modules/datumline', part), { recursive: true });
  }
  cpSync(entry, join(own, 'page.js'));
  // it reads a package's exports where it is told to
  const settings = { name: 'stranger', private: true, '@parcel/resolver-default': { packageExports: true } };
  writeFileSync(join(own, 'package.json'), JSON.stringify(settings));
  const page = '<!doctype html><title>page</title><script type="module" src="page.js"></script>';
  writeFileSync(join(own, 'index.html'), page);
  const words = ['build', 'index.html', '--no-cache', '--dist-dir', 'out', '--log-level', 'warn'];
  const { status, stdout, stderr } = spawnSync('node', [join(root, 'node_modules/parcel/lib/bin.js'), ...words], {
    ...{ cwd: own, encoding: 'utf8', env: { ...process.env, NODE_ENV: 'production' } },
  });
  expect([status, stdout, stderr]).toEqual([0, '', '']);
  const script = readdirSync(join(own, 'out')).find((name) => name.endsWith('.js'))!;
  cpSync(join(own, 'out', script), join(own, 'page.mjs'));
  expect(ran(join(own, 'page.mjs'))).toBe(answer);
});

test('an import map: the one file, as a module by itself', () => {
  const text = readFileSync(entry, 'utf8').replaceAll(/'datumline(\/report)?'/g, JSON.stringify(join(root, 'dist/datumline.min.js'))); // biome-ignore format: one line
  writeFileSync(join(folder, 'map.mjs'), text);
  expect(ran(join(folder, 'map.mjs'))).toBe(answer);
  // a page resolves no bare name
  const loaded = readFileSync(join(root, 'dist/datumline.min.js'), 'utf8').match(
    /\b(?:from|import)"[\w@./-]+"|\b(?:import|require)\("[^"]+"\)/g,
  );
  expect(loaded).toBe(null);
});

test('jsdom: what its window makes is read', () => {
  const { window } = new JSDOM('', { runScripts: 'outside-only' });
  const bytes = window.eval(`new Uint8Array(${JSON.stringify([...new TextEncoder().encode('lat,lon\n60,5\n61,5')])})`);
  const datumline = createRequire(import.meta.url)(join(root, 'dist/index.cjs'));
  expect(bytes instanceof Uint8Array).toBe(false);
  expect(datumline.readCsv(bytes)[0].lon.length).toBe(2);
});

test('a worker thread, in ESM and in CommonJS', () => {
  const code = (load: string) => `const { Worker } = require('node:worker_threads');
    new Worker(\`${load} => require('node:worker_threads').parentPort.postMessage(m.inverse([5, 52], [6, 51.4]).distance.toFixed(3)))\`, { eval: true }).on('message', console.log)`;
  const file = (name: string) => JSON.stringify(join(root, 'dist', name));
  for (const load of [`import(${file('index.js')}).then(m`, `Promise.resolve(require(${file('index.cjs')})).then(m`]) {
    const { stdout, stderr } = spawnSync('node', ['-e', code(load)], { encoding: 'utf8' });
    expect([stdout, stderr]).toEqual(['96103.975\n', '']);
  }
});
