import { readFileSync, writeFileSync } from 'node:fs';
import { version } from '../package.json';
import { drawnBy, lagObserver, lagTrials } from './support/lagTrials';
import { writeBetween } from './support/writeBetween';

/**
 * What is told of a receiver that is late beside others of its body, on seeds that were used to choose nothing: printed and with
 * `--write` put into docs/placing.md. `npx tsx bench/lags.ts [--write]`, five minutes.
 */
const WALKS = 200;
const HELD_BACK = 91_000;
const LATE = [0, 1, 2, 4];
const WHERE = [3, 4, 5].map((receivers) => [receivers, 2] as const);

const trials = lagTrials(WALKS, HELD_BACK, [3, 5, 8], LATE);
const seconds = (value: number) => value.toFixed(2).replace('-', '−');
const groups = trials.filter(({ late }) => late === 0);
const lines = groups.map(({ receivers, sigma, sd }) => {
  const told = trials.filter((one) => one.receivers === receivers && one.sigma === sigma);
  const cells = told.map((one) => `${seconds(one.told)}, ${seconds(one.others)}`);
  return `| ${receivers} | ${sigma} m | ${seconds(sd)} s | ${cells.join(' | ')} |`;
});
const noisy = trials.filter(({ late, sigma }) => late === 0 && sigma === 8);
const alone = [
  ['as told here', noisy.reduce((sum, { sd }) => sum + sd, 0) / noisy.length] as const,
  ['an observer who knows where the body was, and the law of the errors', lagObserver(WALKS, HELD_BACK, 8)] as const,
].map(([what, sd]) => {
  const cells = WHERE.map(([receivers, late]) => {
    const drawn = drawnBy(receivers, late, sd);
    return `${seconds(late - drawn)}, ${seconds(-drawn)}`;
  });
  return `| ${what} | ${seconds(sd)} s | ${cells.join(' | ')} |`;
});
const text = `Version ${version}, ${WALKS} walks of an hour each, errors that persist for 30 s; seconds told of the late one and of the others, on
the mean, and the standard deviation of one lag where none is late:

| receivers | σ | sd | ${LATE.map((late) => `${late} s late`).join(' | ')} |
| ---: | ---: | ---: | ${LATE.map(() => '---:').join(' | ')} |
${lines.join('\n')}

Three receivers and more whose lags are normal by so much, told where nothing else is wrong:

| one lag, σ 8 m | sd | ${WHERE.map(([receivers, late]) => `${receivers}, ${late} s late`).join(' | ')} |
| --- | ---: | ${WHERE.map(() => '---:').join(' | ')} |
${alone.join('\n')}`;
console.log(text);
if (process.argv.includes('--write')) {
  const page = new URL('../docs/placing.md', import.meta.url);
  writeFileSync(page, writeBetween(readFileSync(page, 'utf8'), 'lags', text));
}
