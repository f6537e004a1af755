import { readFileSync } from 'node:fs';
import { InputError, readGpx, readLines, readRecordings, readTcx, writeGpx } from 'datumline';
import { expect, test } from 'vitest';

const real = readFileSync(
  new URL('../../node_modules/gpx-parse/tests/integration/data/route-1.1.gpx', import.meta.url),
);

const gpx = (points: string) => `<gpx version="1.1"><trk><trkseg>${points}</trkseg></trk></gpx>`;
const two = '<trkpt lat="60" lon="5"/><trkpt lat="60.0001" lon="5"/>';

test('the real recording has every fix, time and height', () => {
  const [recording, ...others] = readGpx(real);
  expect(others).toEqual([]);
  expect(recording.lon.length).toBe(7745);
  expect(recording.time!.every(Number.isFinite)).toBe(true);
  expect(recording.height!.every(Number.isFinite)).toBe(true);
  // 1 Hz by a general tool: grep -c '<time>' gives 7745
  expect(recording.time!.slice(1).every((time, i) => time > recording.time![i])).toBe(true);
  expect(readGpx(writeGpx(recording, { identity: 'keep', times: 'absolute' }))[0]).toMatchObject({
    lon: recording.lon,
    lat: recording.lat,
    time: recording.time,
    height: recording.height,
    gapBefore: recording.gapBefore,
  });
});

test.each([
  ['an empty file', '', 'too-few', 'data must be a document that is not empty'],
  ['blanks', ' \n ', 'too-few', 'data must be a document that is not empty'],
  ['no bytes', new Uint8Array(), 'too-few', 'data must be a document that is not empty'],
  ['not XML', 'hello', 'unreadable', 'data line 1, column 1 must be XML'],
  ['XML that is not GPX', '<kml/>', 'unreadable', "data must be GPX, whose outermost element is gpx, not 'kml'"],
  ['no track', '<gpx version="1.1"/>', 'too-few', 'data must be a recording of at least 2 points'],
  ['no points', gpx(''), 'too-few', 'data must be a recording of at least 2 points with a position, not 0'],
  ['one point', gpx('<trkpt lat="60" lon="5"/>'), 'too-few', 'data must be a recording of at least 2 points with'],
  ['a latitude past 90', gpx(`${two}<trkpt lat="95" lon="200"/>`), 'out-of-range', 'point 3 latitude must be within'],
  [
    'swapped order',
    gpx('<trkpt lat="120" lon="5"/>'),
    'swapped',
    'segment 1, point 1 latitude must be within [-90, 90]',
  ],
  ['a position that is NaN', gpx('<trkpt lat="NaN" lon="5"/>'), 'not-finite', 'latitude must be a finite number'],
  ['a position that is too large', gpx('<trkpt lat="1e999" lon="5"/>'), 'not-finite', 'latitude must be a finite'],
  ['a position in words', gpx('<trkpt lat="north" lon="5"/>'), 'wrong-type', "latitude must be a number, not 'north'"],
  [
    'a time without zone',
    gpx(two.replace('/>', '><time>2026-05-01T08:00:00</time></trkpt>')),
    'missing',
    'options.zone',
  ],
  ['neither text nor bytes', 5 as never, 'wrong-type', 'data must be a string or bytes, not 5'],
])('%s is refused', (_, data, reason, message) => {
  let caught: unknown;
  try {
    readGpx(data);
  } catch (error) {
    caught = error;
  }
  expect(caught).toBeInstanceOf(InputError);
  expect(caught).toMatchObject({ reason, message: expect.stringContaining(message) });
});

const second = (i: number) => `2026-05-01T08:00:${String(i).padStart(2, '0')}Z`;
const five = Array.from({ length: 5 }, (_, i) => ({ lon: `5.000${i}`, time: second(i) }));
const documents = [
  {
    format: 'GPX',
    read: readGpx,
    head: '<?xml version="1.0"?>\n<gpx version="1.1"><trk><name>quay</name><trkseg>',
    points: five.map(({ lon, time }) => `<trkpt lat="60" lon="${lon}"><ele>3</ele><time>${time}</time></trkpt>\n`),
    tail: '</trkseg></trk></gpx>',
  },
  {
    format: 'TCX',
    read: readTcx,
    head: '<TrainingCenterDatabase><Activities><Activity Sport="Biking"><Id>1</Id><Lap><Track>',
    points: five.map(
      ({ lon, time }) =>
        `<Trackpoint><Time>${time}</Time><Position><LatitudeDegrees>60</LatitudeDegrees><LongitudeDegrees>${lon}` +
        '</LongitudeDegrees></Position></Trackpoint>\n',
    ),
    tail: '</Track></Lap></Activity></Activities></TrainingCenterDatabase>',
  },
];

test.each(documents)('$format that is cut off anywhere keeps the whole points before, and says so', (document) => {
  const { read, head, points, tail } = document;
  const whole = `${head}${points.join('')}${tail}`;
  const ends = points.map((_, i) => head.length + points.slice(0, i + 1).join('').length - 1);
  for (let end = ends[1]; end < whole.length; end++) {
    const [recording] = read(whole.slice(0, end));
    const kept = ends.filter((at) => at <= end).length;
    expect(Array.from(recording.lon), `cut at ${end}`).toEqual(five.slice(0, kept).map(({ lon }) => Number(lon)));
    expect(Array.from(recording.time!)).toEqual(five.slice(0, kept).map(({ time }) => Date.parse(time)));
    expect(recording.issues).toMatchObject([{ reason: 'cut-off', count: 1 }]);
  }
  expect(read(whole)[0].issues).toEqual([]);
  // before there is anything to keep
  for (let end = 1; end < ends[1]; end++) expect(() => read(whole.slice(0, end)), `cut at ${end}`).toThrow(InputError);
});

test.each(documents)(
  '$format filled up with zeros after a loss of power is one that is cut off there',
  async (document) => {
    const { read, head, points, tail } = document;
    const zeros = '\0'.repeat(700);
    const reasons = (text: string) => read(text)[0].issues.map(({ reason, count }) => `${reason} ${count}`);
    expect(reasons(`${head}${points.join('')}<${zeros}`)).toEqual(['cut-off 1', 'trailing-bytes 700']);
    expect(reasons(`${head}${points.join('')}${tail}${zeros}`)).toEqual(['trailing-bytes 700']);
    const bytes = new TextEncoder().encode(`${head}${points.join('')}${zeros}`);
    expect((await readRecordings(bytes))[0].lon).toEqual(read(`${head}${points.join('')}${tail}`)[0].lon);
  },
);

test('a line to author from is never read in part', () => {
  const [{ head, points }] = documents;
  expect(() => readLines(`${head}${points.join('')}`)).toThrow(/unclosed tag/);
});

test('what is not well-formed before its end is refused all the same', () => {
  const [{ head, points }] = documents;
  expect(() => readGpx(`${head}${points.join('')}</trk>`)).toThrow(/well-formed/);
});
