import { readFit } from 'datumline';
import fc from 'fast-check';
import FitParser, { type ParsedRawFitMessage } from 'fit-file-parser';
import { FitBaseType, FitEncoder } from 'fit-file-parser/encoder';
import { afterEach, expect, test, vi } from 'vitest';
import { FitMessages } from '../../src/formats/FitMessages';
import { fitChecksum } from '../../src/formats/fitChecksum';
import { FIT_EPOCH, type FitField, FitFile, recordFields, semicircles, timerFields } from '../support/FitFile';
import { fitCrc } from '../support/fitCrc';
import { sampleFiles } from '../support/sampleFiles';

afterEach(() => {
  vi.restoreAllMocks();
});

const begin = Date.UTC(2026, 4, 1, 8) / 1000;
const five = (file = new FitFile()) => {
  for (let i = 0; i < 5; i++) file.message(20, recordFields(begin + i, 60 + i * 1e-5, -5, 10 + i));
  return file;
};

test('the epoch is 1989-12-31T00:00Z, 631 065 600 s after 1970; the check is the bitwise one', () => {
  expect(FIT_EPOCH).toBe(631_065_600);
  expect(new Date(FIT_EPOCH * 1000).toISOString()).toBe('1989-12-31T00:00:00.000Z');
  const bytes = Array.from({ length: 300 }, (_, i) => (i * 37) & 255);
  expect(fitChecksum(Uint8Array.from(bytes))).toBe(fitCrc(bytes));
  // "123456789" under CRC-16 with polynomial 0x8005 reflected from 0: 0xBB3D, the catalogues' check value, from memory
  expect(fitChecksum(new TextEncoder().encode('123456789'))).toBe(0xbb3d);
});

test.each([12, 14] as const)('a header of %i bytes, either byte order', async (header) => {
  for (const little of [true, false]) {
    const [recording] = await readFit(five(new FitFile(header, little)).bytes(), { name: 'wrist' });
    expect(recording.name).toBe('wrist');
    expect(Array.from(recording.time!)).toEqual([0, 1, 2, 3, 4].map((i) => (begin + i) * 1000));
    expect(recording.lat[1]).toBe((semicircles(60.00001) * 180) / 2 ** 31);
    expect(recording.lon[1]).toBe((semicircles(-5) * 180) / 2 ** 31);
    expect(Array.from(recording.height!)).toEqual([10, 11, 12, 13, 14]);
    expect(Array.from(recording.accuracy!)).toEqual([3, 3, 3, 3, 3]);
    expect(recording.issues).toEqual([]);
  }
});

test('the mark for no position drops the record; it is a gap when it lasts', async () => {
  const file = new FitFile();
  file.message(20, recordFields(begin, 60, 5)).message(20, recordFields(begin + 1));
  file.message(20, recordFields(begin + 2, 60.00001, 5)).message(20, recordFields(begin + 3, 60.00002, 5));
  const [recording] = await readFit(file.bytes());
  expect(Array.from(recording.gapBefore)).toEqual([1, 0, 0]);
  expect(recording.issues).toMatchObject([{ reason: 'missing-position', count: 1, place: 'part 1, record 2' }]);
  expect(recording.height).toBeUndefined();
  const long = five();
  for (let i = 5; i < 16; i++) long.message(20, recordFields(begin + i));
  const [later] = await readFit(long.message(20, recordFields(begin + 16, 60.0001, -5, 10)).bytes());
  expect(Array.from(later.gapBefore)).toEqual([1, 0, 0, 0, 0, 1]);
  expect(later.issues.map(({ reason, count }) => `${reason} ${count}`)).toEqual(['missing-position 11', 'time-gap 1']);
});

test('each mark for no value is none: position halves, heights of either field, accuracy, time', async () => {
  const record = (fields: Partial<Record<'time' | 'lat' | 'lon' | 'height' | 'enhanced' | 'accuracy', number>>) =>
    new FitFile()
      .message(20, recordFields(begin, 60, -5, 10))
      .message(20, recordFields(begin + 1, 60.00001, -5, 11))
      .message(
        20,
        [
          { number: 253, type: 'uint32', value: fields.time },
          { number: 0, type: 'sint32', value: fields.lat },
          { number: 1, type: 'sint32', value: fields.lon },
          { number: 2, type: 'uint16', value: fields.height },
          { number: 78, type: 'uint32', value: fields.enhanced },
          { number: 31, type: 'uint8', value: fields.accuracy },
        ],
        1,
      )
      .bytes();
  const time = begin + 2 - FIT_EPOCH;
  const [lat, lon] = [semicircles(60.00002), semicircles(-5)];
  // heights count fifths of a metre from 500 m below
  const all = { time, lat, lon, height: (13 + 500) * 5, enhanced: (12 + 500) * 5, accuracy: 4 };
  const third = async (fields: Parameters<typeof record>[0]) => {
    const [{ time: times, height, accuracy, lon: lons }] = await readFit(record(fields));
    return [lons.length, times![2], height![2], accuracy![2]];
  };
  const at = (begin + 2) * 1000;
  expect(await third(all)).toEqual([3, at, 12, 4]);
  expect(await third({ ...all, enhanced: undefined })).toEqual([3, at, 13, 4]);
  expect(await third({ ...all, enhanced: undefined, height: undefined })).toEqual([3, at, Number.NaN, 4]);
  expect(await third({ ...all, accuracy: undefined })).toEqual([3, at, 12, Number.NaN]);
  expect(await third({ ...all, time: undefined })).toEqual([3, Number.NaN, 12, 4]);
  for (const half of ['lat', 'lon'] as const) {
    const [{ lon: lons, issues }] = await readFit(record({ ...all, [half]: undefined }));
    expect([lons.length, issues[0].reason]).toEqual([2, 'missing-position']);
  }
});

test('compressed timestamps count on from the last whole one, over their 32 seconds', async () => {
  const place = (lat: number) => recordFields(0, lat, 5).slice(1, 3);
  // a whole timestamp that is 30 modulo 32, so that the next two run over
  const start = begin - ((begin - FIT_EPOCH) % 32) + 30;
  const file = new FitFile().message(20, recordFields(start, 60, 5));
  file.compressed(20, start + 1 - FIT_EPOCH, place(60.00001)).compressed(20, start + 3 - FIT_EPOCH, place(60.00002));
  const [recording] = await readFit(file.bytes());
  expect(Array.from(recording.time!, (time) => time / 1000 - start)).toEqual([0, 1, 3]);
});

test('stopping and starting the timer is a pause, however short', async () => {
  const file = new FitFile();
  file.message(20, recordFields(begin, 60, 5)).message(20, recordFields(begin + 1, 60.00001, 5));
  file.message(21, timerFields(begin + 1, 4), 1).message(21, timerFields(begin + 3, 0), 1);
  file.message(20, recordFields(begin + 3, 60.00002, 5));
  expect(Array.from((await readFit(file.bytes()))[0].gapBefore)).toEqual([1, 0, 1]);
});

test('sessions are recordings of their own, with what the receiver states of each', async () => {
  const file = five();
  for (let i = 0; i < 3; i++) file.message(20, recordFields(begin + 100 + i, 61 + i * 1e-5, -5));
  const session = (start: number, sport: number, metres: number) =>
    file.message(
      18,
      [
        { number: 253, type: 'uint32', value: begin + 200 - FIT_EPOCH },
        { number: 2, type: 'uint32', value: start - FIT_EPOCH },
        { number: 5, type: 'enum', value: sport },
        { number: 9, type: 'uint32', value: metres * 100 },
      ],
      3,
    );
  session(begin, 2, 12.34);
  session(begin + 100, 1, 5);
  const recordings = await readFit(file.bytes());
  expect(recordings.map(({ lat, attributes }) => [lat.length, attributes])).toEqual([
    [5, { sport: 2, total_distance: 12.34 }],
    [3, { sport: 1, total_distance: 5 }],
  ]);
});

test('when laps began is told of the session they belong to, as fit-file-parser decodes it', async () => {
  const lap = (file: FitFile, start: number | undefined, seconds: number) =>
    file.message(
      19,
      [
        { number: 253, type: 'uint32', value: (start ?? begin) + seconds - FIT_EPOCH },
        { number: 2, type: 'uint32', value: start === undefined ? undefined : start - FIT_EPOCH },
        { number: 7, type: 'uint32', value: seconds * 1000 },
      ],
      2,
    );
  const file = five();
  lap(file, begin, 2);
  lap(file, begin + 2, 3);
  // one that does not say when it began
  lap(file, undefined, 1);
  const told = async (bytes: Uint8Array) =>
    (await readFit(bytes)).map(({ attributes }) => attributes['lap.start_time'] as string | undefined);
  expect(await told(file.bytes())).toEqual(['2026-05-01T08:00:00Z 2026-05-01T08:00:02Z']);
  const parsed = await new FitParser({ force: true, mode: 'list' }).parseAsync(file.bytes().slice().buffer);
  const starts = parsed.laps!.map(({ start_time }) => start_time).filter(Boolean);
  expect(starts.map((start) => new Date(start!).toISOString())).toEqual(
    (await told(file.bytes()))[0]!.split(' ').map((time) => new Date(time).toISOString()),
  );
  for (let i = 0; i < 3; i++) file.message(20, recordFields(begin + 100 + i, 61 + i * 1e-5, -5));
  lap(file, begin + 100, 3);
  for (const start of [begin + 100, begin]) {
    file.message(18, [{ number: 2, type: 'uint32', value: start - FIT_EPOCH }], 3);
  }
  expect(await told(file.bytes())).toEqual(['2026-05-01T08:00:00Z 2026-05-01T08:00:02Z', '2026-05-01T08:01:40Z']);
  expect(await told(five().bytes())).toEqual([undefined]);
});

test('a file of more sessions than it may hold recordings is refused', async () => {
  const file = five();
  for (let i = 0; i < 3; i++) file.message(18, [{ number: 2, type: 'uint32', value: begin + i - FIT_EPOCH }], 3);
  await expect(readFit(file.bytes(), { maxRecordings: 2 })).rejects.toMatchObject({ reason: 'too-large' });
  expect(await readFit(file.bytes(), { maxRecordings: 3 })).toHaveLength(1);
});

test("fields of a developer's own are passed over, the fixes around them read", async () => {
  const file = new FitFile();
  // what they are: one developer's field 0, bytes
  file.message(207, [{ number: 3, type: 'uint8', value: 0 }], 4);
  file.message(206, [{ number: 0, type: 'uint8', value: 0 }, { number: 1, type: 'uint8', value: 0 }, { number: 2, type: 'uint8', value: 13 }], 5); // biome-ignore format: one field a pair
  for (let i = 0; i < 5; i++) file.message(20, recordFields(begin + i, 60 + i * 1e-5, -5, 10 + i), 0, [9, 9, 9, i]);
  const [recording] = await readFit(file.bytes());
  expect(Array.from(recording.height!)).toEqual([10, 11, 12, 13, 14]);
  expect(Array.from(recording.time!)).toEqual([0, 1, 2, 3, 4].map((i) => (begin + i) * 1000));
  expect(recording.issues).toEqual([]);
});

test('chained files are read one after the other', async () => {
  const chained = Uint8Array.from([...five().bytes(), ...five(new FitFile(12, false)).bytes()]);
  expect((await readFit(chained)).map(({ lat }) => lat.length)).toEqual([5, 5]);
});

test('a file cut off anywhere keeps the whole records before, and says so', async () => {
  const whole = five().bytes();
  const record = 1 + 4 + 4 + 4 + 2 + 1;
  for (let lost = 1; lost <= 3 * record; lost++) {
    const [recording] = await readFit(whole.subarray(0, whole.length - lost));
    // two bytes of checksum come after the last record
    const kept = 5 - Math.ceil(Math.max(lost - 2, 0) / record);
    expect(recording.lat.length, `${lost} bytes lost`).toBe(kept);
    expect(recording.issues.map(({ reason }) => reason)).toEqual(['cut-off']);
  }
});

test('a file that was never closed, its size still 0, is read up to its end, and says so', async () => {
  const open = five().bytes();
  open.fill(0, 4, 8);
  const [recording] = await readFit(open.subarray(0, open.length - 2));
  expect(recording.lat).toEqual((await readFit(five().bytes()))[0].lat);
  expect(recording.issues.map(({ reason }) => reason)).toEqual(['cut-off']);
  // one without messages is another matter
  const chained = Uint8Array.from([...new FitFile().bytes(), ...five().bytes()]);
  expect((await readFit(chained))[0].issues.map(({ reason }) => reason)).toEqual(['too-short']);
});

test('a checksum that fails is told, the file read', async () => {
  const bytes = five().bytes();
  bytes[bytes.length - 1] ^= 1;
  expect((await readFit(bytes))[0].issues).toMatchObject([{ reason: 'checksum', place: 'byte 0' }]);
});

test('bytes after the end are told', async () => {
  const [recording] = await readFit(Uint8Array.from([...five().bytes(), 1, 2, 3]));
  expect(recording.issues).toMatchObject([{ reason: 'trailing-bytes', count: 3 }]);
});

test('nothing is printed', async () => {
  const printed = (['log', 'warn', 'error', 'info'] as const).map((name) =>
    vi.spyOn(console, name).mockImplementation(() => {}),
  );
  await readFit(sampleFiles.fit);
  await readFit(sampleFiles.fit.subarray(0, 200)).catch(() => {});
  for (const spy of printed) expect(spy).not.toHaveBeenCalled();
});

/** A random file: sizes, orders and kinds of fields, both byte orders, compressed times, what a developer adds. */
const anyFit = fc.array(
  fc.record({
    kind: fc.constantFrom(20, 20, 20, 21, 18, 55),
    local: fc.integer({ min: 0, max: 3 }),
    seconds: fc.integer({ min: 0, max: 40 }),
    compressed: fc.boolean(),
    developer: fc.array(fc.nat(255), { maxLength: 3 }),
    lat: fc.option(fc.integer({ min: -(2 ** 30), max: 2 ** 30 }), { nil: undefined }),
    lon: fc.option(fc.integer({ min: -(2 ** 31), max: 2 ** 31 - 1 }), { nil: undefined }),
    height: fc.option(fc.nat(0xffff), { nil: undefined }),
    reversed: fc.boolean(),
  }),
  { minLength: 3, maxLength: 40 },
);

test('positions, times and heights are those that fit-file-parser finds in the raw messages of random files', () => {
  fc.assert(
    fc.property(anyFit, fc.constantFrom(12, 14), fc.boolean(), (rows, header, little) => {
      const file = new FitFile(header as 12 | 14, little);
      let seconds = begin - FIT_EPOCH;
      file.message(20, recordFields(begin, 60, 5, 10));
      for (const row of rows) {
        seconds += row.compressed ? Math.min(row.seconds, 31) : row.seconds;
        const fields: FitField[] = [
          { number: 0, type: 'sint32', value: row.lat },
          { number: 1, type: 'sint32', value: row.lon },
          { number: 2, type: 'uint16', value: row.height },
          { number: 31, type: 'uint8', value: 5 },
          { number: 90, type: 'string', value: 'x' },
        ];
        if (row.reversed) fields.reverse();
        if (row.compressed) file.compressed(row.kind, seconds, fields, row.local);
        else file.message(row.kind, [...fields, { number: 253, type: 'uint32', value: seconds }], row.local, row.developer); // biome-ignore format: one call
      }
      const bytes = file.bytes();
      let raw: readonly ParsedRawFitMessage[] = [];
      const parser = new FitParser({ force: true, includeRawMessages: [18, 20, 21, 55], rawMessagesOnly: true });
      parser.parse(bytes.slice().buffer, (_, parsed) => {
        raw = parsed?.raw_messages ?? [];
      });
      const messages = new FitMessages(bytes.subarray(0, -2), header);
      for (const { global_message_number, compressed_timestamp, fields, little_endian } of raw) {
        expect(messages.next()).toBe(true);
        const number = (field: number, size: 1 | 2 | 4, kind: 'getInt32' | 'getUint32' | 'getUint16') => {
          const found = fields.find(({ field_definition_number }) => field_definition_number === field);
          if (found?.raw_value.length !== size) return Number.NaN;
          const value = new DataView(Uint8Array.from(found.raw_value).buffer)[kind](0, little_endian);
          const mark = { getInt32: 0x7fffffff, getUint32: 0xffffffff, getUint16: 0xffff }[kind];
          return value === mark ? Number.NaN : value;
        };
        expect([messages.kind, messages.time, messages.signed(0), messages.signed(1), messages.unsigned(2, 2)]).toEqual(
          [
            global_message_number,
            compressed_timestamp ?? number(253, 4, 'getUint32'),
            number(0, 4, 'getInt32'),
            number(1, 4, 'getInt32'),
            number(2, 2, 'getUint16'),
          ],
        );
      }
      expect(messages.next()).toBe(false);
      expect(raw.length).toBe(rows.length + 1);
    }),
    { seed: 20260501, numRuns: 200 },
  );
});

test('a file that another encoder wrote is read as it was meant', async () => {
  const encoder = new FitEncoder();
  const field = (number: number, size: 1 | 2 | 4, baseType: number, value: number) => ({
    number,
    size,
    baseType,
    value,
  });
  encoder.writeMessage(0, [field(0, 1, FitBaseType.Enum, 4)]);
  for (const i of [0, 1, 2]) {
    encoder.writeMessage(20, [
      field(253, 4, FitBaseType.Uint32, FitEncoder.toFitTimestamp(new Date((begin + i) * 1000))),
      field(0, 4, FitBaseType.Sint32, semicircles(60 + i * 1e-4)),
      field(1, 4, FitBaseType.Sint32, semicircles(-5)),
      field(78, 4, FitBaseType.Uint32, (20 + i + 500) * 5),
    ]);
  }
  const [recording] = await readFit(encoder.close());
  expect(recording.issues).toEqual([]);
  expect(Array.from(recording.time!)).toEqual([0, 1, 2].map((i) => (begin + i) * 1000));
  expect(Array.from(recording.height!)).toEqual([20, 21, 22]);
  recording.lat.forEach((lat, i) => {
    expect(Math.abs(lat - (60 + i * 1e-4))).toBeLessThan(180 / 2 ** 31);
  });
});
