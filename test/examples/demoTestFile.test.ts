import { existsSync, readFileSync } from 'node:fs';
import { routeFromRecipe, type TestFile } from 'datumline';
import { expect, test } from 'vitest';
import { demoRoute } from '../../examples/demo/demoRoute';
import { demoRuns } from '../../examples/demo/demoRuns';

const demo = new URL('../../examples/demo/', import.meta.url);
const read = (name: string) => JSON.parse(readFileSync(new URL(name, demo), 'utf8'));

test('the recipe of the demo is the route of the demo: else run makeTestFile.ts', () => {
  expect(routeFromRecipe(read('route.json'))).toEqual(demoRoute());
});

test('the test file of the demo names every recording and where it was worn', () => {
  const { runs } = read('test.json') as TestFile;
  expect(runs.map(({ name }) => name)).toEqual(demoRuns.map(({ run }) => run));
  for (const [i, { recordings }] of runs.entries()) {
    expect(Object.fromEntries(recordings.map(({ receiver, placement }) => [receiver, placement]))).toEqual(
      demoRuns[i].worn,
    );
    for (const { file } of recordings) expect(existsSync(new URL(file, demo)), file).toBe(true);
  }
});
