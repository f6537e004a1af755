import { readFit } from 'datumline';
import { afterEach, expect, test, vi } from 'vitest';
import { fitChecksum } from '../../src/formats/fitChecksum';
import { FIT_EPOCH, FitFile, recordFields, semicircles, timerFields } from '../support/FitFile';
import { fitCrc } from '../support/fitCrc';
import { sampleFiles } from '../support/sampleFiles';

afterEach(() => {
  vi.doUnmock('fit-file-parser');
  vi.resetModules();
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

test('without the optional package a sentence says what to install', async () => {
  vi.resetModules();
  vi.doMock('fit-file-parser', () => {
    throw new Error('Cannot find package');
  });
  const { readFit: read } = await import('../../src/formats/readFit');
  await expect(read(sampleFiles.fit)).rejects.toMatchObject({
    name: 'InputError',
    reason: 'missing',
    message:
      "the optional package 'fit-file-parser' must be installed to read FIT files, not undefined. npm install fit-file-parser",
  });
});
