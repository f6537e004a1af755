import { readFileSync, writeFileSync } from 'node:fs';
import { version } from '../package.json';
import { snap } from '../src/subpaths/snap';
import { hardRides } from '../test/support/hardRides';
import { ELSEWHERE, type Followed, followingTrials, type Told } from './support/followingTrials';
import { loopObserver } from './support/loopObserver';
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
const LEFT_OUT = 'a loop left out at its crossing';
const LOOPS = kinds.find(({ name }) => name === LEFT_OUT)!.rides;
/** Odds of a loop being gone round, natural logarithms: even, those that `followRoute` takes it for, and elsewhere. */
const ODDS = [0, 4, 8];
const observed = ODDS.map((odds) => {
  const { atOnce, settled } = loopObserver(LOOPS, HELD_BACK, odds, LAGS[0]);
  const word = odds === 0 ? 'as likely as not' : `e^${odds} times less likely than not`;
  return `| an observer who knows the pace, the errors and the crossing, and holds it to be left out ${word} | ${percent(atOnce)} | ${percent(settled)} |`;
});
let placed = 0;
let right = 0;
for (const { route, recording, alongTrack } of hardRides[LEFT_OUT](LOOPS, HELD_BACK)) {
  const { state, alongTrack: places } = snap(route, recording);
  alongTrack.forEach((truth, i) => {
    if (Number.isNaN(truth) || state[i] !== 'on') return;
    placed++;
    if (Math.abs(places[i] - truth) <= ELSEWHERE) right++;
  });
}
const text = `Version ${version}, σ 3–12 m, a fix every 1–30 s:

| rides | number | on their pass at once | settled after ${LAGS[0]} s | after ${LAGS[1]} s | said not to be on the route at once | after ${LAGS[0]} s | after ${LAGS[1]} s |
| --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: |
${[...kinds.map(({ name, rides, fixes, each }) => row(name, rides, fixes, each)), row('all', rides, fixes, whole)].join('\n')}

| confidence at least | at once: share of such fixes, of these on their pass | settled after ${LAGS[0]} s |
| ---: | ---: | ---: |
${[0, 0.5, 0.7, 0.9, 0.99].map((least) => `| ${least} | ${sure(short.told.atOnce, least)} | ${sure(short.told.settled, least)} |`).join('\n')}

| ${LEFT_OUT} | at once | after ${LAGS[0]} s |
| --- | ---: | ---: |
${observed.join('\n')}
| \`snap\`, who has the whole recording | ${percent(right / placed)} | ${percent(right / placed)} |`;

console.log(text);
const page = new URL('../docs/placing.md', import.meta.url);
const present = readFileSync(page, 'utf8');
const updated = writeBetween(present, 'following', text);
if (flags.includes('--write')) writeFileSync(page, updated);
else if (flags.includes('--check') && updated !== present) {
  console.error('docs/placing.md says something else: npx tsx bench/following.ts --write');
  process.exitCode = 1;
}
