import { readCsv } from 'datumline';
import { expect, test } from 'vitest';

const lats = (text: string) => Array.from(readCsv(text)[0].lat);
const issues = (text: string) =>
  readCsv(text)[0].issues.map(({ reason, count, place }) => `${reason} ${count} ${place}`);

// RFC 4180, section 2: the rules by number
test.each([
  ['1, 2: rows end in CRLF, the last perhaps not', 'lat,lon\r\n60,5\r\n61,5'],
  ['lone LF or CR', 'lat,lon\n60,5\r61,5\n'],
  ['5: quoted cells', '"lat","lon"\r\n"60","5"\r\n61,"5"\r\n'],
  ['6: commas and line ends in quotes', 'lat,lon,note\r\n60,5,"a,\r\nb"\r\n61,5,c\r\n'],
  ['7: doubled quotes', 'lat,lon,"no""te"\r\n60,5,"a ""b"", c"\r\n61,5,\r\n'],
  ['semicolons', 'lat;lon\n60;5\n61;5'],
  ['tabs', 'lat\tlon\n60\t5\n61\t5'],
  ['bars', 'lat|lon\n60|5\n61|5'],
  ['a byte order mark', '\ufefflat,lon\n60,5\n61,5'],
  ['columns in any order, other names, units, blanks', ' Longitude [deg] , x, LATITUDE (deg) \n5,a, 60 \n5,b,61'],
])('%s', (_, text) => {
  expect(lats(text)).toEqual([60, 61]);
});

test('decimal commas, thousands in heights', () => {
  const [recording] = readCsv('lat;lon;ele\n60,5;5,25;1.234,5\n60,6;5,25;-12,75\n60,7;5,25;1 234');
  expect(Array.from(recording.lat)).toEqual([60.5, 60.6, 60.7]);
  expect(Array.from(recording.height!)).toEqual([1234.5, -12.75, 1234]);
  expect(readCsv('lat,lon,ele\n60.5,5,"1,234.5"\n60.6,5,"12,345,678"')[0].height).toEqual(
    Float64Array.of(1234.5, 12345678),
  );
});

test.each([
  ['2026-05-01T08:00:00Z', 1777622400000],
  ['2026-05-01 10:00:00+02:00', 1777622400000],
  ['1777622400', 1777622400000],
  ['1777622400000', 1777622400000],
  ['1777622400000000', 1777622400000],
  ['1777622400000250', 1777622400000.25],
  ['1777622400000000000', 1777622400000],
  ['12.5', 12500],
])('the time %s', (text, time) => {
  expect(readCsv(`lat,lon,time\n60,5,${text}\n60.1,5,`)[0].time![0]).toBe(time);
});

// ISO 8601-1:2019, 5.2 and 5.3 for the basic format; the others are common practice, no source
test.each([
  ['20260501T080000Z', 0],
  ['20260501T080000.5+02:00', -7_199_500],
  ['20260501080000Z', 0],
  ['2026-05-01T8:00:00Z', 0],
  ['2026-5-1 08:00Z', 0],
  ['2026.05.01 08:00:00Z', 0],
  ['01.05.2026 08:00:00Z', 0],
  ['1.5.2026 8:00:00.25 Z', 250],
  ['"1.5.2026, 8:00:00,25 Z"', 250],
  ['2026/05/01 08:00:00 AM Z', 0],
  ['01.05.2026 8:00:00 p.m. Z', 43_200_000],
  ['2026-05-01 12:00:00 AM Z', -28_800_000],
  ['2026-05-01 12:00:00 pmZ', 14_400_000],
  ['2026-05-01 13:00:00 PM Z', Number.NaN],
  ['2026-05-01 0:00:00 AM Z', Number.NaN],
  ['31.04.2026 08:00:00Z', Number.NaN],
  ['05/01/2026 08:00:00Z', Number.NaN],
  ['1/5/2026 8:00:00 PM Z', Number.NaN],
  ['1.5.26 08:00:00Z', Number.NaN],
])('a table may write the time %s', (text, past) => {
  const [{ time, issues }] = readCsv(`lat,lon,time\n60,5,${text}\n60.1,5,2026-05-01T23:00:00Z`);
  expect(time![0] - 1777622400000).toBe(past);
  expect(issues.map(({ reason }) => reason)).toEqual(Number.isNaN(past) ? ['unreadable-time', 'missing-time'] : []);
});

test('a spelled time without a zone asks for one', () => {
  const text = 'lat,lon,date,time\n60,5,01.05.2026,8:00:00 PM\n60.1,5,2026-05-01,08:00:01 PM';
  expect(() => readCsv(text)).toThrow('The first such time is 2026-05-01T20:00:00');
  expect(readCsv(text, { zone: '+02:00' })[0].time![1]).toBe(Date.UTC(2026, 4, 1, 18, 0, 1));
});

test('date and time in columns of their own; milliseconds by their unit', () => {
  expect(readCsv('lat,lon,date,time\n60,5,20260501,080000Z\n60.1,5,,')[0].time![0]).toBe(1777622400000);
  expect(readCsv('lat,lon,date,time\n60,5,2026-05-01,08:00:00Z\n60.1,5,,')[0].time![0]).toBe(1777622400000);
  expect(readCsv('lat,lon,elapsed (ms)\n60,5,0\n60.1,5,250')[0].time![1]).toBe(250);
});

test('a column of its own states the hemisphere', () => {
  for (const header of [
    'lat,N/S,lon,E/W',
    'Latitude,Latitude N/S,Longitude,Longitude E/W',
    'lat,lat_dir,lon,lon_dir',
  ]) {
    const [{ lat, lon }] = readCsv(`${header}\n60,S,5,W\n61,n,6,e\n-62,South,7,west\n0,S,8,\n`);
    expect([...lat]).toEqual([-60, 61, -62, 0]);
    expect([...lon]).toEqual([-5, 6, -7, 8]);
  }
  // some count satellites in a column of that name
  expect(lats('lat,lon,ns\n60,5,9\n61,5,10\n')).toEqual([60, 61]);
});

test('a header that stands again is no row, but a gap', () => {
  const [{ lat, gapBefore, issues }] = readCsv('lat,lon\n60,5\n60.1,5\nlat,lon\n61,5\n61.1,5\n');
  expect([...lat]).toEqual([60, 60.1, 61, 61.1]);
  expect([...gapBefore]).toEqual([1, 0, 1, 0]);
  expect(issues).toEqual([]);
});

test('zeros after a loss of power are passed over, and told', () => {
  for (const zeros of [1, 700, 70_000]) {
    for (const end of ['', '\n']) {
      const text = `lat,lon,ele\n60,5,1\n60.1,5,2${end}${'\0'.repeat(zeros)}`;
      expect([...readCsv(text)[0].height!]).toEqual([1, 2]);
      expect(issues(text)).toEqual([`trailing-bytes ${zeros} character ${27 + end.length}`]);
    }
  }
});

test('degrees and minutes in columns of their own are refused, not read without the minutes', () => {
  for (const parts of ['lat_deg,lat_min,lon_deg,lon_min', 'lat (deg),lat (min),lon (deg),lon (min)']) {
    const refusal = expect.objectContaining({ reason: 'unreadable', rule: expect.stringContaining('decimal degrees') });
    expect(() => readCsv(`${parts}\n60,6,5,12\n60,7,5,12\n`)).toThrow(refusal);
  }
  expect(lats('lat,lat_min,lat_max,lon\n60,59,61,5\n61,60,62,5\n')).toEqual([60, 61]);
});

test('a column of names parts recordings, a change of segment is a gap', () => {
  const text = 'track,segment,lat,lon\nA,1,60,5\nA,1,60.1,5\nB,1,61,5\nA,2,60.2,5\nB,1,61.1,5\n';
  expect(readCsv(text).map(({ name, lat, gapBefore }) => [name, [...lat], [...gapBefore]])).toEqual([
    ['A', [60, 60.1, 60.2], [1, 0, 1]],
    ['B', [61, 61.1], [1, 0]],
  ]);
});

test('what is dropped or mended is told', () => {
  expect(issues('a log\nof mine\nlat,lon\n60,5\n61,5\n')).toEqual(['preamble 2 line 1']);
  expect(issues('lat,lon\n60,5\n61\n62,5\n63,5,x\n')).toEqual(['ragged-row 2 line 3']);
  expect(issues('lat,lon,time\n60,5,1\n60,,2\n60.1,5,noon\n')).toEqual([
    'missing-position 1 line 3',
    'unreadable-time 1 line 4',
    'missing-time 1 line 4',
  ]);
  expect(issues('lat,lon,height\n60,5,high\n61,5,2\n')).toEqual(['unreadable-height 1 line 2']);
});

test.each([
  ['lat,lon\n95,5\n', 'swapped', 'line 2 latitude must be within [-90, 90], not 95'],
  ['lat,lon\nnorth,5\n', 'wrong-type', "line 2 latitude must be a number, not 'north'"],
  ['lat,lon\nNaN,5\n', 'not-finite', 'line 2 latitude must be a finite number'],
  ['lat,lon\n60,5\n', 'too-few', 'data must be a recording of at least 2 points'],
  ['lat,lon\n', 'too-few', 'data must be a recording of at least 2 points'],
  ['latitude only\n60\n', 'unreadable', 'data must be a table whose header names a longitude and a latitude'],
  ['lat,lon\n"60,5\n', 'unreadable', 'data line 2 must be a table row with a quote that ends'],
  ['lat,lon,time\n60,5,2026-05-01T08:00:00\n', 'missing', 'options.zone must be given when times'],
])('%j is refused', (text, reason, message) => {
  expect(() => readCsv(text)).toThrow(expect.objectContaining({ reason, message: expect.stringContaining(message) }));
});
