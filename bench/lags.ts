import { readFileSync, writeFileSync } from 'node:fs';
import { version } from '../package.json';
import { lagTrials } from './support/lagTrials';
import { writeBetween } from './support/writeBetween';

/**
 * What is told of a receiver that is late beside others of its body, on seeds that were used to choose nothing: printed and with
 * `--write` put into docs/placing.md. `npx tsx bench/lags.ts [--write]`, five minutes.
 */
const WALKS = 200;
const HELD_BACK = 91_000;
const LATE = [0, 1, 2, 4];

const trials = lagTrials(WALKS, HELD_BACK, [3, 5, 8], LATE);
const seconds = (value: number) => value.toFixed(2).replace('-', '−');
const groups = trials.filter(({ late }) => late === 0);
const lines = groups.map(({ receivers, sigma, sd }) => {
  const told = trials.filter((one) => one.receivers === receivers && one.sigma === sigma);
  const cells = told.map((one) => `${seconds(one.told)}, ${seconds(one.others)}`);
  return `| ${receivers} | ${sigma} m | ${seconds(sd)} s | ${cells.join(' | ')} |`;
});
const text = `Version ${version}, ${WALKS} walks of an hour each, errors that persist for 30 s; seconds told of the late one and of the others, on
the mean, and the standard deviation of one lag where none is late:

| receivers | σ | sd | ${LATE.map((late) => `${late} s late`).join(' | ')} |
| ---: | ---: | ---: | ${LATE.map(() => '---:').join(' | ')} |
${lines.join('\n')}`;
console.log(text);
if (process.argv.includes('--write')) {
  const page = new URL('../docs/placing.md', import.meta.url);
  writeFileSync(page, writeBetween(readFileSync(page, 'utf8'), 'lags', text));
}
