import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import {
  InputError,
  readCsv,
  readFit,
  readGeoJson,
  readGpx,
  readKml,
  readLines,
  readNmea,
  readRecordings,
} from 'datumline';
import { gzipSync } from 'fflate';
import { expect, test } from 'vitest';
import { smallestPoints } from '../../bench/support/smallestPoints';
import { sampleFiles } from '../support/sampleFiles';

const hostile = ['KML', 'GPX comment'];
test.each(hostile)(
  '8 MB of the smallest there are of %s are read in a heap of 128 MB, of which the code takes half',
  (what) => {
    const folder = mkdtempSync(join(tmpdir(), 'datumline memory '));
    try {
      const file = join(folder, 'document');
      writeFileSync(file, smallestPoints(what, 8e6));
      const script = fileURLToPath(new URL('../../bench/support/peakMemory.ts', import.meta.url));
      const words = ['--max-old-space-size=128', '--import', 'tsx', script, file, 'any'];
      const risen = Number(execFileSync(process.execPath, words, { encoding: 'utf8' }));
      expect(risen).toBeGreaterThan(8e6);
      expect(risen).toBeLessThan(20 * 8e6);
    } finally {
      rmSync(folder, { recursive: true });
    }
  },
);

const reasonOf = async (call: () => unknown): Promise<string> => {
  try {
    await call();
  } catch (error) {
    expect(error).toBeInstanceOf(InputError);
    return `${(error as InputError).reason}: ${(error as Error).message}`;
  }
  return 'read';
};

test('an attribute of over a million characters is refused, one of a million read', async () => {
  const document = (length: number) =>
    `<gpx><trk a="${'\t'.repeat(length)}"><trkseg><trkpt lat="60" lon="5"/><trkpt lat="61" lon="5"/></trkseg></trk></gpx>`;
  expect(await reasonOf(() => readGpx(document(2 ** 20 - 100)))).toBe('read');
  for (const data of [document(2 ** 21), new TextEncoder().encode(document(2 ** 21))]) {
    expect(await reasonOf(() => readGpx(data))).toMatch(
      /^too-large: data line 1, column \d+ must be attributes of at most 1048576 characters/,
    );
  }
});

const readers = {
  gpx: readGpx,
  kml: readKml,
  kmz: readKml,
  geojson: readGeoJson,
  nmea: readNmea,
  csv: readCsv,
  fit: readFit,
};

test.each(Object.entries(readers))('the longest %s document that is read is an option', async (format, read) => {
  const bytes = sampleFiles[format as keyof typeof readers];
  const own = read as (data: Uint8Array, options: object) => unknown;
  // an archive is held to what it unpacks to, which is longer
  if (format !== 'kmz') expect(await reasonOf(() => own(bytes, { maxBytes: bytes.length }))).toBe('read');
  const refused = /^too-large: data must be at most \d+ bytes, not \d+\. The option maxBytes sets the limit/;
  expect(await reasonOf(() => own(bytes, { maxBytes: bytes.length - 1 }))).toMatch(refused);
  expect(await reasonOf(() => readRecordings(bytes, { maxBytes: bytes.length - 1 }))).toMatch(refused);
  const packed = gzipSync(bytes);
  if (format === 'kmz') return;
  expect(await reasonOf(() => readRecordings(packed, { maxBytes: bytes.length - 1 }))).toMatch(refused);
  expect(await reasonOf(() => readRecordings(packed, { maxBytes: bytes.length }))).toBe('read');
});

test('so is how many recordings it may hold', async () => {
  const track = '<trk><trkseg><trkpt lat="60" lon="5"/><trkpt lat="60.0001" lon="5"/></trkseg></trk>';
  const gpx = `<gpx>${track.repeat(3)}</gpx>`;
  const csv = 'track,lat,lon\na,60,5\na,61,5\nb,60,5\nb,61,5\nc,60,5\nc,61,5\n';
  const refused =
    'too-large: data must be a document of up to 2 recordings, not 3. The option maxRecordings sets the limit';
  for (const call of [
    () => readGpx(gpx, { maxRecordings: 2 }),
    () => readCsv(csv, { maxRecordings: 2 }),
    () => readLines(gpx, { maxRecordings: 2 }),
    () => readRecordings(csv, { maxRecordings: 2 }),
  ]) {
    expect(await reasonOf(call)).toBe(refused);
  }
  expect(readGpx(gpx, { maxRecordings: 3 })).toHaveLength(3);
  const many = `<gpx>${track.repeat(10_001)}</gpx>`;
  expect(await reasonOf(() => readGpx(many))).toMatch(/^too-large: data must be a document of up to 10000 recordings/);
  expect(readGpx(many, { maxRecordings: 20_000 })).toHaveLength(10_001);
});

test.each([0, -1, Number.NaN, 2 ** 30, '5', null])('limits that are none are refused: %s', async (value) => {
  const csv = 'lat,lon\n60,5\n61,5\n';
  expect(await reasonOf(() => readCsv(csv, { maxBytes: value as number }))).toMatch(/options\.maxBytes must be/);
  expect(await reasonOf(() => readLines(csv, { maxBytes: value as number }))).toMatch(/options\.maxBytes must be/);
  if (value !== 2 ** 30) {
    expect(await reasonOf(() => readCsv(csv, { maxRecordings: value as number }))).toMatch(
      /options\.maxRecordings must/,
    );
  }
});
