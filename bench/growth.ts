import './support/asPublished';

import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { arch, cpus } from 'node:os';
import { version } from '../package.json';
import { cases } from './growth/cases';
import type { GrowthCase } from './growth/GrowthCase';
import { FLAGS, growthOf, powersOf, type TimeAtSize } from './growth/growthOf';
import { memoryRows } from './growth/memoryCases';
import { showTime } from './support/showTime';
import { writeBetween } from './support/writeBetween';

/**
 * How time grows with the size of the input, of every public function, and what is kept of it; printed and with `--write`
 * put into docs/growth.md. What grows faster than its docstring says is named, and ends the run with status 1.
 *
 * `node FLAGS --import tsx bench/growth.ts [NAME...] [--write] [--resume]`, {@link FLAGS} as `bench/growth/growthOf.ts` has them: only functions of those names, and then nothing of
 * memory; `--resume` goes on where a run was stopped, and `--so-far` with it writes what that one had measured.
 */
const lacking = FLAGS.filter((flag) => !process.execArgv.includes(flag));
if (lacking.length > 0) throw new Error(`node is to be run with ${lacking.join(' ')}`);
const words = process.argv.slice(2);
const names = words.filter((word) => !word.startsWith('--'));
const write = words.includes('--write');
const folder = new URL('../coverage/growth/', import.meta.url);
const file = new URL('times.json', folder);
mkdirSync(folder, { recursive: true });
if (!words.includes('--resume')) rmSync(file, { force: true });
/** What was measured, by function, input and size. */
const measured = (): Record<string, readonly TimeAtSize[]> =>
  existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')) : {};

const row = (cells: readonly string[]) => `| ${cells.join(' | ')} |`;
const grown = new Intl.NumberFormat('en', { maximumFractionDigits: 0 });
const soFar = words.includes('--so-far');
const keyOf = ({ of, input, least }: GrowthCase) => `${of}, ${input}, ${least}`;
const chosen = cases
  .filter(({ of }) => names.length === 0 || names.includes(of))
  .filter((one) => !soFar || keyOf(one) in measured());
const lines: string[] = [];
const missed: string[] = [];
let worst = 0;
for (const [i, one] of chosen.entries()) {
  const { of, input, stated } = one;
  if (process.stderr.isTTY) process.stderr.write(`\r\u001b[K${i + 1} of ${chosen.length}: ${of}`);
  const key = keyOf(one);
  const times = measured()[key] ?? (await growthOf(one, 2));
  writeFileSync(file, JSON.stringify({ ...measured(), [key]: times }, null, 1));
  const { power, own, held } = powersOf(one, times);
  const [n, ...more] = times.map(({ time }) => showTime(time));
  const [whole, apart] = [power, own].map((exponent) => (Number.isNaN(exponent) ? '' : exponent.toFixed(2)));
  if (!held)
    missed.push(
      `${of}, ${input}: n^${whole}, n^${apart} without the collector${stated ? `, stated n^${stated.exponent}` : ''}`,
    );
  if (!stated) worst = Math.max(worst, Math.min(power, own) || 0);
  const said = stated ? `n${stated.exponent === 2 ? '²' : `^${stated.exponent}`} stated` : '';
  const cells = [`\`${of}\``, `${input.replaceAll('|', '\\|')}${one.kind === 'hostile' ? '' : ' ·'}`];
  lines.push(
    row([
      ...cells,
      grown.format(one.least),
      n,
      more[0] ?? '–',
      more[1] ?? '–',
      held ? whole : `**${whole}**`,
      held ? apart : `**${apart}**`,
      held ? said : `${said ? `${said}, ` : ''}NO`,
    ]),
  );
  if (names.length > 0) console.log(lines.at(-1));
}
if (process.stderr.isTTY) process.stderr.write('\r\u001b[K');

const machine = `Version ${version}, Node ${process.version}, ${arch()}, ${cpus().length} × ${cpus()[0]?.model.trim()}`;
const table = [
  `${machine}; processor time, the median of three in turns, as the machine was at other work too. ${chosen.length} inputs of ` +
    `${new Set(chosen.map(({ of }) => of)).size} functions; ${missed.length === 0 ? 'none grows' : `${missed.length} grow`} faster than the docstring says, ` +
    `the fastest where nothing is stated with n^${worst.toFixed(2)}, the lesser of its two exponents` +
    `${chosen.length < cases.length ? `; ${cases.length - chosen.length} inputs more are not measured yet` : ''}:`,
  '',
  row(['function', 'input', 'n', 'at n', 'at 10 n', 'at 100 n', 'exponent', 'without the collector', '']),
  row(['---', '---', '---:', '---:', '---:', '---:', '---:', '---:', '---']),
  ...lines,
].join('\n');
if (names.length === 0) {
  const size = soFar ? 5000 : 50_000;
  const memory = [
    `${machine}; bytes held when the call is over and its garbage collected, at ${grown.format(size)} fixes on as many segments of 5 m:`,
    '',
    row(['what', 'each', 'bytes']),
    row(['---', '---', '---:']),
    ...(await memoryRows(size)).map(({ of, each, bytes }) =>
      row([/^[a-z]+[A-Z]|^snap|^assess/.test(of) ? of.replace(/^\w+/, '`$&`') : of, each, grown.format(bytes)]),
    ),
  ].join('\n');
  console.log(`${table}\n\n${memory}`);
  if (write) {
    const page = new URL('../docs/growth.md', import.meta.url);
    const text = writeBetween(readFileSync(page, 'utf8'), 'growth', table);
    writeFileSync(page, writeBetween(text, 'memory', memory));
  }
}
for (const line of missed) console.error(`grows faster than stated: ${line}`);
if (missed.length > 0) process.exitCode = 1;
