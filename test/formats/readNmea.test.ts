import { readNmea, readRecordings } from 'datumline';
import { expect, test } from 'vitest';
import { nmeaChecksum } from '../../src/formats/nmeaChecksum';
import { nmeaSentences } from '../published/nmeaSentences';
import { sentence } from '../support/sampleFiles';

const rmc = (clock: string, date: string, lat = '6000.000', rest = ',,,A', status = 'A') =>
  sentence(`GPRMC,${clock},${status},${lat},N,00500.000,E,4.0,090.0,${date}${rest}`);
const gga = (clock: string, lat = '6000.000', quality = '1', talker = 'GP') =>
  sentence(`${talker}GGA,${clock},${lat},N,00500.000,E,${quality},09,0.8,12.5,M,46.9,M,,`);
const times = (lines: string[]) => Array.from(readNmea(lines.join('\r\n'))[0].time!, (t) => new Date(t).toISOString());
const reasons = (lines: string[]) =>
  readNmea(lines.join('\n'))[0].issues.map(({ reason, count, place }) => `${reason} ${count} ${place}`);

test.each(nmeaSentences)('the published checksum of $body', ({ body, checksum }) => {
  expect(nmeaChecksum(body)).toBe(Number.parseInt(checksum, 16));
});

test('the published fix: 48° 07.038′ N, 11° 31.000′ E, 545.4 m, 1994-03-23T12:35:19Z', () => {
  const both = nmeaSentences.slice(0, 2).map(({ body, checksum }) => `$${body}*${checksum}`);
  const next = sentence('GPGGA,123520,4807.039,N,01131.000,W,1,08,0.9,545.4,M,46.9,M,,');
  const [recording] = readNmea([...both, next].join('\r\n'));
  expect(recording.lat[0]).toBeCloseTo(48.1173, 10);
  expect(recording.lon[0]).toBeCloseTo(11.516666666667, 10);
  expect(recording.lon[1]).toBeCloseTo(-11.516666666667, 10);
  expect(recording.height![0]).toBe(545.4);
  expect(recording.hdop![0]).toBe(0.9);
  expect(recording.satellites![0]).toBe(8);
  expect(new Date(recording.time![0]).toISOString()).toBe('1994-03-23T12:35:19.000Z');
});

test('degrees and minutes stand together: ddmm.mmmm, dddmm.mmmm', () => {
  const [recording] = readNmea(
    ['0000.600,N,00000.600,E', '8959.999,S,17959.999,W', '6060.000,N,00500.000,E', '4530.000,N,09030.000,E']
      .map((place, i) => sentence(`GNGLL,${place},00000${i},A,A`))
      .join('\n'),
  );
  expect(Array.from(recording.lat)).toEqual([0.01, -(89 * 60 + 59.999) / 60, 45.5]);
  expect(Array.from(recording.lon)).toEqual([0.01, -(179 * 60 + 59.999) / 60, 90.5]);
  expect(recording.issues.map(({ reason }) => reason)).toContain('missing-position'); // 60 minutes are none
});

test('sentences of one time are one fix, of whatever talker, the one with a height first', () => {
  const [recording] = readNmea(
    [
      rmc('120000.00', '010526'),
      gga('120000.00', '6000.001', '1', 'GN'),
      rmc('120001.00', '010526'),
      gga('120001.00', '6000.002', '1', 'GA'),
    ].join('\n'),
  );
  expect(Array.from(recording.lat, (lat) => +((lat - 60) * 60).toFixed(6))).toEqual([0.001, 0.002]);
  expect(Array.from(recording.height!)).toEqual([12.5, 12.5]);
});

test('midnight passes: dates go on, forwards and back from the first one known', () => {
  expect(times([gga('235958'), gga('235959'), gga('000000'), rmc('000001', '010127'), gga('000002')])).toEqual([
    '2026-12-31T23:59:58.000Z',
    '2026-12-31T23:59:59.000Z',
    '2027-01-01T00:00:00.000Z',
    '2027-01-01T00:00:01.000Z',
    '2027-01-01T00:00:02.000Z',
  ]);
  expect(times([rmc('235959', '280228'), gga('000000', '6000.001'), gga('000001', '6000.002')])[2]).toBe(
    '2028-02-29T00:00:01.000Z',
  );
});

test('a log without a date counts from 1970, and says so', () => {
  expect(times([gga('235959'), gga('000000', '6000.001')])).toEqual([
    '1970-01-01T23:59:59.000Z',
    '1970-01-02T00:00:00.000Z',
  ]);
  expect(reasons([gga('235959'), gga('000000', '6000.001')])).toEqual(['no-date 1 line 1']);
});

test('years of two digits are 1980 to 2079; ZDA has four', () => {
  expect(times([rmc('000000', '060180'), rmc('000001', '060180', '6000.001')])[0]).toBe('1980-01-06T00:00:00.000Z');
  expect(times([rmc('000000', '311279'), rmc('000001', '311279', '6000.001')])[0]).toBe('2079-12-31T00:00:00.000Z');
  expect(times([gga('000000'), sentence('GPZDA,000000,04,07,2002,00,00'), gga('000001', '6000.001')])[0]).toBe(
    '2002-07-04T00:00:00.000Z',
  );
});

test('a date stated before its fix is the date of it, and of all that follow, over midnight too', () => {
  const zda = (clock: string, day: string) => sentence(`GPZDA,${clock},${day},07,2002,00,00`);
  const fixes = [gga('235959'), gga('000000', '6000.001')];
  const dated = ['2002-07-04T23:59:59.000Z', '2002-07-05T00:00:00.000Z'];
  expect(times([zda('235959', '04'), fixes[0], zda('000000', '05'), fixes[1]])).toEqual(dated);
  expect(times([zda('235959', '04'), ...fixes])).toEqual(dated);
  expect(times([zda('235950', '04'), ...fixes])).toEqual(dated);
  expect(times([fixes[0], zda('000000', '05'), fixes[1]])).toEqual(dated);
  expect(times([...fixes, zda('000001', '05')])).toEqual(dated);
  expect(times([zda('', ''), ...fixes, zda('000001', '05')])).toEqual(dated);
  // a date of its own counts for more
  expect(times([zda('235959', '03'), rmc('235959', '040702'), fixes[1]])).toEqual(dated);
  expect(reasons([zda('235959', '04'), ...fixes])).toEqual([]);
});

test('a log saved as UTF-16 is read as one of ASCII', async () => {
  const lines = [rmc('120000', '010526'), rmc('120001', '010526', '6000.001')].join('\r\n');
  const [plain] = readNmea(lines);
  for (const saved of [`\ufeff${lines}`, lines]) {
    const little = Buffer.from(saved, 'utf16le');
    for (const bytes of [little, Buffer.from(little).swap16()]) {
      expect(readNmea(bytes)[0]).toEqual(plain);
      expect((await readRecordings(bytes))[0].lat).toEqual(plain.lat);
    }
  }
});

test('a week counter run over is mended where the neighbours know better', () => {
  // 1024 weeks before 2026-05-01 is 2006-09-15
  const lines = [rmc('120000', '010526'), rmc('120001', '150906', '6000.001'), rmc('120002', '010526', '6000.002')];
  expect(times(lines)).toEqual(['2026-05-01T12:00:00.000Z', '2026-05-01T12:00:01.000Z', '2026-05-01T12:00:02.000Z']);
  expect(reasons(lines)).toEqual(['week-rollover 1 line 2']);
});

test('a week counter mended on the way mends what stands before, over midnight too', () => {
  const lines = [
    rmc('235959', '140906'),
    rmc('000000', '150906', '6000.001'),
    rmc('000001', '010526', '6000.002'),
    rmc('000002', '010526', '6000.003'),
  ];
  expect(times(lines)).toEqual([
    '2026-04-30T23:59:59.000Z',
    '2026-05-01T00:00:00.000Z',
    '2026-05-01T00:00:01.000Z',
    '2026-05-01T00:00:02.000Z',
  ]);
  expect(readNmea(lines.join('\n'))[0].issues.map(({ reason, count }) => `${reason} ${count}`)).toEqual([
    'week-rollover 2',
  ]);
});

test.each([
  ['status V', rmc('120001', '010526', '6000.001', ',,,A', 'V'), 'no-fix 1 line 2'],
  ['mode N', rmc('120001', '010526', '6000.001', ',,,N'), 'no-fix 1 line 2'],
  ['quality 0', gga('120001', '6000.001', '0'), 'no-fix 1 line 2'],
  ['quality 6', gga('120001', '6000.001', '6'), 'estimated-position 1 line 2'],
  ['mode E', rmc('120001', '010526', '6000.001', ',,,E'), 'estimated-position 1 line 2'],
  ['quality 7', gga('120001', '6000.001', '7'), 'entered-position 1 line 2'],
  ['quality 8', gga('120001', '6000.001', '8'), 'entered-position 1 line 2'],
  ['mode S', rmc('120001', '010526', '6000.001', ',,,S'), 'entered-position 1 line 2'],
  ['no position', sentence('GPRMC,120001,A,,,,,,,010526,,,A'), 'missing-position 1 line 2'],
  ['a failing checksum', `${gga('120001').slice(0, -2)}00`, 'checksum 1 line 2'],
  ['a sentence cut off', gga('120001').slice(0, -3), 'checksum 1 line 2'],
  ['something else', '=== log ===', 'not-a-sentence 1 line 2'],
])('%s: told, and dropped unless estimated', (_, line, issue) => {
  const lines = [rmc('120000', '010526'), line, rmc('120002', '010526', '6000.002'), gga('120003', '6000.003')];
  expect(reasons(lines)).toEqual([issue]);
  const [recording] = readNmea(lines.join('\n'));
  const estimated = issue.startsWith('estimated');
  expect(recording.lat.length).toBe(estimated ? 4 : 3);
  // where the receiver had no fix the line is broken; a lost line is not known to have been one, nor an empty position
  const dropped = /^(no-fix|entered)/.test(issue);
  expect(Array.from(recording.gapBefore)).toEqual(estimated ? [1, 0, 0, 0] : [1, dropped ? 1 : 0, 0]);
});

test('sentences without any checksum are taken, and counted', () => {
  const bare = [gga('120000'), gga('120001', '6000.001')].map((line) => line.slice(0, -3));
  expect(reasons(bare)).toEqual(['no-date 1 line 1', 'unchecked 2 line 1']);
});

test('faster than a fix a second with whole seconds: every one kept', () => {
  const lines = [gga('120000'), gga('120000', '6000.001'), gga('120001', '6000.002'), gga('120001', '6000.003')];
  expect(readNmea(lines.join('\n'))[0].lat.length).toBe(4);
  expect(reasons(lines)).toEqual(['no-date 1 line 1', 'repeated-time 2 line 2']);
});

test('where to steer and where to go is no fix', () => {
  const others = [
    sentence('GPXTE,A,A,0.67,L,N'),
    sentence('GPRMB,A,0.66,L,003,004,4917.24,N,12309.57,W,001.3,052.5,000.5,V'),
    sentence('GPWPL,4807.038,N,01131.000,E,WPTNME'),
    '!AIVDM,1,1,,A,0,0*26',
    '$PXXX,1',
  ];
  const [recording] = readNmea([gga('120000'), ...others, gga('120001', '6000.001'), ...others].join('\n'));
  expect(Array.from(recording.lon)).toEqual([5, 5]);
  expect(recording.issues.map(({ reason }) => reason)).toEqual(['no-date']);
});

test('a logger may stamp each line, and two sentences may have run together', () => {
  const lines = [`[12:00] ${gga('120000')}`, `$GPGGA,12${gga('120001', '6000.001')}`];
  expect(readNmea(lines.join('\n'))[0].lat.length).toBe(2);
});
