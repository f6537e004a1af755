import { InputError, readFit, readRecording, readRecordings } from 'datumline';
import { gzipSync } from 'fflate';
import { expect, test } from 'vitest';
import { sampleFiles, sampleFixes } from '../support/sampleFiles';

/** How fine each format's sample holds a position, in degrees, and a height, in metres. */
const steps: Record<keyof typeof sampleFiles, { angle: number; height: number; times?: 'none' }> = {
  gpx: { angle: 0, height: 0 },
  tcx: { angle: 0, height: 0 },
  kml: { angle: 0, height: 0 },
  kmz: { angle: 0, height: 0 },
  geojson: { angle: 0, height: 0 },
  // minutes to six places
  nmea: { angle: 0.5e-6 / 60 + 1e-12, height: 0 },
  csv: { angle: 0, height: 0 },
  // semicircles of 8.4e-8 degrees, fifths of a metre
  fit: { angle: 90 / 2 ** 31 + 1e-12, height: 0.1 + 1e-9 },
  gzipped: { angle: 0, height: 0 },
};

test.each(Object.keys(sampleFiles) as (keyof typeof sampleFiles)[])(
  'a %s document is recognised, and every fix, time and height of it read',
  async (key) => {
    const [recording] = await readRecordings(sampleFiles[key]);
    expect(recording.source.format).toBe(key === 'gzipped' ? 'gpx' : key);
    expect(recording.lon.length).toBe(sampleFixes.length);
    sampleFixes.forEach(({ time, lon, lat, height }, i) => {
      expect(recording.time![i]).toBe(time);
      expect(Math.abs(recording.lon[i] - lon)).toBeLessThanOrEqual(steps[key].angle);
      expect(Math.abs(recording.lat[i] - lat)).toBeLessThanOrEqual(steps[key].angle);
      expect(Math.abs(recording.height![i] - height)).toBeLessThanOrEqual(steps[key].height);
    });
    expect(Array.from(recording.gapBefore)).toEqual([1, 0, 0, 0, 0, 0, 1, 0, 0, 0, 0, 0]);
    // in NMEA only the time tells of the pause; the archive holds another document
    const told = { nmea: ['time-gap'], kmz: ['other-document'] }[key as string] ?? [];
    expect(recording.issues.map(({ reason }) => reason)).toEqual(told);
  },
);

test('names come from the file, or from the caller, numbered where there are several', async () => {
  const names = async (options?: object) => (await readRecordings(sampleFiles.kml, options)).map(({ name }) => name);
  expect(await names()).toEqual(['quay', 'lane']);
  expect(await names({ name: 'chest' })).toEqual(['chest 1', 'chest 2']);
  expect((await readRecording(sampleFiles.gpx, { name: 'chest' })).name).toBe('chest');
  expect((await readRecording(sampleFiles.csv)).name).toBe('quay, out');
});

test.each([Infinity, ' ', null])('readRecording takes no name that is none: %s', async (name) => {
  await expect(readRecording(sampleFiles.gpx, { name: name as string })).rejects.toThrow(
    /^options\.name must be a string that is not blank/,
  );
});

test('readRecording refuses several, naming them', async () => {
  await expect(readRecording(sampleFiles.kml)).rejects.toMatchObject({
    reason: 'ambiguous',
    message: "data must be a document with one recording, not 'quay, lane'. readRecordings gives them all",
  });
});

test('everything can be gzipped', async () => {
  for (const key of ['tcx', 'kml', 'geojson', 'nmea', 'csv', 'fit', 'gzipped'] as const) {
    const [recording] = await readRecordings(gzipSync(sampleFiles[key]));
    expect(recording.lon.length, key).toBe(12);
  }
});

test('text of any encoding that the document states or marks', async () => {
  const text = new TextDecoder().decode(sampleFiles.gpx).replace('quay', 'brücke');
  const utf16 = (bom: number[], big: boolean) =>
    Uint8Array.from([
      ...bom,
      ...[...text]
        .flatMap((c) => [c.charCodeAt(0) & 255, c.charCodeAt(0) >> 8])
        .flatMap((_, i, all) => (big ? [all[i ^ 1]] : [all[i]])),
    ]);
  const latin = Uint8Array.from(text.replace('UTF-8', 'ISO-8859-1'), (c) => c.charCodeAt(0));
  const plain = text.replace(/<\?xml.*?\?>/, '');
  for (const data of [
    `\ufeff${text}`,
    new TextEncoder().encode(`\ufeff${text}`),
    utf16([0xff, 0xfe], false),
    utf16([0xfe, 0xff], true),
    utf16([], false),
    utf16([], true),
    latin,
    plain,
  ]) {
    expect((await readRecording(data)).name).toBe('brücke');
  }
});

test.each([
  ['empty', new Uint8Array(), {}, 'too-few', 'data must be a document that is not empty'],
  ['an unknown kind of XML', '<svg/>', {}, 'unreadable', 'data must be XML whose outermost element is gpx, kml'],
  ['words', 'no such thing', {}, 'unreadable', 'data must be a table whose header names a longitude'],
  ['JSON of another kind', '{"a":1}', {}, 'unreadable', 'data type must be a type of GeoJSON'],
  ['a gzip file cut off', sampleFiles.gzipped.subarray(0, 200), {}, 'unreadable', 'data must be a whole gzip file'],
  ['a zip archive cut off', sampleFiles.kmz.subarray(0, 200), {}, 'unreadable', 'data must be a whole zip archive'],
  ['bytes that are no text', Uint8Array.of(60, 255, 254, 62), {}, 'unreadable', 'data must be text encoded as utf-8'],
  ['an unknown option', 'x', { speed: 1 }, 'unknown-key', 'options.speed must be one of name, zone, '],
  ['an unknown format', 'x', { format: 'doc' }, 'wrong-type', "options.format must be 'gpx', 'tcx', 'kml', 'kmz'"],
  ['an unknown zone', 'x', { zone: 'Mars' }, 'wrong-type', "options.zone must be 'UTC', an offset such as"],
  ['a name that is none', 'x', { name: '' }, 'wrong-type', 'options.name must be a string'],
  ['text as FIT', 'x', { format: 'fit' }, 'wrong-type', 'data must be bytes: FIT is not'],
  [
    'no data',
    undefined,
    {},
    'wrong-type',
    'data must be a string, bytes, a Blob, a Response or a stream of bytes, not undefined',
  ],
])('%s is refused', async (_, data, options, reason, message) => {
  const error = await readRecordings(data as string, options as object).catch((caught) => caught);
  expect(error).toBeInstanceOf(InputError);
  expect(error).toMatchObject({ reason, message: expect.stringContaining(message) });
});

test('readFit takes a zone and needs none: FIT times are UTC', async () => {
  expect(await readFit(sampleFiles.fit, { zone: '+02:00' })).toEqual(await readFit(sampleFiles.fit));
});

test('times without a zone are in the zone given, summer and winter', async () => {
  const read = async (time: string, zone: string) => {
    const { time: times } = await readRecording(`lat,lon,time\n60,5,${time}\n60,5.0001,`, { zone });
    return new Date(times![0]).toISOString();
  };
  expect(await read('2026-07-01T12:00:00', 'UTC')).toBe('2026-07-01T12:00:00.000Z');
  expect(await read('2026-07-01T12:00:00', '+05:45')).toBe('2026-07-01T06:15:00.000Z');
  expect(await read('2026-07-01T12:00:00', '-03:30')).toBe('2026-07-01T15:30:00.000Z');
  // rules of the time zone database, as the platform carries it
  expect(await read('2026-07-01T12:00:00', 'Europe/Oslo')).toBe('2026-07-01T10:00:00.000Z');
  expect(await read('2026-01-01T12:00:00', 'Europe/Oslo')).toBe('2026-01-01T11:00:00.000Z');
  // 2026-10-25 02:30 happens twice there: the earlier; 2026-03-29 02:30 never: with the offset before
  expect(await read('2026-10-25T02:30:00', 'Europe/Oslo')).toBe('2026-10-25T00:30:00.000Z');
  expect(await read('2026-03-29T02:30:00', 'Europe/Oslo')).toBe('2026-03-29T01:30:00.000Z');
  // a time that states its zone is not touched
  expect(await read('2026-07-01T12:00:00+01:00', 'Europe/Oslo')).toBe('2026-07-01T11:00:00.000Z');
});
