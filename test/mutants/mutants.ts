import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { arch, cpus } from 'node:os';
import { writeBetween } from '../../bench/support/writeBetween';
import { version } from '../../package.json';
import { equivalent } from './equivalent';
import { testOf } from './testOf';

/**
 * How many faults put into a file one after the other its own test notices: `npm run mutants [NAME...] [-- --write]`, for all
 * files with a list of equivalent mutants or those whose names begin so. A report newer than the file and its test is
 * taken as it is. Fails where fewer than 85 % are noticed, or one that is not listed isn't; `--write` puts the table into
 * DEVELOPERS.md.
 */
const LEAST = 0.85;

interface Report {
  readonly files: Record<string, { readonly source: string; readonly mutants: readonly Mutant[] }>;
}

interface Place {
  readonly line: number;
  readonly column: number;
}

interface Mutant {
  readonly status: 'Killed' | 'Timeout' | 'Survived' | 'NoCoverage' | 'CompileError' | 'RuntimeError' | 'Ignored';
  readonly replacement: string;
  readonly location: { readonly start: Place; readonly end: Place };
}

const words = process.argv.slice(2);
const names = words.filter((word) => word !== '--write');
const files = Object.keys(equivalent).filter(
  (file) => names.length === 0 || names.some((name) => file.split('/').pop()!.startsWith(name)),
);
if (files.length === 0) throw new Error(`no file of that name: ${names.join(' ')}`);

const rows: string[] = [];
const faults: string[] = [];
for (const file of files) {
  const path = `coverage/mutants/${file.replaceAll('/', '-')}.json`;
  const test = testOf(file);
  const changed = Math.max(statSync(file).mtimeMs, statSync(test).mtimeMs);
  if (!existsSync(path) || statSync(path).mtimeMs < changed) {
    spawnSync('npx', ['stryker', 'run'], { stdio: 'inherit', env: { ...process.env, MUTANTS: file } });
  }
  const { source, mutants } = (JSON.parse(readFileSync(path, 'utf8')) as Report).files[file];
  const killed = mutants.filter(({ status }) => status === 'Killed' || status === 'Timeout').length;
  const alive = mutants.filter(({ status }) => status === 'Survived' || status === 'NoCoverage');
  const known = alive.filter((mutant) => {
    const [line, becomes] = lines(source, mutant);
    const listed = equivalent[file].some((one) => one.line === line && one.becomes === becomes);
    if (!listed) faults.push(`${file}:${mutant.location.start.line} not noticed, not listed:\n- ${line}\n+ ${becomes}`);
    return listed;
  });
  const count = killed + alive.length;
  if (killed < LEAST * count) faults.push(`${file}: ${killed} of ${count} noticed`);
  rows.push(`| \`${file}\` | ${count} | ${killed} | ${((100 * killed) / count).toFixed(0)} % | ${known.length} |`);
}
const page = new URL('../../DEVELOPERS.md', import.meta.url);
const before = readFileSync(page, 'utf8').split('\n');
/** The rows as they are to stand in the page: those of files not counted now as they were. */
const all = Object.keys(equivalent).flatMap((file) => {
  const begin = `| \`${file}\` |`;
  return [...rows, ...before].find((row) => row.startsWith(begin)) ?? [];
});

const table = (lines: readonly string[]) =>
  ['| file | mutants | noticed | | equivalent |', '| --- | ---: | ---: | ---: | ---: |', ...lines].join('\n');
console.log(table(rows));
if (words.includes('--write')) {
  const machine = `Version ${version}, Node ${process.version}, ${arch()}, ${cpus().length} × ${cpus()[0]?.model.trim()}`;
  writeFileSync(page, writeBetween(before.join('\n'), 'mutants', `${machine}:\n\n${table(all)}`));
}
for (const fault of faults) console.error(`\n${fault}`);
if (faults.length > 0) process.exitCode = 1;

/** The lines that a mutant changes, as they are and as they become, white space closed up. */
function lines(source: string, { replacement, location: { start, end } }: Mutant): [line: string, becomes: string] {
  const text = source.split('\n').slice(start.line - 1, end.line);
  const line = text.join('\n');
  const rest = text[text.length - 1].slice(end.column - 1);
  const closeUp = (code: string) => code.replace(/\s+/g, ' ').trim();
  return [closeUp(line), closeUp(line.slice(0, start.column - 1) + replacement + rest)];
}
