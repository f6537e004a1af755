import { readFileSync, writeFileSync } from 'node:fs';
import { planTest } from 'datumline';
import { version } from '../package.json';
import { exponential, noiseModels } from '../test/support/noiseModels';
import { columnTrial } from './support/columnTrials';
import { runTrial } from './support/runTrials';
import { sectionTrial } from './support/sectionTrial';
import { wholeTrial } from './support/wholeTrials';
import { writeBetween } from './support/writeBetween';

/**
 * How often intervals hold the truth, how often receivers that are alike are called different, and how often a true
 * difference is found, in one run and over several: seeded simulations, printed and with `--write` put into docs/verdicts.md.
 *
 * `npx tsx bench/verdicts.ts [--write | --check]`: `--check` fails where that page says something else.
 */
const flags = process.argv.slice(2);
const trials = 600;
const percent = (share: number) => `${(100 * share).toFixed(0)} %`;
const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value / values.length, 0);
const most = (values: readonly number[]) => Math.max(...values);
const row = (cells: readonly (string | number)[]) => `| ${cells.join(' | ')} |`;
const usual = 5 * Math.sqrt(2 / Math.PI);

const cells = [
  [120, 10],
  [120, 30],
  [300, 10],
  [300, 30],
  [600, 30],
  [900, 60],
  [1800, 60],
] as const;
const models = [exponential, ...noiseModels];
const held = models.map((model, m) => {
  const results = cells.map(([seconds, correlation]) =>
    [2, 3, 4, 6].map((count) =>
      columnTrial({
        seed: 1_000_000 + 10_000 * m + 10 * seconds + correlation + count,
        trials: trials / 2,
        seconds,
        correlation,
        scales: new Array(count).fill(1),
        model,
      }),
    ),
  );
  return { model, results };
});
const shares = (
  pick: (result: ReturnType<typeof columnTrial>) => number,
  join: (values: readonly number[]) => number,
) => held.map(({ model, results }) => row([model.what, ...results.map((counts) => percent(join(counts.map(pick))))]));
const head = row(['errors', ...cells.map(([seconds, correlation]) => `${seconds} s, ${correlation} s`)]);
const rule = row(['---', ...cells.map(() => '---:')]);

const short = models.map((model, m) => {
  const shares = [2, 3, 6].map((receivers) =>
    sectionTrial({
      seed: 1_500_000 + 10 * m + receivers,
      trials: 100,
      seconds: 120,
      correlation: 60,
      sections: 6,
      receivers,
      model,
    }),
  );
  return row([model.what, ...shares.map(({ held, given }) => `${percent(held)} (given ${percent(given)})`)]);
});

const differ = ([seconds, correlation]: readonly [number, number], scales: readonly number[], seed: number) =>
  columnTrial({ seed, trials: 2 * trials, seconds, correlation, scales });
const power = (
  [
    [600, 30],
    [900, 30],
    [1800, 60],
  ] as const
).map((cell, i) => {
  const two = [differ(cell, [1, 2.2], 2_000_000 + i), differ(cell, [1, 1.6], 2_100_000 + i)];
  const three = differ(cell, [1, 1.6, 2.2], 2_200_000 + i);
  const figures = [two[0].found['0-1'], two[1].found['0-1'], three.found['0-2'], three.found['0-1']];
  return row([`${cell[0]} s, ${cell[1]} s`, ...figures.map(percent)]);
});

const runs = [
  ['runs only scatter', {}],
  ['runs differ by as much again', { spread: 1 }],
  ['runs differ by three times that', { spread: 3 }],
  ['runs differ by eight times that', { spread: 8 }],
  ['each run has a bias of its own, 4 m', { ownBias: 4 }],
] as const;
const over = runs.map(([what, options], i) => {
  const base = { trials: trials / 2, seconds: 900, correlation: 30, runs: 3, ...options };
  const figures = [2, 3].flatMap((count) => {
    const seed = 3_000_000 + 1000 * i + 10 * count;
    const alike = new Array(count).fill(5);
    const further = alike.map((_, k) => (k === count - 1 ? 4 : 0));
    return [
      runTrial({ ...base, seed, sigmas: alike }).any,
      runTrial({ ...base, seed: seed + 1, sigmas: [5, 8, 11].slice(0, count) }).pairs['0-1'].found,
      runTrial({ ...base, seed: seed + 2, sigmas: alike, further }).pairs[`0-${count - 1}`].found,
    ];
  });
  return row([what, ...figures.map(percent)]);
});

const unlike = [
  [20, 40, 20],
  [10, 60, 10],
].map((correlations, i) =>
  columnTrial({
    seed: 4_000_000 + i,
    trials: 2 * trials,
    seconds: 600,
    correlation: 30,
    correlations,
    scales: [1, 1, 1],
  }),
);
const equal = { trials: 2 * trials, seconds: 1800, correlation: 10 };
const same = columnTrial({ ...equal, seed: 4_100_000, scales: [1, 1] });
const metre = columnTrial({ ...equal, seed: 4_200_000, scales: [1, 1 + 1 / usual] });
const sections = columnTrial({
  seed: 4_300_000,
  trials: 2 * trials,
  seconds: 1200,
  correlation: 30,
  scales: [1, 1.6],
  sections: [0.6, 1.6, 0.6, 1.6],
});
const plans = (
  [
    [2, 1, 600, 30, 4.8],
    [3, 1, 600, 30, 4.8],
    [2, 3, 900, 30, 2.4],
    [3, 3, 900, 30, 2.4],
    [3, 3, 300, 30, 4],
  ] as const
).map(([receivers, count, seconds, correlationTime, difference], i) => {
  const planned = planTest({ sigma: 5, correlationTime, seconds, receivers, runs: count, difference });
  const worse = 1 + difference / usual;
  const last = `0-${receivers - 1}`;
  const others = new Array(receivers - 1).fill(1);
  const column = { seed: 5_000_000 + i, trials, seconds, correlation: correlationTime };
  const simulated =
    count === 1
      ? columnTrial({ ...column, scales: [...others, worse] }).found[last]
      : runTrial({ ...column, runs: count, sigmas: [...others, worse].map((scale) => 5 * scale) }).pairs[last].found;
  return row([
    receivers,
    count,
    `${seconds} s, ${correlationTime} s`,
    `${difference} m`,
    percent(planned.chance),
    percent(simulated),
  ]);
});
// true differences at which the mean of what is said to be detectable is that difference, sought on other seeds
const said = (
  [
    [2, 3, 0, 2.82],
    [2, 5, 0, 1.56],
    [3, 3, 0, 2.7],
    [2, 3, 3, 5.1],
    [3, 6, 1, 1.85],
  ] as const
).map(([receivers, count, spread, difference], i) => {
  const sigmas = [...new Array(receivers - 1).fill(5), 5 + (5 * difference) / usual];
  const column = { seed: 6_000_000 + i, trials, seconds: 900, correlation: 30, runs: count, spread };
  const { detectable, found } = runTrial({ ...column, sigmas }).pairs[`0-${receivers - 1}`];
  return row([receivers, count, `${spread} ×`, `${difference} m`, `${detectable.toFixed(2)} m`, percent(found)]);
});
const whole = { trials: 100, difference: 4 };
const further = wholeTrial({ ...whole, seed: 7077, worse: 'further' });
const scatter = wholeTrial({ ...whole, seed: 7080, worse: 'scatter' });
const aside = wholeTrial({ ...whole, seed: 7081, worse: 'aside' });
const alike = wholeTrial({ ...whole, seed: 7078, worse: 'further', difference: 0 });

const text = `Version ${version}, simulated offsets of σ 5 m, one a second, by length of the section and time after which 1/e of an error is left; 2, 3, 4 and 6 receivers carried together, ${trials / 2} sections each. How often the 95 % interval of the mean distance holds the truth:

${head}
${rule}
${shares((result) => mean(result.held), mean).join('\n')}

Sections only twice as long as errors last, each one of six of 120 s (60 s), 600 sections for each receiver; there is often too little for an interval:

| errors | 2 receivers | 3 | 6 |
| --- | ---: | ---: | ---: |
${short.join('\n')}

The same as in the first table of the mean offset (the side):

${head}
${rule}
${shares((result) => mean(result.biasHeld), mean).join('\n')}

How often any two of identical receivers are called different, the worst of 2, 3, 4 and 6 carried:

${head}
${rule}
${shares((result) => result.any, most).join('\n')}

How often a true difference is found in one run, after the correction over all pairs, ${2 * trials} runs a figure (σ 11 or 8 m against 5 m):

| section, errors last | 11, two carried | 8, two carried | 11, three carried | 8, three carried |
| ---: | ---: | ---: | ---: | ---: |
${power.join('\n')}

Three runs of 900 s, errors lasting 30 s, ${trials / 2} tests a figure: identical receivers called different; σ 8 m told from 5 m; 4 m further off told:

| between the runs | identical, two | 8 m, two | 4 m, two | identical, three | 8 m, three | 4 m, three |
| --- | ---: | ---: | ---: | ---: | ---: | ---: |
${over.join('\n')}

Through placing, assessing and combining, ${whole.trials} tests of three such runs: a true 4 m is found ${percent(further.found)} of the time when the worse receiver lies that much further off everywhere, ${percent(scatter.found)} when it scatters more, ${percent(aside.found)} when it lies steadily to one side; identical receivers are called different ${percent(alike.found + alike.wrong)} of the time.

What \`planTest\` foretells beside what is simulated, σ 5 m:

| receivers | runs | section, errors last | difference | foretold | found |
| ---: | ---: | ---: | ---: | ---: | ---: |
${plans.join('\n')}

What is said to be found four times in five (\`detectable\`, by which \`moreRuns\` goes) beside what is found; runs of 900 s, errors lasting 30 s, spread between the runs beyond what they foretell:

| receivers | runs | spread | true difference | said to be detectable, mean | found |
| ---: | ---: | ---: | ---: | ---: | ---: |
${said.join('\n')}

Receivers alike on average whose errors last 20, 40 and 20 s are told apart, a pair, ${percent(most(Object.values(unlike[0].alone)))} of the time at most, 10, 60 and 10 s ${percent(most(Object.values(unlike[1].alone)))} (600 s; the interval of the slowest then holds the truth ${percent(unlike[1].held[1])}, which a limit of the row says). Over 1800 s, errors lasting 10 s, identical receivers are found equivalent within 1 m ${percent(same.equivalent['0-1'])} of the time, receivers that truly differ by 1 m ${percent(metre.equivalent['0-1'])}. On a route of four sections of 300 s, every other one 2.7 times as hard, 1.6 times as far off is found ${percent(sections.found['0-1'])} of the time. Errors that swing to and fro in one steady rhythm look as if they lasted as long as the section: intervals are then too wide, or not given.`;

console.log(text);
const page = new URL('../docs/verdicts.md', import.meta.url);
const present = readFileSync(page, 'utf8');
const updated = writeBetween(present, 'verdicts', text);
if (flags.includes('--write')) writeFileSync(page, updated);
else if (flags.includes('--check') && updated !== present) {
  console.error('docs/verdicts.md says something else: npx tsx bench/verdicts.ts --write');
  process.exitCode = 1;
}
