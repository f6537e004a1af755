import { type AssessedFigures, type Assessment, assess, combine, routeFromRecipe, runFigures } from 'datumline';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { finish } from '../../src/model';
import { combineByRoute, readFigures } from '../../src/runs';
import { invented } from '../assess/inventedRuns';
import { besideRoute, steadyFixes } from '../support/besideRoute';
import { schemaJudge } from '../support/schemaJudge';

const faultsOf = schemaJudge('runFigures');

const { route, left, right } = invented;
const over = (of: typeof route, k: number, offsets: readonly number[], placements: readonly string[]): Assessment =>
  assess(
    of,
    offsets.map((offset, i) => ({
      recording: besideRoute(
        of,
        `file ${i}`,
        steadyFixes({ from: 0, to: 600 }, (s) => offset + 0.3 * Math.sin(s / 11)),
      ),
      receiver: 'ABC'[i],
      placement: placements[i],
      run: `day ${k}`,
    })),
  );
const runs = [
  over(route, 1, [1, 5, -2], [left, right, left]),
  over(route, 2, [1.2, 4.6, -2.5], [right, left, right]),
  over(route, 10, [1.1, 5.3], [left, right]),
];
const figures = runs.map((run) => runFigures(run));
/** Of another route, the first without its last step. */
const elsewhere = runFigures(
  over(routeFromRecipe({ ...route.recipe, steps: route.recipe.steps.slice(0, -1) }), 1, [1, 2], [left, right]),
);

test('figures say to combine all that their assessments do, in any mixture', () => {
  const summary = combine(runs);
  expect(combine(figures)).toEqual(summary);
  expect(combine([figures[0], runs[1], figures[2]])).toEqual(summary);
  expect(combine(JSON.parse(JSON.stringify(figures)))).toEqual(summary);
  expect(combine(figures, { baseline: 'A' })).toEqual(combine(runs, { baseline: 'A' }));
});

test('figures of another version are told, and the summary is of this one', () => {
  const { version } = figures[0].method;
  const [first, ...others] = figures;
  const summary = combine([{ ...first, method: { ...first.method, version: '9.0.0' } }, ...others]);
  expect(summary.method.version).toBe(version);
  expect(summary.warnings.filter(({ reason }) => reason === 'other-version').map(({ message }) => message)).toEqual([
    `Assessed by version ${version} and 9.0.0, combined by ${version}.`,
  ]);
  expect(combine(figures).warnings.map(({ reason }) => reason)).not.toContain('other-version');
});

test('of figures come the same figures', () => {
  expect(runFigures(figures[0])).toEqual(figures[0]);
});

test('of a long line 101 places are kept, its ends among them, and figures of these figures are the same', () => {
  const whole = { ...runs[0], route: { ...runs[0].route } };
  for (const n of [2, 100, 101, 102, 201, 202, 1223]) {
    const lon = Array.from({ length: n }, (_, i) => i / 1e4);
    const line = { ...whole.route.line, lon, lat: lon.map((value) => value / 2), alongTrack: lon };
    const taken = runFigures({ ...whole, route: { ...whole.route, line } } as Assessment);
    const kept = taken.route.line;
    expect(kept.lon.length).toBeLessThanOrEqual(101);
    expect(kept.lon.length).toBeGreaterThanOrEqual(Math.min(n, 51));
    expect([kept.lon[0], kept.lon.at(-1)]).toEqual([0, lon.at(-1)]);
    expect(kept.lat).toEqual(kept.lon.map((value) => value / 2));
    expect(runFigures(taken)).toEqual(taken);
  }
});

test('they are what their schema says, with nothing that it does not know, and no position of a recording', () => {
  for (const one of [...figures, elsewhere]) {
    expect(faultsOf(one)).toEqual([]);
    expect(JSON.parse(JSON.stringify(one))).toEqual(one);
    expect(Object.keys(one.recordings[0]).sort()).toEqual(
      ['fixes', 'hash', 'leftOut', 'name', 'placement', 'receiver', 'run'].sort(),
    );
  }
  expect(faultsOf({ ...figures[0], pieces: [] })).not.toEqual([]);
  expect(faultsOf(runs[0])).not.toEqual([]);
});

test('they are small beside the assessment', () => {
  expect(JSON.stringify(figures[0]).length).toBeLessThan(0.12 * JSON.stringify(runs[0]).length);
});

describe('what is neither an assessment nor figures is refused', () => {
  test.each([
    ['nothing', undefined, ''],
    ['a summary', combine(runs), '.route.sections[0]'],
    ['figures without rows', { ...figures[0], rows: undefined }, '.rows'],
    ['figures without a line', { ...figures[0], route: { ...figures[0].route, line: null } }, '.route.line'],
    ['figures of another version', { ...figures[0], schema: 2 }, ''],
    ['a list left out', { ...figures[0], rows: { ...figures[0].rows, bias: undefined } }, '.rows.bias'],
    ['lists of two lengths', { ...figures[0], pairs: { ...figures[0].pairs, floor: [1] } }, '.pairs'],
    [
      'a foretold list left out',
      { ...figures[0], pairs: { ...figures[0].pairs, foretold: {} } },
      '.pairs.foretold.first',
    ],
    [
      'a recording that is not there',
      { ...figures[0], rows: { ...figures[0].rows, recording: figures[0].rows.recording.map(() => 3) } },
      '.rows[0].recording',
    ],
    [
      'a section that is not there',
      { ...figures[0], rows: { ...figures[0].rows, section: figures[0].rows.section.map(() => -1) } },
      '.rows[0].section',
    ],
  ])('%s', (_, value, place) => {
    expect(() => runFigures(value as never)).toThrow(
      expect.objectContaining({ reason: 'wrong-type', argument: `assessment${place}` }),
    );
    expect(() => combine([figures[0], value as never])).toThrow(
      expect.objectContaining({ reason: 'wrong-type', argument: `assessments[1]${place}` }),
    );
  });
});

describe('by route', () => {
  const read = (of: readonly AssessedFigures[]) => of.map((one) => readFigures(one, 'figures'));
  const all = read([...figures, elsewhere]);

  test('each route is answered apart, named by the hash of its recipe, its runs in the order of their names', () => {
    const answers = finish(combineByRoute(all));
    expect(answers.map(({ hash }) => hash)).toEqual(
      [figures[0].method.inputs[0].hash, elsewhere.method.inputs[0].hash].sort(),
    );
    for (const answer of answers) {
      const { summary } = answer as Extract<typeof answer, { summary: unknown }>;
      expect(summary.route.hash).toBe(answer.hash);
      const expected = answer.hash === elsewhere.method.inputs[0].hash ? combine([elsewhere]) : combine(figures);
      expect(summary).toEqual(expected);
    }
  });

  test('the order in which figures come changes nothing', () => {
    const expected = JSON.stringify(finish(combineByRoute(all)));
    fc.assert(
      fc.property(fc.shuffledSubarray(all, { minLength: all.length }), (shuffled) => {
        expect(JSON.stringify(finish(combineByRoute(shuffled)))).toBe(expected);
      }),
      { numRuns: 24 },
    );
  });

  test('recipes that draw one line are one route, named by the first hash', () => {
    const respelt = runFigures(
      over(
        routeFromRecipe({ ...route.recipe, options: { ...route.recipe.options, maxSpacing: 5, maxSagitta: 0.02 } }),
        3,
        [1, 5],
        [left, right],
      ),
    );
    const hashes = [figures[0], respelt].map(({ method }) => method.inputs[0].hash);
    expect(hashes[0]).not.toBe(hashes[1]);
    const answers = finish(combineByRoute(read([...figures, respelt])));
    expect(answers.map(({ hash }) => hash)).toEqual([hashes.sort()[0]]);
    expect(JSON.stringify(finish(combineByRoute(read([respelt, ...figures].reverse()))))).toBe(JSON.stringify(answers));
  });

  test('a baseline that one route has not is a fault of that route alone', () => {
    const answers = finish(combineByRoute(all, { baseline: 'C' }));
    expect(answers.map((answer) => 'fault' in answer)).toEqual(
      answers.map(({ hash }) => hash === elsewhere.method.inputs[0].hash),
    );
  });
});
