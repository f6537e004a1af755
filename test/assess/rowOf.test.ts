import { assess, rowOf } from 'datumline';
import { expect, test } from 'vitest';
import { besideRoute, steadyFixes } from '../support/besideRoute';
import { invented } from './inventedRuns';

const { route } = invented;
const steady = (name: string, right: number) =>
  besideRoute(
    route,
    name,
    steadyFixes({ from: 0, to: 600 }, () => right),
  );
const elsewhere = { ...steady('elsewhere', 0), lat: steady('elsewhere', 0).lat.map((lat) => lat - 30) };
const assessment = assess(route, [steady('a', 1), steady('b', -2), elsewhere]);

test('every row is found by its names, and no other', () => {
  for (const row of assessment.rows)
    expect(
      rowOf(
        assessment,
        row.section === null ? { recording: row.recording } : { recording: row.recording, section: row.section },
      ),
    ).toBe(row);
  expect(rowOf(assessment, { recording: 'b', section: null })).toBe(rowOf(assessment, { recording: 'b' }));
  expect(rowOf(assessment, { recording: 'b', section: 'east' }).bias).toBeCloseTo(-2, 3);
});

test.each([
  [{ recording: 'c' }, "which.recording must be one of 'a', 'b', not 'c'"],
  [{ recording: 'elsewhere' }, "which.recording must be one of 'a', 'b', not 'elsewhere'"],
  [{ recording: 'a', section: 'north' }, "which.section must be one of 'west', 'east', null, not 'north'"],
  [{ recording: 'a', section: '' }, "which.section must be one of 'west', 'east', null, not ''"],
  [{ section: 'east' }, "which.recording must be one of 'a', 'b', not undefined"],
  [{ recording: 'a', lap: 2 }, "which.lap must be one of recording, section, not 'lap'"],
])('no row of %j', (which, message) => {
  expect(() => rowOf(assessment, which as { recording: string })).toThrow(
    expect.objectContaining({ name: 'InputError', reason: 'unknown-key', message }),
  );
});

test('an assessment without rows has none', () => {
  const nothing = assess(route, [elsewhere]);
  expect(() => rowOf(nothing, { recording: 'elsewhere' })).toThrow(
    expect.objectContaining({ reason: 'unknown-key', argument: 'which.recording' }),
  );
});
