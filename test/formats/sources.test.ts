import { Readable } from 'node:stream';
import { runInNewContext } from 'node:vm';
import {
  InputError,
  readCsv,
  readFit,
  readGeoJson,
  readGpx,
  readKml,
  readLines,
  readNmea,
  readRecording,
  readRecordings,
  readTcx,
} from 'datumline';
import { gzipSync } from 'fflate';
import { JSDOM } from 'jsdom';
import { describe, expect, test } from 'vitest';
import { sampleFiles } from '../support/sampleFiles';

const text = new TextDecoder().decode(sampleFiles.gpx);
const bytes = new TextEncoder().encode(text);
const [expected] = readGpx(text);
/** Bytes in the middle of a longer buffer, as a pool hands them out. */
const inside = () => {
  const pool = new Uint8Array(bytes.length + 64).fill(60);
  pool.set(bytes, 32);
  return pool.subarray(32, 32 + bytes.length);
};
const copyFor = (realm: { Uint8Array: typeof Uint8Array }) => realm.Uint8Array.from(bytes);
const otherRealm = runInNewContext('({ Uint8Array })') as { Uint8Array: typeof Uint8Array };
const { window } = new JSDOM('');
const shared = () => {
  const view = new Uint8Array(new SharedArrayBuffer(bytes.length));
  view.set(bytes);
  return view;
};

const there = {
  text: () => text,
  'a Uint8Array': () => bytes,
  'a Buffer': () => Buffer.from(bytes),
  'a view into a longer buffer': inside,
  'an ArrayBuffer': () => bytes.slice().buffer,
  'a DataView': () => new DataView(bytes.slice().buffer),
  'a Uint8ClampedArray': () => new Uint8ClampedArray(bytes),
  'memory that threads share': shared,
  'a SharedArrayBuffer': () => shared().buffer,
  'a Uint8Array of another realm': () => copyFor(otherRealm),
  'an ArrayBuffer of another realm': () => copyFor(otherRealm).buffer,
  "jsdom's own Uint8Array": () => copyFor(window as never),
};

const stream = (pieces: readonly unknown[]) =>
  new ReadableStream({
    start(controller) {
      for (const piece of pieces) controller.enqueue(piece);
      controller.close();
    },
  });
const halves = () => [bytes.subarray(0, 333), bytes.subarray(333)];

const coming = {
  'a Blob': () => new Blob([bytes]),
  'a File': () => new File([bytes], 'ride.csv'),
  'a Response': () => new Response(bytes),
  'a Request': () => new Request('http://localhost/', { method: 'POST', body: text }),
  'a ReadableStream of bytes': () => stream(halves()),
  'a ReadableStream of text': () => stream([text.slice(0, 50), text.slice(50)]),
  'a ReadableStream of both': () => stream([text.slice(0, 50), new TextEncoder().encode(text.slice(50))]),
  'a stream of Node': () => Readable.from(halves()),
  'a stream of Node that decodes': () => Readable.from(halves().map((half) => Buffer.from(half).toString('latin1'))),
  'an async generator': async function* () {
    yield* halves();
  },
  'anything with arrayBuffer()': () => ({ arrayBuffer: async () => bytes.slice().buffer }),
};

test.each(Object.entries(there))('%s is read at once', (_, make) => {
  expect(readGpx(make() as Uint8Array)[0]).toEqual(expected);
  expect(readLines(make() as Uint8Array)).toEqual(readLines(text));
});

test.each(Object.entries({ ...there, ...coming }))('%s is read by whatever waits', async (_, make) => {
  expect((await readRecordings(make() as Blob))[0]).toEqual(expected);
  expect(await readRecording(make() as Blob, { format: 'gpx', name: 'A' })).toEqual({ ...expected, name: 'A' });
});

test('every reader of one format takes bytes in any form', async () => {
  const readers = { gpx: readGpx, tcx: readTcx, kml: readKml, kmz: readKml, geojson: readGeoJson, nmea: readNmea, csv: readCsv }; // biome-ignore format: one table
  for (const [format, read] of Object.entries(readers)) {
    const whole = sampleFiles[format as keyof typeof readers];
    expect(read(whole.slice().buffer)).toEqual(read(whole));
    expect(read(new DataView(whole.slice().buffer))).toEqual(read(whole));
  }
  const fit = await readFit(sampleFiles.fit);
  expect(await readFit(sampleFiles.fit.slice().buffer)).toEqual(fit);
  expect(await readFit(new Blob([sampleFiles.fit.slice()]))).toEqual(fit);
});

test('gzipped, they are unpacked', async () => {
  expect((await readRecordings(new Blob([gzipSync(bytes) as Uint8Array<ArrayBuffer>])))[0]).toEqual(expected);
});

const refused = async (data: unknown, options = {}) => {
  const error = await readRecordings(data as Blob, options).catch((caught) => caught);
  expect(error).toBeInstanceOf(InputError);
  return `${error.reason}: ${error.message}`;
};

test('what is no document is refused, each in a sentence', async () => {
  const kinds = 'a string, bytes, a Blob, a Response or a stream of bytes';
  for (const value of [null, undefined, 5, {}, [1, 2], new Date(0), () => text]) {
    expect(await refused(value)).toMatch(`wrong-type: data must be ${kinds}, not `);
  }
  expect(() => readGpx(new Blob([]) as never)).toThrow('data must be a string or bytes, not an object');
  expect(() => readGpx([60, 103] as never)).toThrow('data must be a string or bytes, not [60, 103]');
  expect(await refused(stream([5]))).toBe('wrong-type: data must be a stream of strings or bytes, not 5');
  expect(await refused(new Blob([]))).toMatch('too-few: data must be a document that is not empty');
});

test('a response that failed is not read as a document', async () => {
  const answer = await refused(new Response(text, { status: 404 }));
  expect(answer).toBe('unreadable: data must be a response that succeeded, not 404');
});

test('one that is being read already is refused', async () => {
  const response = new Response(text);
  await response.text();
  expect(await refused(response)).toMatch('misplaced: data must be a stream or body that nobody reads yet');
  const locked = stream(halves());
  locked.getReader();
  expect(await refused(locked)).toMatch('misplaced: ');
});

describe('more than may come', () => {
  test.each([1, bytes.length - 1])('%i bytes: refused', async (maxBytes) => {
    for (const make of Object.values({ ...there, ...coming })) {
      expect(await refused(make(), { maxBytes })).toMatch(/^too-large: data must be at most \d+ bytes/);
    }
  });

  test('a stream without end is called off, soon after', async () => {
    let given = 0;
    let calledOff = false;
    const endless = new ReadableStream(
      {
        pull(controller) {
          given++;
          controller.enqueue(new Uint8Array(1000));
        },
        cancel() {
          calledOff = true;
        },
      },
      { highWaterMark: 0 },
    );
    expect(await refused(endless, { maxBytes: 10_000 })).toMatch('too-large');
    expect([given, calledOff]).toEqual([11, true]);
    const node = Readable.from(
      (function* () {
        for (;;) yield Buffer.alloc(1000);
      })(),
    );
    expect(await refused(node, { maxBytes: 10_000 })).toMatch('too-large');
    expect(node.destroyed).toBe(true);
  });

  test('a Blob is refused unread', async () => {
    const blob = { size: 11, arrayBuffer: () => expect.unreachable('it is read') };
    expect(await refused(blob, { maxBytes: 10 })).toMatch('too-large: data must be at most 10 bytes, not 11');
  });
});

test('what a stream fails with is passed on', async () => {
  const failing = new ReadableStream({
    pull(controller) {
      controller.error(new TypeError('the line is dead'));
    },
  });
  await expect(readRecordings(failing)).rejects.toThrow(new TypeError('the line is dead'));
});
