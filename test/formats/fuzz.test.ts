import { InputError, type Recording, type RecordingFormat, readLines, readRecordings } from 'datumline';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { byteChanges, changeBytes, changeText, textChanges } from '../support/mutations';
import { sampleFiles } from '../support/sampleFiles';

/** Recordings that a caller can rely on: columns of one length, nothing but numbers and NaN where it may stand. */
function expectSound(recordings: readonly Recording[]): void {
  expect(recordings.length).toBeGreaterThan(0);
  for (const { name, lon, lat, time, height, hdop, satellites, accuracy, gapBefore, issues } of recordings) {
    const n = lon.length;
    expect(name).not.toBe('');
    expect(n).toBeGreaterThanOrEqual(2);
    expect(lon.every((value) => value >= -180 && value < 180)).toBe(true);
    expect(lat.every((value) => Math.abs(value) <= 90)).toBe(true);
    expect(gapBefore.length).toBe(n);
    expect(gapBefore[0]).toBe(1);
    for (const column of [lat, time, height, hdop, satellites, accuracy]) {
      expect(column === undefined || column.length === n).toBe(true);
      expect(column?.some((value) => Math.abs(value) === Infinity) ?? false).toBe(false);
      // a column of nothing is absent
      expect(column?.some(Number.isFinite) ?? true).toBe(true);
    }
    for (const { count, place, message } of issues) {
      expect(count).toBeGreaterThan(0);
      expect(place).not.toBe('');
      expect(message).not.toBe('');
    }
  }
}

async function readOrRefuse(data: string | Uint8Array, format?: RecordingFormat): Promise<'read' | 'refused'> {
  try {
    expectSound(await readRecordings(data, format ? { format, zone: 'UTC' } : { zone: 'UTC' }));
    return 'read';
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    expect(error.message).toMatch(/ must be .*, not /s);
    return 'refused';
  }
}

/** How often to change each format's sample: 10 000 times in all. */
const texts: Partial<Record<RecordingFormat, number>> = {
  gpx: 2000,
  tcx: 1300,
  kml: 1300,
  geojson: 1300,
  nmea: 1300,
  csv: 1300,
};
const binaries: Partial<Record<keyof typeof sampleFiles, number>> = { fit: 700, kmz: 400, gzipped: 400 };

test('10 000 documents are changed', () => {
  const all = [...Object.values(texts), ...Object.values(binaries)];
  expect(all.reduce((sum, count) => sum + count, 0)).toBe(10_000);
});

test.each(Object.entries(texts))(
  'a %s document, however changed, gives recordings or an InputError',
  async (key, numRuns) => {
    const format = key as RecordingFormat;
    const text = new TextDecoder().decode(sampleFiles[format as 'gpx']);
    const seen = { read: 0, refused: 0 };
    await fc.assert(
      fc.asyncProperty(textChanges, fc.constantFrom('asked', 'recognised'), async (changes, way) => {
        seen[await readOrRefuse(changeText(text, changes), way === 'asked' ? format : undefined)]++;
      }),
      { seed: 7, numRuns },
    );
    // both happen, or the changes are too tame or too wild to show anything
    expect(seen.read).toBeGreaterThan(numRuns / 50);
    expect(seen.refused).toBeGreaterThan(numRuns / 50);
  },
);

test.each(Object.entries(binaries))(
  'a %s document, however changed, gives recordings or an InputError',
  async (key, numRuns) => {
    const seen = { read: 0, refused: 0 };
    await fc.assert(
      fc.asyncProperty(byteChanges, async (changes) => {
        const bytes = changeBytes(sampleFiles[key as 'fit'], changes);
        seen[await readOrRefuse(bytes, key === 'gzipped' ? undefined : (key as RecordingFormat))]++;
      }),
      { seed: 8, numRuns },
    );
    expect(seen.read + seen.refused).toBe(numRuns);
    expect(seen.refused).toBeGreaterThan(numRuns / 50);
  },
);

test.each(Object.keys(sampleFiles) as (keyof typeof sampleFiles)[])(
  'a %s document cut off anywhere gives recordings or an InputError',
  async (key) => {
    const bytes = sampleFiles[key];
    // at each byte of the beginning, which has every kind of place up to the second point, and of the end; between them in
    // steps that fall together with no length of a point
    for (let end = 0; end < bytes.length; end += end < 600 || end > bytes.length - 60 ? 1 : 17) {
      await readOrRefuse(bytes.subarray(0, end));
    }
  },
);

test('lines, however changed, are read or refused', () => {
  fc.assert(
    fc.property(fc.constantFrom('gpx', 'kml', 'geojson', 'csv', 'tcx'), textChanges, (format, changes) => {
      const text = changeText(new TextDecoder().decode(sampleFiles[format as 'gpx']), changes);
      try {
        for (const { name, positions } of readLines(text, { format: format as 'gpx' })) {
          expect(name).not.toBe('');
          expect(positions.length).toBeGreaterThanOrEqual(2);
          expect(positions.flat().every(Number.isFinite)).toBe(true);
        }
      } catch (error) {
        expect(error).toBeInstanceOf(InputError);
      }
    }),
    { seed: 9, numRuns: 500 },
  );
});
