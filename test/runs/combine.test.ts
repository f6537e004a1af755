import { assess, combine, direct, InputError, type Recording, routeBuilder } from 'datumline';
import { expect, test } from 'vitest';
import { recordingOf } from '../assess/recordingOf';

const start: [number, number] = [7, 44];
const street = routeBuilder()
  .start(start)
  .section('all', { halfWidth: 5 })
  .lineTo(direct(start, 90, 600).position)
  .build();

function beside(offset: (metre: number) => number, name: string): Recording {
  const positions = Array.from({ length: 201 }, (_, i) => {
    const on = direct(start, 90, 3 * i);
    return direct(on.position, on.finalAzimuth + 90, offset(3 * i)).position as [number, number];
  });
  return recordingOf(positions, { name });
}

/** Runs in which `near` keeps about 2 m and `far` about 6 m, each run a little differently. */
const run = (k: number, places: readonly [string, string]) =>
  assess(street, [
    {
      recording: beside((s) => 2 + 0.1 * k + Math.sin(s / 40), 'file a'),
      receiver: 'near',
      placement: places[0],
      run: `day ${k}`,
    },
    {
      recording: beside((s) => 6 - 0.1 * k + Math.sin(s / 30), 'file b'),
      receiver: 'far',
      placement: places[1],
      run: `day ${k}`,
    },
  ]);

const left = 'left wrist';
const right = 'right wrist';

test('runs are the unit: mean, interval and verdict come from the differences of the runs', () => {
  const summary = combine([run(0, [left, right]), run(1, [right, left]), run(2, [left, right])]);
  const pair = summary.pairs.find(({ section }) => section === null)!;
  expect(pair.byRun).toHaveLength(3);
  const mean = pair.byRun.reduce((sum: number, value) => sum + value! / 3, 0);
  expect(pair.difference).toBeCloseTo(mean, 12);
  // worked from what each run says: the ratios' spread over the runs, as many times what the runs foretell of it as it is, no less
  const told = [0, 1, 2].map((k) => run(k, k === 1 ? [right, left] : [left, right]).pairs.at(-1)!.foretold!);
  const over = (value: (one: (typeof told)[number]) => number) => told.reduce((sum, one) => sum + value(one) / 3, 0);
  const [near, far, foretold] = [over(({ first }) => first), over(({ second }) => second), over((one) => one.variance)];
  const squares = told.reduce((sum, { first, second }) => sum + (first / near - second / far) ** 2, 0);
  const excess = Math.max(1, squares / 2 / foretold);
  // a lone pair over three runs: three degrees of freedom, t = 3.182 in any table
  const limits = (variance: number) => 3.1824 * Math.sqrt((excess * variance) / 3);
  const [a, b] = [limits(over((one) => one.firstVariance)), limits(over((one) => one.secondVariance))];
  const correlation = (a * a + b * b - limits(foretold) ** 2) / (2 * a * b);
  const [down, up] = [far * Math.expm1(b), near * -Math.expm1(-a)];
  const below = Math.sqrt(down * down + up * up - 2 * Math.min(1, correlation) * down * up);
  expect(pair.interval95![0]).toBeCloseTo(near - far - below, 3);
  expect(pair.verdict).toBe('closer');
  expect(pair.closer).toBe('near');
  expect(pair.signFlipPValue).toBe(0.25);
  expect(summary.warnings.filter(({ reason }) => reason === 'unbalanced')).toEqual([]);
});

test('a receiver always worn on the same side is claimed nothing of', () => {
  const summary = combine([run(0, [left, right]), run(1, [left, right]), run(2, [left, right])]);
  expect(summary.pairs.map(({ verdict }) => verdict)).toEqual(['undecided', 'undecided']);
  expect(summary.warnings.map(({ reason }) => reason)).toContain('unbalanced');
});

test('one run ranks nothing', () => {
  const summary = combine([run(0, [left, right])]);
  expect(summary.pairs.every(({ verdict }) => verdict === 'undecided')).toBe(true);
  expect(summary.warnings.map(({ reason }) => reason)).toContain('one-run');
});

test('no runs, and runs over other routes, are refused', () => {
  expect(() => combine([])).toThrow('assessments must be at least 1 assessment, not an empty array');
  const other = routeBuilder()
    .start(start)
    .lineTo(direct(start, 80, 600).position)
    .build();
  const elsewhere = assess(other, [beside(() => 2, 'a')]);
  expect(() => combine([run(0, [left, right]), elsewhere])).toThrow(InputError);
  expect(() => combine([run(0, [left, right]), elsewhere])).toThrow(
    'assessments[1].route must be the route of the first',
  );
});
