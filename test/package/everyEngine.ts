import { execFileSync } from 'node:child_process';
import { cpSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { hausdorff } from 'datumline';

/**
 * The packed package in every engine that its users may have, each fetched by its npm package: `npx tsx test/package/everyEngine.ts`,
 * after `npm run build`. The demo's first run is judged in each; all figures must agree to a millionth, and lines drawn to
 * 25 cm: they are thinned, and where two vertices would do it is a last bit that chooses. The route must have one hash. Not part of the tests: it fetches half a gigabyte.
 */
const engines: readonly (readonly [name: string, pack: string, words: readonly string[]])[] = [
  ...['20', '22', '24', '26'].map((major) => [`Node ${major}`, `node@${major}`, ['node']] as const),
  ['Bun', 'bun', ['bun']],
  ['Deno', 'deno', ['deno', 'run', '--allow-read', '--allow-env', '--node-modules-dir=manual']],
];

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'datumline-engines-'));
const run = (command: string, words: readonly string[], cwd = folder) =>
  execFileSync(command, words, { cwd, encoding: 'utf8', stdio: ['ignore', 'pipe', 'inherit'], maxBuffer: 1e9 });

interface Judged {
  readonly route: { readonly hash: string };
}

type Figure = number | { readonly lon: number[]; readonly lat: number[] };

/** Every number of a document, and every line, by where it stands. */
function figuresOf(value: unknown, at = ''): [at: string, value: Figure][] {
  if (typeof value === 'number') return [[at, value]];
  if (typeof value !== 'object' || value === null) return [];
  if ('lon' in value && 'lat' in value) return [[at, value as Figure]];
  return Object.entries(value).flatMap(([key, member]) => figuresOf(member, `${at}.${key}`));
}

function agree(at: string, one: Figure, other: Figure | undefined): boolean {
  if (other === undefined || typeof one !== typeof other) return false;
  if (typeof one === 'object' && typeof other === 'object') {
    return one.lon.length < 2 ? other.lon.length === one.lon.length : hausdorff(one, other).distance < 0.25;
  }
  // an angle between two edges that a last bit may choose: hundredths of a degree
  const allowed = at.endsWith('.turn') ? 1e-2 : 1e-6 * Math.max(1, Math.abs(one as number) / 100);
  return Math.abs((one as number) - (other as number)) <= allowed;
}

let failed = 0;
try {
  const tarball = run('npm', ['pack', '--silent', '--ignore-scripts', '--pack-destination', folder], root).trim();
  writeFileSync(join(folder, 'package.json'), '{ "name": "stranger", "private": true, "type": "module" }');
  run('npm', ['install', '--no-audit', '--no-fund', '--silent', `./${tarball}`]);
  cpSync(join(root, 'examples/demo'), join(folder, 'demo'), { recursive: true });
  writeFileSync(
    join(folder, 'judge.js'),
    `import { readFileSync } from 'node:fs';
     import { assess, readGpx, routeFromRecipe } from 'datumline';
     const read = (file) => readFileSync('demo/' + file, 'utf8');
     const names = ['a', 'b', 'c'];
     const recordings = names.flatMap((name) => readGpx(read('recordings/run-1-receiver-' + name + '.gpx'), { name }));
     console.log(JSON.stringify(assess(routeFromRecipe(JSON.parse(read('route.json'))), recordings)));`,
  );
  let first: { name: string; figures: [string, Figure][]; hash: string } | undefined;
  for (const [name, pack, words] of engines) {
    try {
      const script = [...words, 'judge.js'].join(' ');
      const version = run('npx', ['--yes', '--package', pack, '--call', `${words[0]} --version`])
        .split('\n')[0]
        .trim();
      const judged: Judged = JSON.parse(run('npx', ['--yes', '--package', pack, '--call', script]));
      const figures = figuresOf(judged);
      first ??= { name, figures, hash: judged.route.hash };
      const others = new Map(first.figures);
      const far = figures.filter(([at, figure]) => !agree(at, figure, others.get(at)));
      const faults = [
        ...(figures.length === others.size ? [] : [`${figures.length} figures, not ${others.size}`]),
        ...far.slice(0, 3).map(([at, figure]) => `${at} is ${figure}, not ${others.get(at)}`),
        ...(far.length > 3 ? [`and ${far.length - 3} more`] : []),
        ...(judged.route.hash === first.hash ? [] : ['another hash of the route']),
      ];
      if (faults.length > 0) failed++;
      console.log(
        `${name} (${version}): ${faults.length === 0 ? `${figures.length} figures as in ${first.name}` : faults.join('; ')}`,
      );
    } catch (error) {
      failed++;
      console.log(`${name}: ${error instanceof Error ? error.message.split('\n')[0] : error}`);
    }
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}
if (failed > 0) process.exitCode = 1;
