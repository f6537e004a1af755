import { readdirSync, readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { expect, test } from 'vitest';
import { cases, sizeless } from '../../bench/growth/cases';
import { callables } from '../fuzz/callables';

/** What is read of an object, not called. */
const members = ['Route.warnings'];

test('everything that can be called has its growth measured, or is listed as of the same time whatever it is given', () => {
  const called = [...callables().keys(), ...members].sort();
  const measured = [...new Set(cases.map(({ of }) => of))];
  expect([...measured, ...sizeless].sort()).toEqual(called);
});

test('what has a size is tried on an easy input or a hostile one, each named once, at two sizes', () => {
  const names = cases.map(({ of, input }) => `${of}: ${input}`);
  expect(new Set(names).size).toBe(names.length);
  expect(cases.filter(({ kind }) => kind === 'hostile').length).toBeGreaterThan(cases.length / 2);
  for (const { least } of cases) expect(least).toBeGreaterThanOrEqual(1);
});

test('a growth that is said to be stated stands in the docstring', () => {
  const sources = readdirSync('src', { recursive: true, encoding: 'utf8' }).filter(
    (file) => file.endsWith('.ts') && !file.startsWith('subpaths'),
  );
  const files = new Map(sources.map((file) => [basename(file, '.ts'), `src/${file}`]));
  for (const { of, stated } of cases) {
    if (!stated) continue;
    const text = readFileSync(files.get(of.split('.')[0])!, 'utf8').replace(/\s+\*\s+/g, ' ');
    expect(text, of).toContain(stated.says);
    expect(stated.exponent).toBeGreaterThan(1.2);
  }
});
