import { readFileSync, writeFileSync } from 'node:fs';
import { version } from '../package.json';
import { studentQuantile } from '../src/statistics/studentQuantile';
import { noiseModels } from '../test/support/noiseModels';
import { intervalTrial, modelTrial, winnerTrial } from './support/coverageTrials';
import { wholeTrial } from './support/wholeTrials';
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

const cellsOf = [120, 300, 900].flatMap((seconds) => [10, 30, 60].map((correlation) => ({ seconds, correlation })));
const cells = cellsOf.map(({ seconds, correlation }) => {
  const seed = seconds * 100 + correlation;
  const { ours, naive } = intervalTrial({ seed, seconds, correlation, trials });
  const same = winnerTrial({ seed: seed + 1, seconds, correlation, trials });
  return `| ${seconds} s | ${correlation} s | ${percent(ours)} | ${percent(naive)} | ${percent(same.ours)} | ${percent(same.naive)} |`;
});
const others = noiseModels.map((model) => {
  const shares = cellsOf.map(({ seconds, correlation }) =>
    percent(modelTrial({ seed: seconds * 100 + correlation + 7, seconds, correlation, trials: trials / 2 }, model)),
  );
  return `| ${model.what} | ${shares.join(' | ')} |`;
});
const whole = { trials: 200, difference: 4 };
const further = wholeTrial({ ...whole, seed: 77, worse: 'further' });
const scatter = wholeTrial({ ...whole, seed: 80, worse: 'scatter' });
const aside = wholeTrial({ ...whole, seed: 81, worse: 'aside' });
const asideFour = wholeTrial({ ...whole, seed: 82, worse: 'aside', runs: 4 });
const identical = wholeTrial({ ...whole, seed: 78, worse: 'further', difference: 0 });

const text = `Version ${version}, ${trials} simulated sections a line, offsets of σ 5 m, one a second, 95 % intervals:

| section | correlation time | the interval holds the truth | counting fixes as independent | identical receivers called different | counting fixes as independent |
| ---: | ---: | ---: | ---: | ---: | ---: |
${cells.join('\n')}

The same share with errors of other kinds, ${trials / 2} sections a figure, by section and correlation time:

| errors | ${cellsOf.map(({ seconds, correlation }) => `${seconds} s, ${correlation} s`).join(' | ')} |
| --- | ${cellsOf.map(() => '---:').join(' | ')} |
${others.join('\n')}

Three runs of 900 s, each placed, assessed and combined, σ 5 m, correlation 30 s, ${whole.trials} tests a figure. A true difference of 4 m in the mean distance is found ${percent(further.found)} of the time when the worse receiver errs like the better and lies 4 m further off everywhere; ${percent(scatter.found)} when its errors are twice as great; ${percent(aside.found)} when it lies steadily to one side, which spreads its runs most (${percent(asideFour.found)} with four runs). Identical receivers are called different ${percent(identical.found + identical.wrong)} of the time. Student’s t for three runs is ${studentQuantile(0.95, 2).toFixed(3)}: three are few.`;

console.log(text);
const readme = new URL('../README.md', import.meta.url);
const present = readFileSync(readme, 'utf8');
const updated = writeBetween(present, 'coverage', text);
if (flags.includes('--write')) writeFileSync(readme, updated);
else if (flags.includes('--check') && updated !== present) {
  console.error('README.md says something else: npx tsx bench/coverage.ts --write');
  process.exitCode = 1;
}
