import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';

// the worker loads the built package: needs `dist`
const folder = fileURLToPath(new URL('../../examples/short/', import.meta.url));
const programs = readdirSync(folder).filter((name) => !['short.ts', 'demoRide.ts', 'placeThere.js'].includes(name));

test('there are nine, each shorter than 15 lines', () => {
  expect(programs).toHaveLength(9);
  for (const name of programs) {
    const lines = readFileSync(folder + name, 'utf8')
      .trimEnd()
      .split('\n');
    expect(lines.length, name).toBeLessThan(15);
    for (const line of lines) expect(line.length, name).toBeLessThan(160);
  }
});

test('each runs, and says what it found', () => {
  const printed = execFileSync('npx', ['tsx', `${folder}short.ts`], { encoding: 'utf8' });
  // a degree of longitude at 60° north is 55.8 km: 0.002° is 111.6 m
  for (const answer of [
    /^turf: 73\d\.\d m, by Turf 73\d\.\d m$/m,
    /^rows: 0 at 5 60 12\nrows: 1 at 5\.0001 60$/m,
    /^response: fetched, csv, 2 fixes$/m,
    /^arrow: \d{3,} rows; plot: drawn$/m,
    /^map: route drawn, recording drawn, excursion drawn$/m,
    /^arrays: 11\.1\d m apart, 5\d % within 6 m$/m,
    /^arrays: 111\.60 m from end to end$/m,
    /^worker: placed$/m,
    /^engines: 2 runs combined$/m,
    /^follow: \d{3,} fixes placed as they came, \d{3,} m along at the end$/m,
  ]) {
    expect(printed).toMatch(answer);
  }
});
