import { csvParse } from 'd3-dsv';
import { judgeByTime } from 'datumline';
import { timedToCsv } from 'datumline/report';
import { expect, test } from 'vitest';
import { every, TimedRide } from '../support/timedRide';

const ride = new TimedRide({ seconds: 200, speed: () => 3, azimuth: () => 90 });
const timed = judgeByTime(ride.truth(5, 0.1), [
  { recording: ride.record(every(150, 1, 10), { right: () => 2, ahead: () => -1 }, '=A'), receiver: 'A', run: 'one' },
  { ...ride.record(every(10, 1)), time: undefined },
]);

test('every figure of a row stands in the table, read back by another parser', () => {
  const cells = csvParse(timedToCsv(timed));
  const cellOf = (component: string, metric: string) =>
    cells.find((cell) => cell.component === component && cell.metric === metric)!;
  const [row] = timed.rows;
  for (const component of ['horizontal', 'along', 'across'] as const) {
    for (const metric of ['mean', 'sd', 'rms', 'p50', 'p68', 'p75', 'p95', 'max'] as const) {
      expect(Number(cellOf(component, metric).value)).toBe(row[component]![metric]);
      expect(Number(cellOf(`undelayed ${component}`, metric).value)).toBe(row.delay!.removed[component]![metric]);
    }
  }
  expect(cellOf('up', 'mean').value).toBe('');
  expect(Number(cellOf('circular', 'ce95').value)).toBe(row.ce95);
  expect(cellOf('', 'availability')).toMatchObject({
    unit: '1',
    recording: "'=A",
    receiver: 'A',
    run: 'one',
    section: '',
  });
  expect(Number(cellOf('', 'longest outage').value)).toBe(row.longestOutage!.seconds);
  expect(new Set(cells.map(({ recording }) => recording))).toEqual(new Set(["'=A"]));
});

test('what is no timed assessment is refused by name', () => {
  expect(() => timedToCsv({ ...timed, rows: undefined } as never)).toThrow(/^timed\.rows must be given/);
  expect(() => timedToCsv({ ...timed, excursions: [] } as never)).toThrow(/^timed\.excursions must be one of/);
  const unknown = { ...timed, rows: [{ ...timed.rows[0], recording: 'of another run' }] };
  expect(() => timedToCsv([timed, unknown])).toThrow(/^timed\[1\]\.rows\[0\]\.recording must be one of the recordings/);
});
