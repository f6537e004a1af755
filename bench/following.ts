import { readFileSync, writeFileSync } from 'node:fs';
import { version } from '../package.json';
import { type Followed, followingTrials, type Told } from './support/followingTrials';
import { writeBetween } from './support/writeBetween';

/**
 * How many fixes lie on their pass when a route is followed fix by fix, at once and settled: as many rides as test/snap places,
 * on other seeds, printed and with `--write` put into docs/placing.md.
 *
 * `npx tsx bench/following.ts [--write | --check]`: `--check` fails where that page says something else.
 */
const flags = process.argv.slice(2);
const HELD_BACK = 7919;
const LAGS = [30, 120];
const percent = (share: number, digits = 2) => `${(100 * share).toFixed(digits)} %`;

const [short, long] = LAGS.map((lag) => followingTrials(1, HELD_BACK, lag));
const row = (name: string, rides: number, fixes: number, all: readonly Followed[]) =>
  `| ${name} | ${rides} | ${all.map(({ right, placed }) => percent(right / placed)).join(' | ')} | ${all.map(({ away }) => percent(away / fixes, 1)).join(' | ')} |`;
const sum = (all: readonly Followed[]): Followed => ({
  placed: all.reduce((total, { placed }) => total + placed, 0),
  right: all.reduce((total, { right }) => total + right, 0),
  away: all.reduce((total, { away }) => total + away, 0),
});
const kinds = short.kinds.map((kind, k) => ({ ...kind, each: [kind.atOnce, kind.settled, long.kinds[k].settled] }));
const rides = kinds.reduce((total, kind) => total + kind.rides, 0);
const fixes = kinds.reduce((total, kind) => total + kind.fixes, 0);
const whole = [0, 1, 2].map((column) => sum(kinds.map(({ each }) => each[column])));
const sure = (told: readonly Told[], least: number) => {
  const those = told.filter(({ confidence }) => confidence >= least);
  return `${percent(those.length / told.length, 1)}, ${percent(those.filter(({ right }) => right).length / those.length)}`;
};
const text = `Version ${version}, σ 3–12 m, a fix every 1–30 s:

| rides | number | on their pass at once | settled after ${LAGS[0]} s | after ${LAGS[1]} s | said not to be on the route at once | after ${LAGS[0]} s | after ${LAGS[1]} s |
| --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: |
${[...kinds.map(({ name, rides, fixes, each }) => row(name, rides, fixes, each)), row('all', rides, fixes, whole)].join('\n')}

| confidence at least | at once: share of such fixes, of these on their pass | settled after ${LAGS[0]} s |
| ---: | ---: | ---: |
${[0, 0.5, 0.7, 0.9, 0.99].map((least) => `| ${least} | ${sure(short.told.atOnce, least)} | ${sure(short.told.settled, least)} |`).join('\n')}`;

console.log(text);
const page = new URL('../docs/placing.md', import.meta.url);
const present = readFileSync(page, 'utf8');
const updated = writeBetween(present, 'following', text);
if (flags.includes('--write')) writeFileSync(page, updated);
else if (flags.includes('--check') && updated !== present) {
  console.error('docs/placing.md says something else: npx tsx bench/following.ts --write');
  process.exitCode = 1;
}
