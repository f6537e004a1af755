import { fork } from 'node:child_process';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { arch, cpus } from 'node:os';
import { fileURLToPath } from 'node:url';
import { version } from '../package.json';
import type { BenchRow } from './support/Bench';
import { speedTable } from './support/speedTable';
import { writeBetween } from './support/writeBetween';

/**
 * Runs every bench beside its peers, each file in a process of its own, and prints one table.
 *
 * `npx tsx bench/all.ts [NAME...] [--smoke] [--write]`: only files whose names begin so; tiny sizes, to show that each
 * still runs; the table into docs/speed.md as well, or of files named only the sentences they have for it. A file that fails is named at the end and doesn't stop the others.
 */
const words = process.argv.slice(2);
const flags = words.filter((word) => word.startsWith('--'));
const names = words.filter((word) => !word.startsWith('--'));
const unknown = flags.filter((flag) => flag !== '--smoke' && flag !== '--write');
if (unknown.length > 0) throw new Error(`bench knows --smoke and --write, not ${unknown.join(' ')}`);
const smoke = flags.includes('--smoke');
const write = flags.includes('--write');
if (write && smoke) throw new Error('--write takes the bench at its full size');

const folder = new URL('.', import.meta.url);
const files = readdirSync(folder)
  .filter((file) => file.endsWith('.bench.ts'))
  .filter((file) => names.length === 0 || names.some((name) => file.startsWith(name)))
  .sort();
if (files.length === 0) throw new Error(`no bench of that name: ${names.join(' ')}`);

const rows: BenchRow[] = [];
const failed: string[] = [];
for (const file of files) {
  if (process.stderr.isTTY) process.stderr.write(`\r\u001b[K${file}`);
  try {
    // at tiny sizes nothing is held or missed
    rows.push(...(await runFile(file)).map((row) => (smoke ? { ...row, held: undefined } : row)));
  } catch (error) {
    failed.push(`${file} failed: ${(error as Error).message}`);
  }
}
if (process.stderr.isTTY) process.stderr.write('\r\u001b[K');

const processor = cpus()[0]?.model.trim() || 'unknown processor';
const machine = `Version ${version}, Node ${process.version}, ${arch()}, ${cpus().length} × ${processor}`;
const table = speedTable(rows);
console.log(`${machine}${smoke ? ', smoke only: the figures mean nothing' : ''}\n\n${table}`);

const missed = rows.filter(({ held }) => held === false).map(({ what }) => `promise not held: ${what}`);
if (write && failed.length === 0) {
  const file = new URL('../docs/speed.md', import.meta.url);
  let page = readFileSync(file, 'utf8');
  if (names.length === 0) page = writeBetween(page, 'speed', `${machine}:\n\n${table}`);
  for (const { says } of rows) if (says) page = writeBetween(page, says.marker, says.text);
  writeFileSync(file, page);
  console.log('\nwritten into docs/speed.md');
}
for (const line of [...failed, ...missed]) console.error(`\n${line}`);
if (failed.length > 0 || missed.length > 0) process.exitCode = 1;

function runFile(file: string): Promise<BenchRow[]> {
  return new Promise((resolve, reject) => {
    const path = fileURLToPath(new URL(file, folder));
    const runner = fileURLToPath(new URL('support/runFile.ts', folder));
    const child = fork(runner, [path, smoke ? 'smoke' : 'full'], { stdio: ['ignore', 'inherit', 'pipe', 'ipc'] });
    let said = '';
    let result: BenchRow[] | undefined;
    child.stderr!.on('data', (chunk) => (said += chunk));
    child.on('message', (message) => (result = message as BenchRow[]));
    child.on('error', reject);
    child.on('close', (status, signal) => {
      if (result && status === 0) return resolve(result);
      const reason = said.match(/^\w*Error.*$/m)?.[0] ?? said.trim().split('\n').at(-1);
      reject(new Error(reason || `it ended with ${signal ?? status}`));
    });
  });
}
