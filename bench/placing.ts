import { readFileSync, writeFileSync } from 'node:fs';
import { version } from '../package.json';
import { placingTrials } from './support/placingTrials';
import { writeBetween } from './support/writeBetween';

/**
 * How often a ride is taken to another pass of the route than its own, and whether the confidence of fixes is the share of
 * them that is right: seeded rides, printed and with `--write` put into docs/placing.md.
 *
 * `npx tsx bench/placing.ts [--write | --check]`: `--check` fails where that page says something else.
 */
const flags = process.argv.slice(2);
const COUNT = 240;
const HELD_BACK = 7919;
const percent = (share: number, digits = 1) => `${(100 * share).toFixed(digits)} %`;

const { kinds, reliability } = placingTrials(COUNT, HELD_BACK);
const lines = kinds.map(({ name, rides, strayed, flagged, right, sure, off }) => {
  const elsewhere = `${strayed} of ${rides}${strayed > 0 ? `, ${flagged} of them flagged` : ''}`;
  return `| ${name} | ${elsewhere} | ${percent(right, 2)} | ${percent(sure)} | ${percent(off)} |`;
});
const text = `Version ${version}, σ 3–12 m, a fix every 1–30 s, ${COUNT} rides a line:

| rides | with more than two fixes on another pass | fixes on their pass | fixes with confidence ≥ 0.9 | fixes said to be off the route |
| --- | ---: | ---: | ---: | ---: |
${lines.join('\n')}

| confidence at least | share of such fixes | of these on their pass |
| ---: | ---: | ---: |
${reliability.map(({ least, share, right }) => `| ${least} | ${percent(share)} | ${percent(right, 2)} |`).join('\n')}`;

console.log(text);
const page = new URL('../docs/placing.md', import.meta.url);
const present = readFileSync(page, 'utf8');
const updated = writeBetween(present, 'placing', text);
if (flags.includes('--write')) writeFileSync(page, updated);
else if (flags.includes('--check') && updated !== present) {
  console.error('docs/placing.md says something else: npx tsx bench/placing.ts --write');
  process.exitCode = 1;
}
