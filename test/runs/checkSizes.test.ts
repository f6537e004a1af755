import { assess, combine, InputError, runFigures } from 'datumline';
import { expect, test } from 'vitest';
import { invented } from '../assess/inventedRuns';
import { besideRoute, steadyFixes } from '../support/besideRoute';
import { schemaJudge } from '../support/schemaJudge';

const { route, left, right } = invented;
const judged = schemaJudge('testSummary');

/** A run of three receivers on a route with sections and a corridor. */
const run = (k: number) =>
  assess(
    route,
    [1 + k / 9, 5 - k / 7, -2.5].map((offset, i) => ({
      recording: besideRoute(
        route,
        `file ${i}`,
        steadyFixes({ from: 0, to: 600 }, (s) => offset + 2 * Math.sin(97 * s * s + k * i)),
      ),
      receiver: 'ABC'[i],
      placement: (k + i) % 2 === 0 ? left : right,
      run: `day ${k}`,
    })),
  );
/** Sides and allowed ground as if they were the corridor. */
const figures = [1, 2, 3].map((k) => {
  const { rows, ...rest } = runFigures(run(k));
  const { insideCorridor: correctSide, foretold } = rows;
  const samples = foretold.insideSamples;
  return {
    ...rest,
    rows: {
      ...rows,
      correctSide,
      insideAllowed: correctSide,
      undecidedAllowed: correctSide.map(() => 0),
      foretold: { ...foretold, correctSamples: samples, allowedSamples: samples },
    },
  };
});

/** Where the numbers of a document are. */
function numbersOf(value: unknown, path: readonly string[] = []): (readonly string[])[] {
  if (typeof value === 'number') return [path];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => numbersOf(inner, [...path, key]));
}

/** The document with one number made of the one that it has. */
function forged<T extends object>(document: T, path: readonly string[], make: (number: number) => number): T {
  const copy = structuredClone(document);
  // biome-ignore lint/suspicious/noExplicitAny: goes anywhere
  const inner = path.slice(0, -1).reduce((at: any, key) => at[key], copy);
  inner[path.at(-1)!] = make(inner[path.at(-1)!]);
  return copy;
}

test('whatever number of figures is another, they are refused by name, or the summary is what its schema says', () => {
  expect(JSON.stringify(figures).match(/null/g)!.length).toBeLessThan(99);
  const places = numbersOf(figures).filter((path) => path.at(-1) !== 'schema');
  const extremes = [0, 5e-324, 1e-300, 1e-160, 1e-51, 1e-49, 1e-20, 1e6, 2e7, 9e11, 1e30, 1e160, 1e308];
  const makes = [
    ...extremes.flatMap((extreme) => [() => extreme, () => -extreme]),
    ...extremes.map((extreme) => (number: number) => number * extreme),
  ];
  const outcomes = { refused: 0, combined: 0 };
  // a stride without common factors goes over all places and all extremes
  for (let i = 0; i < 3000; i++) {
    const path = places[(i * 7919) % places.length];
    const once = forged(figures, path, makes[i % makes.length]);
    // every other time a second one beside it
    const given = i % 2 ? once : forged(once, places[(i * 104729) % places.length], makes[(i * 31) % makes.length]);
    try {
      // as JSON has it: null for Infinity and NaN
      const summary = JSON.parse(JSON.stringify(combine(given)));
      expect(judged(summary), path.join('.')).toEqual([]);
      outcomes.combined++;
    } catch (error) {
      if (!(error instanceof InputError)) throw error;
      expect(error.argument, path.join('.')).toMatch(/assessments\[\d\]/);
      outcomes.refused++;
    }
  }
  expect(outcomes.refused).toBeGreaterThan(500);
  expect(outcomes.combined).toBeGreaterThan(500);
});

test('what no recording on Earth can have is refused by its name', () => {
  const refusal = (path: readonly string[], value: number) => {
    try {
      combine(forged(figures, path, () => value));
      return 'taken';
    } catch (error) {
      return (error as InputError).message;
    }
  };
  // half a meridian of WGS 84 is 20 003 931 m, half its equator 20 037 508 m
  expect(refusal(['1', 'rows', 'bias', '2'], -20037508)).toBe('taken');
  expect(refusal(['1', 'rows', 'bias', '2'], -1e308)).toBe(
    'the size of assessments[1].rows[2].bias must be a number of at least 1e-50 up to 21000000, not 1e+308',
  );
  expect(refusal(['0', 'pairs', 'foretold', 'variance', '0'], 1e30)).toBe(
    'the size of assessments[0].pairs[0].foretold.variance must be a number of at least 1e-50 up to 1000000000000, not 1e+30',
  );
  expect(refusal(['0', 'rows', 'foretold', 'meanAbsolute', '0'], 1e-300)).toBe(
    'the size of assessments[0].rows[0].foretold.meanAbsolute must be a number of at least 1e-50 up to 21000000, not 1e-300',
  );
});
