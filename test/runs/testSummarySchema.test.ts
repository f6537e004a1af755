import { assess, combine } from 'datumline';
import { describe, expect, test } from 'vitest';
import { invented } from '../assess/inventedRuns';
import { besideRoute, steadyFixes } from '../support/besideRoute';
import { schemaJudge } from '../support/schemaJudge';

const faultsOf = schemaJudge('testSummary');

const { route, left, right } = invented;
const steady = (name: string, offset: number) =>
  besideRoute(
    route,
    name,
    steadyFixes({ from: 0, to: 600 }, (s) => offset + 0.3 * Math.sin(s / 11)),
  );
const run = (k: number, offsets: readonly number[], placements: readonly string[]) =>
  assess(
    route,
    offsets.map((offset, i) => ({
      recording: steady(`file ${i}`, offset),
      receiver: 'ABC'[i],
      placement: placements[i],
      run: `day ${k}`,
    })),
  );
const full = combine([
  run(1, [1, 5, -2], [left, right, left]),
  run(2, [1.2, 4.6, -2.5], [right, left, right]),
  run(3, [1.1, 5.3], [left, right]),
]);

describe('what combine returns is what its schema says, through JSON and back', () => {
  test.each([
    ['three receivers, three runs', full],
    ['one run', combine([run(1, [1, 5], [left, right])])],
    ['one recording', combine([assess(route, [steady('a', 1)])])],
    ['nothing but recordings left out', combine([assess(route, [{ ...steady('a', 1), lon: new Float64Array(201) }])])],
  ])('%s', (_, summary) => {
    expect(JSON.parse(JSON.stringify(summary))).toEqual(summary);
    expect(faultsOf(summary)).toEqual([]);
  });

  test('the full one has something in every list', () => {
    const { flips, ...lists } = full;
    for (const [name, list] of Object.entries(lists)) if (Array.isArray(list)) expect(list.length, name).not.toBe(0);
  });
});

describe('the schema refuses', () => {
  type Summary = typeof full;
  test.each([
    ['a missing list', ({ pairs, ...rest }: Summary) => rest, /^# .*pairs/],
    ['an unknown key', (one: Summary) => ({ ...one, winner: 'A' }), /^#\/winner /],
    ['another version', (one: Summary) => ({ ...one, schema: 2 }), /^#\/schema /],
    ['an unknown verdict', (one: Summary) => ({ ...one, pairs: [{ ...one.pairs[0], verdict: 'won' }] }), /verdict/],
    ['a number in quotes', (one: Summary) => ({ ...one, pairs: [{ ...one.pairs[0], difference: '3' }] }), /difference/],
    ['a probability above 1', (one: Summary) => ({ ...one, pairs: [{ ...one.pairs[0], pValue: 1.2 }] }), /pValue/],
    ['half an interval', (one: Summary) => ({ ...one, rows: [{ ...one.rows[0], interval95: [1] }] }), /interval95/],
    ['an unknown warning', (one: Summary) => ({ ...one, warnings: [{ ...one.warnings[0], reason: 'x' }] }), /reason/],
    ['an assessment', () => run(1, [1, 5], [left, right]), /^#\/recordings /],
  ])('%s', (_, spoil, message) => {
    expect(faultsOf(spoil(full))).toContainEqual(expect.stringMatching(message));
  });
});
