import { checkOptions, InputError, type OptionKeys, type Recording, type RecordingFormat } from '../model';
import { csvTracks } from './csvTracks';
import { type Detected, detectFormat } from './detectFormat';
import { fitTracks } from './fitTracks';
import { gatherRecordings, type ReadFile } from './gatherRecordings';
import { geoJsonTracks } from './geoJsonTracks';
import { gpxTracks } from './gpxTracks';
import { kmlTracks } from './kmlTracks';
import { localTime } from './localTime';
import { nmeaTracks } from './nmeaTracks';
import { checkReadOptions, type ReadOptions } from './ReadOptions';
import { tcxTracks } from './tcxTracks';

/** Options of {@link readRecordings} and {@link readRecording}. */
export interface ReadRecordingsOptions extends ReadOptions {
  /** The format, where it is known. @defaultValue recognised from the content */
  readonly format?: RecordingFormat;
}

const keys: OptionKeys<ReadRecordingsOptions> = { name: true, zone: true, format: true };
const formats: readonly RecordingFormat[] = ['gpx', 'tcx', 'kml', 'kmz', 'geojson', 'nmea', 'csv', 'fit'];

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
  checkOptions(options, keys);
  const { format: asked, ...rest } = options;
  const { name, zone } = checkReadOptions(rest);
  if (asked !== undefined && !formats.includes(asked)) {
    throw new InputError({
      reason: 'wrong-type',
      argument: 'options.format',
      rule: `one of ${formats.join(', ')}`,
      value: asked,
    });
  }
  const detected = asked === undefined ? detectFormat(data) : { data, format: asked };
  return gatherRecordings(await readFile(detected, zone), name);
}

function readFile({ data, format }: Detected, zone: string | undefined): ReadFile | Promise<ReadFile> {
  const local = localTime(zone);
  switch (format) {
    case 'gpx':
      return gpxTracks(data, local, 'recordings');
    case 'tcx':
      return tcxTracks(data, local, 'recordings');
    case 'kml':
    case 'kmz':
      return kmlTracks(data, local, 'recordings');
    case 'geojson':
      return geoJsonTracks(data, local, 'recordings');
    case 'nmea':
      return nmeaTracks(data);
    case 'csv':
      return csvTracks(data, local);
    case 'fit':
      return fitTracks(data as Uint8Array);
  }
}
