import './support/asPublished';

import { readFileSync, writeFileSync } from 'node:fs';
import { arch, cpus } from 'node:os';
import { version } from '../package.json';
import { manyTrial } from './support/manyTrial';
import { writeBetween } from './support/writeBetween';

/**
 * What thousands of recordings cost, printed and with `--write` put into docs/many.md.
 *
 * `node --expose-gc --import tsx bench/many.ts [--write]`
 */
const MILLION = 1e6;
const LINES = 40;
/** Recordings a second and core that were to be judged. */
const PROMISED = 60;
const { alone, figures, six, reduce, memory } = await manyTrial(3600, LINES, [50, 500, 2000]);
const row = (cells: readonly (string | number)[]) => `| ${cells.join(' | ')} |`;
const rounded = (value: number) => Number(value.toPrecision(2));
const kB = (bytes: number) => `${rounded(bytes / 1000)} kB`;
const GB = (bytes: number) => `${rounded(bytes / 1e9)} GB`;
const hours = (milliseconds: number) => `${rounded(milliseconds / 3.6e6)} h`;
const lines = [
  ['one recording, all that was found', alone],
  ['one recording, `--figures`', figures],
  ['six recordings compared, `--figures`', six],
] as const;
const last = reduce[reduce.length - 1];
const runs = MILLION / six.recordings;
const machine = `Version ${version}, Node ${process.version}, ${arch()}, ${cpus()[0]?.model.trim()}`;
const table = [
  `${machine}; processor time on one thread, the least of ${LINES} lines, as the machine was at other work too:`,
  '',
  row(['a line of `assess --ndjson`', 'a recording', 'recordings a second', 'files', 'line', 'answer']),
  row(['---', '---:', '---:', '---:', '---:', '---:']),
  ...lines.map(([what, { each, asked, answered, read }]) =>
    row([what, `${each.toFixed(1)} ms`, (1000 / each).toFixed(1), kB(read), kB(asked), kB(answered)]),
  ),
  '',
  `At least ${PROMISED} a second were promised for one recording: ${1000 / alone.each >= PROMISED ? 'held' : 'not held'}.`,
  '',
  row(['`combine --ndjson`, six receivers', 'read and kept, a run', 'combined, a run', 'memory a run']),
  row(['---', '---:', '---:', '---:']),
  ...reduce.map(({ runs: count, keeping, combining, kept }) =>
    row([`${count} runs of one route`, `${keeping.toFixed(1)} ms`, `${combining.toFixed(1)} ms`, kB(kept)]),
  ),
].join('\n');
const million = [
  row(['10⁶ recordings of 1 h in runs of six, by these figures', '']),
  row(['---', '---:']),
  row(['files read', GB(six.read * runs)]),
  row(['lines in', GB(six.asked * runs)]),
  row(['answers out, `--figures`', GB(six.answered * runs)]),
  row(['processor time of assess', hours(six.each * MILLION)]),
  row(['… on 100 cores', hours((six.each * MILLION) / 100)]),
  row(['memory a worker of one thread', `${(memory / 1e6).toFixed(0)} MB`]),
  row(['processor time of the reduce', hours((last.keeping + last.combining) * runs)]),
  row(['memory of the reduce, all routes in one process', GB(last.kept * runs)]),
].join('\n');
console.log(`${table}\n\n${million}`);
if (process.argv.includes('--write')) {
  const page = new URL('../docs/many.md', import.meta.url);
  const text = writeBetween(readFileSync(page, 'utf8'), 'many', table);
  writeFileSync(page, writeBetween(text, 'million', million));
}
