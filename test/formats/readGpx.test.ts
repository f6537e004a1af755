import { readFileSync } from 'node:fs';
import { InputError, readGpx, writeGpx } from 'datumline';
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
  ['neither text nor bytes', 5 as never, 'wrong-type', 'data must be a string or a Uint8Array, not 5'],
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
