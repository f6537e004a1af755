import { assess, combine } from 'datumline';
import { reportHtml } from 'datumline/report';
import { JSDOM } from 'jsdom';
import { expect, test } from 'vitest';
import { careLines } from '../../src/runs';
import { parallelStreets } from '../support/planeRoute';
import { simulateRun } from '../support/simulateRun';

/** Three runs on which the clock of "c" is 6 s late, and a last one on which nothing is. */
const route = parallelStreets([5, 52]);
const names = ['a', 'b', 'c'];
const assessments = [1, 2, 3, 4].map((k) => {
  const made = simulateRun(route, { seed: 500 + k, speed: 2, receivers: names.map((name) => ({ name, sigma: 2 })) });
  return assess(
    route,
    made.map(({ recording }) => {
      const isLate = k < 4 && recording.name === 'c';
      const time = isLate ? recording.time!.map((each) => each + 6000) : recording.time;
      return { recording: { ...recording, time }, receiver: recording.name, run: `run ${k}` };
    }),
  );
});
const summary = combine(assessments);

test('each line says of whom and in which runs, and nothing is said twice', () => {
  const lines = careLines(assessments, summary);
  const late = lines.filter((line) => line.includes('later than the others of its run'));
  // of the other clocks nothing, of the last run nothing; those in the same words are one line
  const told = late.flatMap(
    (line) => /^((?:run \d, )+)c: It passes places 6\.\d s later/.exec(line)?.[1].match(/run \d/g) ?? [line],
  );
  expect(told.sort()).toEqual(['run 1', 'run 2', 'run 3']);
  expect(new Set(lines).size).toBe(lines.length);
  expect(lines.filter((line) => line.startsWith('It '))).toEqual([]);
  const { document } = new JSDOM(reportHtml(assessments)).window;
  expect([...document.querySelectorAll('.care li')].map((item) => item.textContent!.replaceAll('\u00A0', ' '))).toEqual(
    lines.map((line) => line.replaceAll('\u00A0', ' ')),
  );
});

test('what holds of every run is said once, before what holds of single ones, and names none', () => {
  const lines = careLines(assessments, summary);
  const shared = assessments[0].warnings.filter(({ reason }) => reason === 'no-uncertainty');
  expect(shared).toHaveLength(1);
  expect(lines.indexOf(shared[0].message)).toBeGreaterThanOrEqual(0);
  expect(lines.indexOf(shared[0].message)).toBeLessThan(lines.findIndex((line) => line.startsWith('run ')));
});

test('of one run no run is named', () => {
  const [first] = assessments;
  const lines = careLines([first], null);
  expect(lines).toHaveLength(first.warnings.length);
  expect(lines.some((line) => line.startsWith('c: It passes'))).toBe(true);
});
