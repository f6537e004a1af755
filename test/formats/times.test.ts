import {
  type Recording,
  readCsv,
  readFit,
  readGeoJson,
  readGpx,
  readKml,
  readNmea,
  readRecordings,
  readTcx,
  routeFromGeoJson,
} from 'datumline';
import { expect, test } from 'vitest';
import { parseTime } from '../../src/model';
import { sampleFiles } from '../support/sampleFiles';

// XML Schema Part 2, 3.2.7; RFC 3339, appendix C has the days of each month
test.each([
  ['2024-02-29T00:00:00Z', Date.UTC(2024, 1, 29)],
  ['2024-02-30T00:00:00Z', Number.NaN],
  ['2024-02-31T12:00:00Z', Number.NaN],
  ['2023-02-29T00:00:00Z', Number.NaN],
  ['1900-02-29T00:00:00Z', Number.NaN],
  ['2000-02-29T00:00:00Z', Date.UTC(2000, 1, 29)],
  ['2026-04-31T00:00:00Z', Number.NaN],
  ['2026-13-01T00:00:00Z', Number.NaN],
  ['2026-00-01T00:00:00Z', Number.NaN],
  ['2026-01-00T00:00:00Z', Number.NaN],
  ['2026-05-01T24:00:00Z', Date.UTC(2026, 4, 2)],
  ['2026-05-01T10:00:00+14:00', Date.UTC(2026, 3, 30, 20)],
  ['2026-05-01T10:00:00+10:75', Number.NaN],
  ['2026-05-01T10:00:00', Number.NaN],
])('%s', (text, time) => {
  expect(parseTime(text)).toBe(time);
});

test('every day of 800 years is the day after the one before', () => {
  let day = Date.parse('1599-12-31T00:00:00Z');
  for (const end = Date.parse('2400-01-01T00:00:00Z'); day <= end; day += 86_400_000) {
    expect(parseTime(new Date(day).toISOString())).toBe(day);
  }
  expect(parseTime('0000-01-01T00:00:00Z')).toBe(Date.parse('0000-01-01T00:00:00Z'));
});

test('a day that is not is refused for a mark, and noted of a fix', () => {
  const feature = (geometry: object, properties: object) => ({ type: 'Feature', geometry, properties });
  const line = feature(
    {
      type: 'LineString',
      coordinates: [
        [5, 60],
        [5.01, 60],
      ],
    },
    {},
  );
  const mark = feature({ type: 'Point', coordinates: [5, 60] }, { name: 'a', time: '2024-02-31T12:00:00Z' });
  expect(() => routeFromGeoJson({ type: 'FeatureCollection', features: [line, mark] } as never)).toThrow(
    'properties.time must be ISO 8601 with its zone',
  );
  const [recording] = readCsv('lat,lon,time\n60,5,2024-02-31T12:00:00Z\n60.1,5,2024-03-01T12:00:00Z');
  expect(recording.issues.map(({ reason }) => reason)).toContain('unreadable-time');
  const [log] = readNmea(
    '$GPRMC,000000,A,6000.000,N,00500.000,E,,,310224,,\n$GPRMC,000001,A,6000.001,N,00500.000,E,,,010324,,',
  );
  expect(log.issues.map(({ reason }) => reason)).toContain('unreadable-date');
});

test('times without a zone are refused, or read in the one given and noted', () => {
  const table = 'lat,lon,time\n60,5,2026-05-01T10:00:00\n60.1,5,2026-05-01T10:00:01';
  expect(() => readCsv(table)).toThrow(expect.objectContaining({ reason: 'missing', argument: 'options.zone' }));
  const [recording] = readCsv(table, { zone: '+02:00' });
  expect(recording.time![0]).toBe(Date.UTC(2026, 4, 1, 8));
  expect(recording.issues.find(({ reason }) => reason === 'zone-less-time')).toMatchObject({
    count: 2,
    place: 'line 2',
  });
});

test('through an hour that a change of clocks repeats, times go on; a step back of a second stays one', () => {
  // 2026-10-25T01:00Z: 03:00 becomes 02:00, by the time zone database
  const change = Date.UTC(2026, 9, 25, 1);
  for (const order of [
    [-3600, -4, -3, -1, 0, 1, 2, 1500, 3000, 3599, 3600, 7200],
    [-3601, -4, -1, -2, 1, 0, 2, 1500, 3000, 3599, 3601, 3600, 7200],
  ]) {
    const times = order.map((seconds) => change + 1000 * seconds);
    const rows = times.map((time, i) => {
      const local = new Date(time + (time < change ? 2 : 1) * 3_600_000).toISOString().slice(0, 19);
      return `60.${i},5,${local}`;
    });
    expect([...readCsv(`lat,lon,time\n${rows.join('\n')}`, { zone: 'Europe/Oslo' })[0].time!]).toEqual(times);
  }
});

type Read = (data: never, options?: object) => Recording[] | Promise<Recording[]>;

test.each<[string, Read, string | Uint8Array]>([
  ['gpx', readGpx as Read, sampleFiles.gpx],
  ['tcx', readTcx as Read, sampleFiles.tcx],
  ['kml', readKml as Read, sampleFiles.kml],
  ['geojson', readGeoJson as Read, sampleFiles.geojson],
  ['csv', readCsv as Read, sampleFiles.csv],
  ['nmea', readNmea as Read, sampleFiles.nmea],
  ['fit', readFit as Read, sampleFiles.fit],
])('%s: a zone moves no time that needs none, and one that is none is refused', async (_, read, data) => {
  const times = (recordings: Recording[]) => recordings.map(({ time }) => time);
  const plain = await read(data as never, { zone: 'UTC' });
  const stated = await read(data as never, { zone: '+05:00' });
  if (!stated.some(({ issues }) => issues.some(({ reason }) => reason === 'zone-less-time'))) {
    expect(times(stated)).toEqual(times(plain));
  }
  expect(times(await readRecordings(data, { zone: '+05:00' }))).toEqual(times(stated));
  await expect((async () => read(data as never, { zone: 'Nowhere' }))()).rejects.toMatchObject({
    reason: 'wrong-type',
    argument: 'options.zone',
  });
});
