import {
  type AsyncOptions,
  asyncOptions,
  checkChoice,
  inSlices,
  type OptionKeys,
  type RecordingFormat,
  type Recordings,
  type Steps,
} from '../model';
import type { DocumentSource } from './DocumentSource';
import { detectFormat } from './detectFormat';
import { gatherSteps } from './gatherRecordings';
import { gatherSource } from './gatherSource';
import { checkReadOptions, type Reading, type ReadOptions } from './ReadOptions';
import { trackReaders } from './trackReaders';

/** Options of {@link readRecordings} and {@link readRecording}. */
export interface ReadRecordingsOptions extends ReadOptions, AsyncOptions {
  /** The format, where it is known. @defaultValue recognised from the content */
  readonly format?: RecordingFormat;
}

/** The keys of {@link ReadRecordingsOptions}. */
export const recordingsKeys: OptionKeys<ReadRecordingsOptions> = {
  name: true,
  zone: true,
  maxBytes: true,
  maxRecordings: true,
  format: true,
  signal: true,
  onProgress: true,
};

/**
 * Every recording in a document of any of the formats, recognised from its content; gzipped documents are unpacked. The document
 * may still be on its way: a `File`, a `Response`, a stream. One that is longer than `maxBytes` is refused as soon as that shows,
 * and the stream called off.
 *
 * Reading lets everything else have its turn every thousand points or so, tells how far it is, and can be left at any time, while a
 * stream keeps it waiting too.
 *
 * @example
 * const [recording] = await readRecordings('lat,lon\n60,5\n60.001,5.001');
 * recording.source.format // → 'csv'
 * (await readRecordings(new Response('lat,lon\n60,5\n60.001,5.001'))).length // → 1
 * await readRecordings('<svg/>') // throws unreadable: data must be XML whose outermost element is gpx, kml or
 *
 * @throws {InputError} as the reader of that format: {@link readGpx}, {@link readFit} …; `unreadable` for a response that failed,
 * `misplaced` for one, or a stream, that is being read already. What a stream itself fails with is passed on. Once `signal` is
 * aborted, its reason
 * @remarks What can't be parted is done without a rest: decoding, unpacking, and the parsing of JSON.
 */
export async function readRecordings(data: DocumentSource, options: ReadRecordingsOptions = {}): Promise<Recordings> {
  const { own, driven } = asyncOptions(options, recordingsKeys);
  const { format: asked, ...rest } = own;
  const { name, reading } = checkReadOptions(rest);
  if (asked !== undefined) checkChoice(asked, 'options.format', Object.keys(trackReaders) as RecordingFormat[]);
  const whole = await gatherSource(data, reading.maxBytes, driven);
  return inSlices(readSteps(whole, asked, reading, name), driven);
}

function* readSteps(
  whole: string | Uint8Array,
  asked: RecordingFormat | undefined,
  reading: Reading,
  name: string | undefined,
): Steps<Recordings> {
  const { data, format } = asked === undefined ? detectFormat(whole, reading.maxBytes) : { data: whole, format: asked };
  yield;
  return yield* gatherSteps(trackReaders[format](data, reading), name);
}
