import {
  assess,
  circularError,
  direct,
  InputError,
  offsetStatistics,
  readCsv,
  readTcx,
  routeFromLine,
} from 'datumline';
import { reportHtml } from 'datumline/report';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { recordingOf } from '../assess/recordingOf';
import { schemaJudge } from '../support/schemaJudge';

test.each<[string, () => unknown, string]>([
  ['statistics of 1e308', () => offsetStatistics([1, 1e308, 1e308]), 'values[1]'],
  ['a weight of 1e200', () => offsetStatistics([1, 2], [1, 1e200]), 'weights[1]'],
  ['an error of 1e200 across', () => circularError([1e200], [1]), 'dx[0]'],
  ['an error of -1e91 along', () => circularError([1, 2], [1, -1e91]), 'dy[1]'],
])('%s is refused by name', (_, call, argument) => {
  let refused: unknown;
  try {
    call();
  } catch (error) {
    refused = error;
  }
  expect(refused).toBeInstanceOf(InputError);
  expect(refused).toMatchObject({ reason: 'out-of-range', argument });
});

test('whatever numbers are taken, numbers come out', () => {
  const numbers = fc.array(fc.double({ min: -1e90, max: 1e90, noNaN: true }), { minLength: 1, maxLength: 20 });
  const weight = fc.oneof(fc.double({ min: 0, max: 1e90, noNaN: true }), fc.constantFrom(5e-324, 1e-300, 2e-300));
  const columns = numbers.chain((values) =>
    fc.tuple(fc.constant(values), fc.array(weight, { minLength: values.length, maxLength: values.length })),
  );
  fc.assert(
    fc.property(columns, ([values, weights]) => {
      fc.pre(weights.some((one) => one > 0));
      const figures = [
        offsetStatistics(values),
        offsetStatistics(values, weights),
        circularError(values, weights),
        circularError(values, weights, { axes: 'principal' }),
      ];
      for (const of of figures) expect(Object.values(of).every(Number.isFinite)).toBe(true);
    }),
    { numRuns: 300 },
  );
});

test('weights too small to be squared count as any others', () => {
  const plain = offsetStatistics([1, 5, -9], [1, 2, 4]);
  expect(offsetStatistics([1, 5, -9], [2 ** -1000, 2 ** -999, 2 ** -998])).toEqual(plain);
});

test('times no calendar holds stay unknown, and are said', () => {
  const [recording] = readCsv('lat,lon,time\n60,5,1e30\n60.0001,5,1900000000\n60.0002,5,-1e30\n');
  expect(recording.time).toEqual(Float64Array.of(Number.NaN, 1_900_000_000_000, Number.NaN));
  expect(recording.issues).toContainEqual(
    expect.objectContaining({ reason: 'unreadable-time', count: 2, place: 'line 2' }),
  );
});

test('lengths of laps that add up to no number are not lengths', () => {
  const point = (lat: number) =>
    `<Trackpoint><Position><LatitudeDegrees>${lat}</LatitudeDegrees><LongitudeDegrees>5</LongitudeDegrees></Position></Trackpoint>`;
  const lap = (metres: string) =>
    `<Lap><DistanceMeters>${metres}</DistanceMeters><Track>${point(60)}${point(60.001)}</Track></Lap>`;
  const [{ attributes }] = readTcx(
    `<TrainingCenterDatabase><Activities><Activity>${lap('1e308')}${lap('120')}${lap('1e308')}</Activity></Activities></TrainingCenterDatabase>`,
  );
  expect(attributes.DistanceMeters).toBe(120);
});

test('a missing time while standing leaves a stop as long as the times around it say', () => {
  const start: [number, number] = [5, 60];
  const route = routeFromLine([start, direct(start, 90, 300).position]);
  const positions: [number, number][] = [];
  // 50 s of walking, 60 s of standing at 100 m, on to the end
  for (let i = 0; i < 210; i++) {
    const along = i < 50 ? 2 * i : i < 110 ? 100 + 0.1 * (i % 2) : Math.min(300, 2 * (i - 60));
    positions.push(direct(start, 90, along).position as [number, number]);
  }
  for (let missing = 48; missing < 114; missing++) {
    const times = positions.map((_, i) => (i === missing ? Number.NaN : i));
    const assessment = assess(route, [recordingOf(positions, { times })]);
    const { stops } = assessment.recordings[0];
    expect(stops.length, `without the time of fix ${missing}`).toBeGreaterThan(0);
    const seconds = stops.reduce((sum, stop) => sum + stop.seconds, 0);
    expect(seconds).toBeGreaterThan(30);
    expect(seconds).toBeLessThanOrEqual(70);
    if (missing % 11 === 0) {
      expect(schemaFaults(assessment)).toEqual([]);
      expect(reportHtml(assessment).includes('NaN')).toBe(false);
    }
  }
});

const schemaFaults = schemaJudge('assessment');
