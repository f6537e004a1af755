import { spawnSync } from 'node:child_process';
import { chmodSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { direct, type Route, routeBuilder, type TestSummary, writeCsv } from 'datumline';

/**
 * Many tests at once, on a laptop: invented recordings of two quays, judged by GNU parallel where it is installed, and by the
 * tasks of a Slurm array one after the other. Both must say the same.
 */
const here = dirname(fileURLToPath(import.meta.url));
const out = `${here}/../out/many`;
rmSync(out, { recursive: true, force: true });
mkdirSync(out, { recursive: true });

/** What users have installed as `datumline`. */
const command = `${out}/datumline`;
writeFileSync(command, `#!/bin/sh\nexec "${process.execPath}" "${here}/../../dist/cli.js" "$@"\n`);
chmodSync(command, 0o755);

const lines: object[] = [];
for (const [name, metres] of [
  ['north quay', 300],
  ['south quay', 360],
] as const) {
  const route = routeBuilder({ name })
    .start([2.1, 61.4])
    .section('sheds', { halfWidth: 5 })
    .lineBy({ azimuth: 90, distance: metres / 2 })
    .section('cranes', { halfWidth: 5 })
    .lineBy({ azimuth: 90, distance: metres / 2 })
    .build();
  const file = `${out}/${name}.json`;
  writeFileSync(file, JSON.stringify(route.recipe));
  for (let run = 1; run <= 6; run++) {
    const recordings = ['A', 'B', 'C'].map((receiver, i) => {
      const recording = `${out}/${name} ${run} ${receiver}.csv`;
      writeFileSync(recording, carried(route, 1 + 2 * i, 10 * run + i));
      // swapped from run to run, so that no place is taken for a receiver
      return { recording, receiver, placement: ['left', 'right'][(run + i) % 2], run: `run ${run}` };
    });
    lines.push({ key: `${name}, run ${run}`, route: file, recordings });
  }
}
const file = `${out}/lines.ndjson`;
writeFileSync(file, lines.map((line) => `${JSON.stringify(line)}\n`).join(''));

/** Fixes a second at 1.5 m/s, so many metres right of the route and unsteadily so. */
function carried(route: Route, metres: number, seed: number): string {
  const fixes = Math.floor(route.length / 1.5);
  const positions = Array.from({ length: fixes }, (_, k) => {
    const on = direct([2.1, 61.4], 90, 1.5 * k);
    const offset = metres + Math.sin(k / 7 + seed) + 0.7 * Math.sin(k / 3 + 2 * seed);
    return direct(on.position, on.finalAzimuth + 90, offset).position;
  });
  const time = Float64Array.from(positions, (_, k) => Date.UTC(2031, 4, 1 + (seed % 20), 8) + 1000 * k);
  const [lon, lat] = [0, 1].map((axis) => Float64Array.from(positions, (position) => position[axis]));
  const gapBefore = Uint8Array.from(positions, (_, k) => (k === 0 ? 1 : 0));
  return writeCsv({
    name: 'carried',
    lon,
    lat,
    time,
    gapBefore,
    issues: [],
    source: { format: 'csv' },
    attributes: {},
  });
}

function shell(words: readonly string[], environment: Readonly<Record<string, string>> = {}): void {
  const { status, stderr } = spawnSync('bash', words, {
    env: { ...process.env, DATUMLINE: command, ...environment },
    encoding: 'utf8',
  });
  if (status !== 0) throw new Error(`${words[0]} ended with ${status}: ${stderr}`);
}

const TASKS = 3;
for (let task = 0; task < TASKS; task++) {
  shell([`${here}/judge.slurm`, file, `${out}/slurm`], {
    SLURM_ARRAY_TASK_ID: `${task}`,
    SLURM_ARRAY_TASK_MIN: '0',
    SLURM_ARRAY_TASK_COUNT: `${TASKS}`,
  });
}
const reduced = `${out}/slurm/summaries.ndjson`;
shell(['-c', 'cat "$0"/parts/*.ndjson | "$DATUMLINE" combine --ndjson --out "$1"', `${out}/slurm`, reduced]);

const summaries = readFileSync(reduced, 'utf8');
if (spawnSync('parallel', ['--version']).status === 0) {
  shell([`${here}/judge.sh`, file, `${out}/parallel`, '--jobs', '2'], { BLOCK: '5' });
  const same = readFileSync(`${out}/parallel/summaries.ndjson`, 'utf8') === summaries;
  if (!same) throw new Error('two ways to spread the lines gave two results');
} else console.log('GNU parallel is not installed: only the Slurm tasks were run.');

for (const line of summaries.trimEnd().split('\n')) {
  const { route, runs, order }: TestSummary = JSON.parse(line);
  console.log(`${route.name} (${route.hash}), ${runs.length} runs: ${order.at(-1)!.sentence}`);
}
