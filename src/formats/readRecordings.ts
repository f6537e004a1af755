import { checkChoice, checkOptions, type OptionKeys, type RecordingFormat, type Recordings } from '../model';
import type { DocumentSource } from './DocumentSource';
import { detectFormat } from './detectFormat';
import { gatherRecordings } from './gatherRecordings';
import { gatherSource } from './gatherSource';
import { checkReadOptions, type ReadOptions } from './ReadOptions';
import { trackReaders } from './trackReaders';

/** Options of {@link readRecordings} and {@link readRecording}. */
export interface ReadRecordingsOptions extends ReadOptions {
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
};

/**
 * Every recording in a document of any of the formats, recognised from its content; gzipped documents are unpacked. The document
 * may still be on its way: a `File`, a `Response`, a stream.
 *
 * @example
 * const [recording] = await readRecordings('lat,lon\n60,5\n60.001,5.001');
 * recording.source.format // → 'csv'
 * (await readRecordings(new Response('lat,lon\n60,5\n60.001,5.001'))).length // → 1
 * await readRecordings('<svg/>') // throws unreadable: data must be XML whose outermost element is gpx, kml or
 *
 * @throws {InputError} as the reader of that format: {@link readGpx}, {@link readFit} …; `unreadable` for a response that failed,
 * `misplaced` for one, or a stream, that is being read already. What a stream itself fails with is passed on
 */
export async function readRecordings(data: DocumentSource, options: ReadRecordingsOptions = {}): Promise<Recordings> {
  checkOptions(options, recordingsKeys);
  const { format: asked, ...rest } = options;
  const { name, reading } = checkReadOptions(rest);
  if (asked !== undefined) checkChoice(asked, 'options.format', Object.keys(trackReaders) as RecordingFormat[]);
  const whole = await gatherSource(data, reading.maxBytes);
  const detected = asked === undefined ? detectFormat(whole, reading.maxBytes) : { data: whole, format: asked };
  return gatherRecordings(trackReaders[detected.format](detected.data, reading), name);
}
