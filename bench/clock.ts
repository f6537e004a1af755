import { readFileSync, writeFileSync } from 'node:fs';
import { version } from '../package.json';
import { exponential, noiseModels } from '../test/support/noiseModels';
import { delayTrial } from './support/delayTrials';
import { draftTrial } from './support/draftTrials';
import { timedPairTrial } from './support/timedPairTrials';
import { type Held, timedTrial, trueFigures } from './support/timedTrials';
import { writeBetween } from './support/writeBetween';

/**
 * How often the intervals of figures by the clock hold the truth, and how near a draft lies to the way it was drafted from:
 * seeded simulations, printed and with `--write` put into docs/truth.md.
 *
 * `npx tsx bench/clock.ts [--write | --check]`: `--check` fails where that page says something else.
 */
const flags = process.argv.slice(2);
const trials = 100;
const cells = [
  [600, 5],
  [600, 15],
  [600, 30],
  [600, 60],
  [1800, 30],
  [3600, 30],
  [3600, 60],
] as const;
const percent = (share: number) => `${(100 * share).toFixed(0)} %`;
const row = (cells: readonly (string | number)[]) => `| ${cells.join(' | ')} |`;
const head = (first: string) =>
  `${row([first, ...cells.map(([seconds, correlation]) => `${seconds} s, ${correlation} s`)])}\n${row(['---', ...cells.map(() => '---:')])}`;

const models = [exponential, ...noiseModels].map((model, m) => {
  const truths = trueFigures(model);
  const held = cells.map(([seconds, correlation]) =>
    timedTrial(
      { seed: 8_000_000 + 100_000 * m + 10 * seconds + correlation, trials, seconds, correlation, model },
      truths,
    ),
  );
  return { what: model.what, held };
});
const [plain, ...others] = models;
const figures = [...plain.held[0].keys()];
const words = (figure: string) =>
  figure
    .replace(/ p(\d+)/, ' $1 %')
    .replace('cep50', 'CEP50')
    .replace('ce95', 'CE95')
    .replace(/^along/, 'along');
const shownBy = (held: readonly Held[], figure: string) => held.map((cell) => percent(cell.get(figure)!));
const worst = (cell: Held) => [...cell].reduce((least, one) => (one[1] < least[1] ? one : least));

const delays = (
  [
    [600, 5],
    [600, 30],
    [600, 60],
    [1800, 30],
  ] as const
).map(([seconds, correlation], i) => {
  const { held, off } = delayTrial(8_500_000 + 1000 * i, 60, seconds, correlation);
  return row([`${seconds} s, ${correlation} s`, `${off.toFixed(2)} s`, percent(held)]);
});

const pairRows = (
  [
    ['alike, 5 m each, one run', 1, [5, 5, 5]],
    ['5, 5 and 8 m, one run', 1, [5, 5, 8]],
    ['alike, 5 m each, three runs', 3, [5, 5, 5]],
    ['5, 5 and 8 m, three runs', 3, [5, 5, 8]],
  ] as const
).map(([what, runs, sigmas], i) => {
  const { different, found } = timedPairTrial(8_700_000 + 10_000 * i, runs > 1 ? 60 : 100, runs, sigmas);
  return row([what, percent(different), sigmas[2] > sigmas[0] ? percent(found) : '–']);
});

const drafts = draftTrial(9_000_001, 30);
const draftRows = Object.entries(drafts).map(([where, { p50, p95, most }]) =>
  row([where, ...[p50, p95, most].map((metres) => `${metres.toFixed(1)} m`)]),
);

const text = `Version ${version}, simulated errors along and across of one a second, of three receivers of σ 3, 5 and 8 m carried together, by length of the stretch and time after which 1/e of an error is left; ${3 * trials} intervals a figure. How often the 95 % interval holds what the figure is in the long run, errors forgetting themselves exponentially:

${head('figure')}
${figures.map((figure) => row([words(figure), ...shownBy(plain.held, figure)])).join('\n')}

Other errors, mean over all these figures and the least of them:

${head('errors')}
${others
  .map(({ what, held }) =>
    row([
      what,
      ...held.map((cell) => {
        const shares = [...cell.values()];
        const [figure, least] = worst(cell);
        return `${percent(shares.reduce((sum, share) => sum + share / shares.length, 0))}; ${words(figure)} ${percent(least)}`;
      }),
    ]),
  )
  .join('\n')}

The delay, σ 4 m along and across, paces of 2 to 4 m/s, 180 intervals each: the root mean square of what it is off by, and how often its interval holds the true one:

| ride, errors last | off by | held |
| ---: | ---: | ---: |
${delays.join('\n')}

Three receivers carried for 600 s, errors lasting 30 s, 100 tests of one run, 60 of three: how often any two that are alike were called different, and how often the one of 8 m was found further off than one of 5 m:

| receivers | alike called different | found |
| --- | ---: | ---: |
${pairRows.join('\n')}

How far the true way lies from a draft of six recordings (σ 4 m along and across the way, lasting 30 s), 30 drafts:

| where | 50 % | 95 % | most |
| --- | ---: | ---: | ---: |
${draftRows.join('\n')}`;

console.log(text);
const page = new URL('../docs/truth.md', import.meta.url);
const present = readFileSync(page, 'utf8');
const updated = writeBetween(present, 'clock', text);
if (flags.includes('--write')) writeFileSync(page, updated);
else if (flags.includes('--check') && updated !== present) {
  console.error('docs/truth.md says something else: npx tsx bench/clock.ts --write');
  process.exitCode = 1;
}
