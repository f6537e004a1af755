import { assess, assessmentSchema, direct, routeBuilder } from 'datumline';
import { expect, test } from 'vitest';
import { checkDocument } from '../../src/model/checkDocument';
import { recordingOf } from './recordingOf';

const start: [number, number] = [7, 44];
const corner = direct(start, 90, 200).position;
const route = routeBuilder({ name: 'bend' })
  .start(start)
  .section('west', { halfWidth: 2 })
  .lineTo(corner)
  .section('north')
  .lineTo(direct(corner, 0, 200).position)
  .build();
const points = (offset: number) =>
  [
    ...Array.from(
      { length: 100 },
      (_, i) => direct(direct(start, 90, 2 * i).position, 180, offset + (i % 7) / 5).position,
    ),
    ...Array.from({ length: 100 }, (_, i) => direct(direct(corner, 0, 2 * i).position, 90, offset).position),
  ] as [number, number][];

const full = assess(
  route,
  [
    { recording: recordingOf(points(1), { name: 'a' }), receiver: 'A', run: '1' },
    { recording: recordingOf(points(4), { name: 'b', gaps: [50] }), receiver: 'B', run: '1' },
    recordingOf([[7, 44]], { name: 'single' }),
    recordingOf(points(2), { name: 'untimed', times: null }),
  ],
  {
    decoy: [start, direct(start, 80, 400).position],
    centreline: [direct(start, 0, 5).position, direct(start, 89, 400).position],
    exclude: [{ from: 20, to: 40, reason: 'scaffolding' }],
  },
);

test('what assess returns is what its schema says, through JSON and back', () => {
  const plain = JSON.parse(JSON.stringify(full));
  expect(plain).toEqual(full);
  expect(() => checkDocument(full, assessmentSchema, 'assessment')).not.toThrow();
  expect(full.excursions.length).toBeGreaterThan(0);
  expect(full.corners.length).toBe(1);
});

test.each([
  ['a missing field', ({ method, ...rest }: typeof full) => rest],
  ['an unknown field', (one: typeof full) => ({ ...one, extra: 1 })],
  ['a share above 1', (one: typeof full) => ({ ...one, rows: [{ ...one.rows[0], coverage: 1.5 }] })],
  ['another version', (one: typeof full) => ({ ...one, schema: 2 })],
])('the schema refuses %s', (_, spoil) => {
  expect(() => checkDocument(spoil(full), assessmentSchema, 'assessment')).toThrow(/^assessment/);
});
