import { assess, direct, routeBuilder } from 'datumline';
import { expect, test } from 'vitest';
import { schemaJudge } from '../support/schemaJudge';
import { recordingOf } from './recordingOf';

const faultsOf = schemaJudge('assessment');
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
  expect(faultsOf(full)).toEqual([]);
  expect(full.excursions.length).toBeGreaterThan(0);
  expect(full.corners.length).toBe(1);
});

type Full = typeof full;
const firstRow = (spoilt: object) => (one: Full) => ({ ...one, rows: [{ ...one.rows[0], ...spoilt }] });
const firstRecording = (spoilt: object) => (one: Full) => ({
  ...one,
  recordings: [{ ...one.recordings[0], ...spoilt }],
});

test.each<[string, (one: Full) => unknown, RegExp]>([
  ['a missing list', ({ pairs, ...rest }) => rest, /^# .*pairs/],
  ['an unknown key', (one) => ({ ...one, extra: 1 }), /^#\/extra /],
  ['an unknown key in a row', firstRow({ extra: 1 }), /^#\/rows\/0\/extra /],
  ['another version', (one) => ({ ...one, schema: 2 }), /^#\/schema /],
  ['a share above 1', firstRow({ coverage: 1.5 }), /^#\/rows\/0\/coverage 1.5 is greater than 1/],
  ['a negative length', firstRow({ covered: -1 }), /^#\/rows\/0\/covered -1 is less than 0/],
  ['a fraction of a gap', firstRow({ gaps: 0.5 }), /^#\/rows\/0\/gaps .*integer/],
  ['a number in quotes', firstRow({ bias: '1' }), /^#\/rows\/0\/bias /],
  ['null where there is always a number', firstRow({ coverage: null }), /^#\/rows\/0\/coverage /],
  ['half an interval', firstRow({ interval95: [1] }), /^#\/rows\/0\/interval95 /],
  ['an unknown side', firstRow({ biasSide: 'middle' }), /^#\/rows\/0\/biasSide /],
  ['a state unheard of', firstRecording({ states: { on: 1, lost: 2 } }), /^#\/recordings\/0\/states/],
  ['a place at 0', (one) => ({ ...one, excursions: [{ ...one.excursions[0], number: 0 }] }), /number 0 is less than 1/],
  ['half a position', (one) => ({ ...one, corners: [{ ...one.corners[0], position: [7] }] }), /position /],
])('the schema refuses %s', (_, spoil, fault) => {
  expect(faultsOf(spoil(full))).toContainEqual(expect.stringMatching(fault));
});
