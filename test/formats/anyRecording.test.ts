import {
  anonymise,
  InputError,
  type Recording,
  readCsv,
  readGeoJson,
  readGpx,
  readKml,
  readLines,
  writeCsv,
  writeGeoJson,
  writeGpx,
  writeKml,
} from 'datumline';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { extremes as position, recordings, wildRecordings } from '../support/recordings';

const RUNS = Number(process.env.RUNS ?? 600);

const columns = ['time', 'height', 'hdop', 'satellites', 'accuracy'] as const;

/** What two recordings that mean the same have in common: -0 is 0, 180° is -180°, a column of nothing is none. */
function meaning({ name, lon, lat, gapBefore, attributes, ...rest }: Recording) {
  const plain = (column: Float64Array) => Array.from(column, (value) => value + 0);
  return {
    name,
    lon: plain(lon).map((value) => (value === 180 ? -180 : value)),
    lat: plain(lat),
    ...Object.fromEntries(
      columns.flatMap((key) => (rest[key]?.some((value) => !Number.isNaN(value)) ? [[key, plain(rest[key]!)]] : [])),
    ),
    gapBefore: Array.from(gapBefore),
    attributes: Object.entries(attributes)
      .map(([key, value]) => [key, typeof value === 'number' ? value + 0 : value])
      .sort(([a], [b]) => ((a as string) < (b as string) ? -1 : 1)),
  };
}

const pairs = [
  ['GPX', writeGpx, readGpx],
  ['KML', writeKml, readKml],
  ['GeoJSON', writeGeoJson, readGeoJson],
  ['CSV', writeCsv, readCsv],
] as const;

const any = fc.oneof(
  wildRecordings,
  recordings,
  // reader-like, with one thing of the wild in it
  fc
    .tuple(recordings, wildRecordings, fc.constantFrom('name', 'attributes', 'gapBefore', 'time'))
    .map(([tame, wild, key]): Recording => {
      const n = Math.min(tame.lon.length, wild.lon.length);
      const cut = Object.fromEntries(
        Object.entries(tame).map(([name, value]) => [
          name,
          ArrayBuffer.isView(value) ? (value as Float64Array).slice(0, n) : value,
        ]),
      ) as unknown as Recording;
      const value = wild[key as 'time'];
      return { ...cut, [key]: ArrayBuffer.isView(value) ? value.slice(0, n) : value };
    }),
);

test.each(pairs)('any recording written as %s is read back equal, or refused when written', (format, write, read) => {
  const seen = { written: 0, refused: 0 };
  fc.assert(
    fc.property(any, (recording) => {
      let written: string;
      try {
        written = write(recording, { identity: 'keep', times: 'absolute' });
      } catch (error) {
        expect(error).toBeInstanceOf(InputError);
        seen.refused++;
        return;
      }
      seen.written++;
      const expected = meaning(format === 'CSV' ? { ...recording, attributes: {} } : recording);
      for (const document of [written, new TextEncoder().encode(written)]) {
        const back = read(document);
        expect(back.length).toBe(1);
        expect(meaning(back[0])).toEqual(expected);
      }
    }),
    { seed: 31, numRuns: RUNS },
  );
  expect(seen.written).toBeGreaterThan(RUNS / 4);
  expect(seen.refused).toBeGreaterThan(RUNS / 10);
});

test.each(pairs)('two recordings written as %s as they may be shown come back so, or are refused', (_, write, read) => {
  const seen = { written: 0, refused: 0 };
  fc.assert(
    fc.property(any, any, (first, second) => {
      const both = [first, { ...second, name: `${second.name}2` }];
      let written: string;
      try {
        written = write(both);
      } catch (error) {
        expect(error).toBeInstanceOf(InputError);
        seen.refused++;
        return;
      }
      seen.written++;
      const since = Math.min(
        ...both.flatMap(({ time }) => Array.from(time ?? []).filter((value) => !Number.isNaN(value))),
      );
      const shown = both.map((one) => anonymise(one, Number.isFinite(since) ? { since } : {}));
      expect(read(written).map(meaning)).toEqual(shown.map(meaning));
    }),
    { seed: 32, numRuns: RUNS },
  );
  expect(seen.written).toBeGreaterThan(RUNS / 20);
});

test.each(pairs)('any line written as %s is read back equal, or refused when written', (_, write) => {
  const line = fc.array(fc.tuple(position.lon, position.lat, fc.option(position.height, { nil: undefined })), {
    maxLength: 6,
  });
  fc.assert(
    fc.property(line, (tuples) => {
      const positions = tuples.map(([lon, lat, height]) => (height === undefined ? [lon, lat] : [lon, lat, height]));
      // readers of lines too take a position of 0, 0 and a height of 9999 below zero for none, and say so
      fc.pre(positions.every(([lon, lat, height]) => (lon !== 0 || lat !== 0) && height !== -9999));
      let written: string;
      try {
        written = write(positions);
      } catch (error) {
        expect(error).toBeInstanceOf(InputError);
        return;
      }
      const [back, ...others] = readLines(written);
      expect(others).toEqual([]);
      const plain = (line: readonly number[][]) =>
        line.map(([lon, ...rest]) => [lon === 180 ? -180 : lon + 0, ...rest.map((value) => value + 0)]);
      expect(plain(back.positions)).toEqual(plain(positions));
    }),
    { seed: 33, numRuns: RUNS },
  );
});

const by = (over: Partial<Recording>): Recording => ({
  name: 'a',
  lon: Float64Array.of(5, 5.00001, 5.00002),
  lat: Float64Array.of(60, 60, 60),
  gapBefore: Uint8Array.of(1, 0, 0),
  issues: [],
  source: { format: 'gpx' },
  attributes: {},
  ...over,
});

// found 2026-11-28
test.each<[string, Partial<Recording>]>([
  [
    'attributes by the name of an element that is text, of another type',
    { attributes: { desc: 5, number: -1.5, cmt: true } },
  ],
  ['attributes by a name that objects have', { attributes: JSON.parse('{"__proto__": "a", "constructor": "b"}') }],
  ['parts of a millisecond before 1970', { time: Float64Array.of(-1000.3, -0.3, -1e-20) }],
  ['parts of a millisecond after 1970', { time: Float64Array.of(1e-20, 1000.1, 12345.678901234567) }],
  ['a pause of a day that is no gap', { time: Float64Array.of(0, 1000, 86_400_000) }],
  ['times that fall without a gap', { time: Float64Array.of(2000, 1000, 3000) }],
  ['a jump that is no gap', { lon: Float64Array.of(5, 6, 7), time: Float64Array.of(0, 1000, 2000) }],
])('%s come back from every format', (_, over) => {
  const recording = by(over);
  for (const [format, write, read] of pairs) {
    const [back] = read(write(recording, { identity: 'keep', times: 'absolute' }));
    expect(meaning(back), format).toEqual(meaning(format === 'CSV' ? { ...recording, attributes: {} } : recording));
  }
});

test.each<[string, Partial<Recording>, string]>([
  ['a position of 0, 0', { lon: Float64Array.of(5, 0, 0), lat: Float64Array.of(60, 0, 0) }, 'recording fix 1'],
  ['a height that stands for none', { height: Float64Array.of(1, 2, -9999) }, 'recording.height[2]'],
  ['one fix twice', { lon: Float64Array.of(5, 5, 5.1), time: Float64Array.of(1, 1, 2) }, 'recording.time[1]'],
  ['a mark of a gap that is neither', { gapBefore: Uint8Array.of(1, 0, 2) }, 'recording.gapBefore[2]'],
  ['an attribute that is no number', { attributes: { a: Number.NaN } }, 'recording.attributes.a'],
  ['an attribute that is a list', { attributes: { a: [] as never } }, 'recording.attributes.a'],
])('%s is refused by every writer', (_, over, argument) => {
  for (const [format, write] of pairs) {
    expect(() => write(by(over), { identity: 'keep' }), format).toThrow(expect.objectContaining({ argument }));
  }
});

test('only what would not be found by itself says that its gaps are stated', () => {
  const plain = by({ time: Float64Array.of(0, 1000, 2000) });
  for (const [, write] of pairs) expect(write(plain)).not.toMatch(/stated|every gap/);
});
