import { readFileSync, writeFileSync } from 'node:fs';
import { version } from '../package.json';
import { studentQuantile } from '../src/assess/studentT';
import { intervalTrial, pairTrial, winnerTrial } from './support/coverageTrials';
import { writeBetween } from './support/writeBetween';

/**
 * How often the 95 % interval of a run's mean distance holds the truth, how often two identical receivers are called
 * different, and how often a true difference is found: seeded simulations, printed and with `--write` put into the README.
 *
 * `npx tsx bench/coverage.ts [--write | --check]`: `--check` fails where the README says something else.
 */
const flags = process.argv.slice(2);
const trials = 4000;
const percent = (share: number) => `${(100 * share).toFixed(0)} %`;

const cells = [120, 300, 900].flatMap((seconds) =>
  [10, 30, 60].map((correlation) => {
    const seed = seconds * 100 + correlation;
    const { ours, naive } = intervalTrial({ seed, seconds, correlation, trials });
    const identical = winnerTrial({ seed: seed + 1, seconds, correlation, trials });
    return `| ${seconds} s | ${correlation} s | ${percent(ours)} | ${percent(naive)} | ${percent(identical.ours)} | ${percent(identical.naive)} |`;
  }),
);
const found = pairTrial({ seed: 77, seconds: 900, correlation: 30, difference: 4, runs: 3, trials: 1000 });
const falsely = pairTrial({ seed: 78, seconds: 900, correlation: 30, difference: 0, runs: 3, trials: 1000 });

const text = `Version ${version}, ${trials} simulated sections a line, offsets of σ 5 m, one a second, 95 % intervals:

| section | correlation time | the interval holds the truth | counting fixes as independent | identical receivers called different | counting fixes as independent |
| ---: | ---: | ---: | ---: | ---: | ---: |
${cells.join('\n')}

Three runs of 900 s combined, correlation 30 s: a true difference of 4 m in the mean distance is found ${percent(found)} of the time, identical receivers are called different ${percent(falsely)} of the time. Student’s t for three runs is ${studentQuantile(0.95, 2).toFixed(3)}: three are few.`;

console.log(text);
const readme = new URL('../README.md', import.meta.url);
const present = readFileSync(readme, 'utf8');
const updated = writeBetween(present, 'coverage', text);
if (flags.includes('--write')) writeFileSync(readme, updated);
else if (flags.includes('--check') && updated !== present) {
  console.error('README.md says something else: npx tsx bench/coverage.ts --write');
  process.exitCode = 1;
}
