import { readdirSync } from 'node:fs';
import { arch, cpus } from 'node:os';
import type { Bench, BenchRow } from './support/Bench';

/** Runs every bench beside its peers and prints one table. `--smoke` only shows that each still runs. */
const smoke = process.argv.includes('--smoke');
const only = process.argv.slice(2).find((word) => !word.startsWith('--'));
const folder = new URL('.', import.meta.url);
const files = readdirSync(folder)
  .filter((file) => file.endsWith('.bench.ts') && (!only || file.startsWith(only)))
  .sort();

const rows: BenchRow[] = [];
for (const file of files) {
  const { run } = (await import(new URL(file, folder).href)) as { run: Bench };
  rows.push(...(await run({ smoke })));
}

console.log(
  `Node ${process.version}, ${arch()}, ${cpus()[0]?.model ?? 'unknown processor'}${smoke ? ', smoke only' : ''}\n`,
);
console.log('| what | ours | promised | held | error | peers |\n| --- | ---: | --- | --- | --- | --- |');
for (const { what, ours, promise = '', held, error = '', peers = [] } of rows) {
  const beside = peers.map((peer) => `${peer.name} ${peer.time}${peer.error ? ` (${peer.error})` : ''}`).join(', ');
  console.log(
    `| ${what} | ${ours} | ${promise} | ${held === undefined ? '' : held ? 'yes' : 'NO'} | ${error} | ${beside} |`,
  );
}
if (rows.length === 0) throw new Error('no bench ran');
