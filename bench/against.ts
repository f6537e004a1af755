import { execFileSync, fork } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { median } from 'd3-array';
import type { BenchRow } from './support/Bench';

/**
 * How long each bench takes beside another commit's, the two taking turns: `npx tsx bench/against.ts REVISION [NAME...] [--rounds=N]`.
 *
 * Prints for each row of both the ratio of the medians, this over that; over 1.1 it is marked. Rows that only one has, and files
 * that fail on either side, are named.
 */
const words = process.argv.slice(2);
const rounds = Number(words.find((word) => word.startsWith('--rounds='))?.slice(9) ?? 5);
const [revision, ...names] = words.filter((word) => !word.startsWith('--'));
if (revision === undefined || !(rounds >= 1))
  throw new Error('say which revision: bench/against.ts REVISION [NAME...]');

const here = fileURLToPath(new URL('..', import.meta.url));
const there = join(mkdtempSync(join(tmpdir(), 'against-')), 'there');
execFileSync('git', ['worktree', 'add', '--detach', there, revision], { cwd: here, stdio: 'ignore' });
try {
  symlinkSync(join(here, 'node_modules'), join(there, 'node_modules'));
  const files = readdirSync(join(here, 'bench'))
    .filter((file) => file.endsWith('.bench.ts') && existsSync(join(there, 'bench', file)))
    .filter((file) => names.length === 0 || names.some((name) => file.startsWith(name)));
  console.log(`| what | this | ${revision} | this / ${revision} |\n| --- | ---: | ---: | ---: |`);
  for (const file of files) await compare(file);
} finally {
  execFileSync('git', ['worktree', 'remove', '--force', there], { cwd: here });
  rmSync(join(there, '..'), { recursive: true, force: true });
}

async function compare(file: string): Promise<void> {
  const times = new Map<string, { ours: number[]; theirs: number[] }>();
  try {
    for (let round = 0; round < rounds; round++) {
      for (const [side, root] of [
        ['theirs', there],
        ['ours', here],
      ] as const) {
        for (const { what, ours } of await rowsOf(root, file)) {
          if (!times.has(what)) times.set(what, { ours: [], theirs: [] });
          times.get(what)![side].push(nanoseconds(ours));
        }
      }
    }
  } catch (error) {
    console.log(`| ${file} | failed: ${(error as Error).message} | | |`);
    return;
  }
  for (const [what, { ours, theirs }] of times) {
    const [mine, yours] = [median(ours), median(theirs)];
    if (mine === undefined || yours === undefined)
      console.log(`| ${what} | ${mine ? 'only here' : ''} | ${yours ? 'only there' : ''} | |`);
    else {
      const ratio = mine / yours;
      console.log(
        `| ${what} | ${shown(mine)} | ${shown(yours)} | ${ratio.toFixed(2)}${ratio > 1.1 ? ' SLOWER' : ''} |`,
      );
    }
  }
}

function rowsOf(root: string, file: string): Promise<BenchRow[]> {
  return new Promise((resolve, reject) => {
    const runner = join(root, 'bench/support/runFile.ts');
    const child = fork(runner, [join(root, 'bench', file), 'full'], {
      cwd: root,
      stdio: ['ignore', 'ignore', 'pipe', 'ipc'],
    });
    let said = '';
    let rows: BenchRow[] | undefined;
    child.stderr!.on('data', (chunk) => (said += chunk));
    child.on('message', (message) => (rows = message as BenchRow[]));
    child.on('error', reject);
    child.on('close', () => (rows ? resolve(rows) : reject(new Error(said.trim().split('\n').at(-1)))));
  });
}

/** A time as the benches print it; a figure that is no time counts as it stands. */
function nanoseconds(text: string): number {
  const [, number, unit] = text.match(/^([\d.]+)\s*(ns|µs|ms|s)?/) ?? [];
  return Number(number) * { ns: 1, µs: 1e3, ms: 1e6, s: 1e9, none: 1 }[(unit ?? 'none') as 'ns'];
}

function shown(value: number): string {
  const [unit, size] = value >= 1e9 ? ['s', 1e9] : value >= 1e6 ? ['ms', 1e6] : value >= 1e3 ? ['µs', 1e3] : ['ns', 1];
  return `${(value / (size as number)).toPrecision(3)} ${unit}`;
}
