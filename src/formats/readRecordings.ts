import { checkChoice, checkOptions, type OptionKeys, type Recording, type RecordingFormat } from '../model';
import { detectFormat } from './detectFormat';
import { fitTracks } from './fitTracks';
import { gatherRecordings } from './gatherRecordings';
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

const formats = [...Object.keys(trackReaders), 'fit'] as RecordingFormat[];

/**
 * Every recording in a document of any of the formats, recognised from its content; gzipped documents are unpacked.
 *
 * @example
 * const [recording] = await readRecordings('lat,lon\n60,5\n60.001,5.001');
 * recording.source.format // → 'csv'
 * await readRecordings('<svg/>') // throws unreadable: data must be XML whose outermost element is gpx, kml or
 *
 * @throws {InputError} as the reader of that format: {@link readGpx}, {@link readFit} …
 */
export async function readRecordings(
  data: string | Uint8Array,
  options: ReadRecordingsOptions = {},
): Promise<Recording[]> {
  checkOptions(options, recordingsKeys);
  const { format: asked, ...rest } = options;
  const { name, reading } = checkReadOptions(rest);
  if (asked !== undefined) checkChoice(asked, 'options.format', formats);
  const detected = asked === undefined ? detectFormat(data, reading.maxBytes) : { data, format: asked };
  const file =
    detected.format === 'fit'
      ? await fitTracks(detected.data as Uint8Array, reading)
      : trackReaders[detected.format](detected.data, reading);
  return gatherRecordings(file, name);
}
