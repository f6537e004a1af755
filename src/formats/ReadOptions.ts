import { checkNumber, checkOptions, InputError, type OptionKeys } from '../model';
import { type TimeReader, timeReader } from './timeReader';

/** Options of a reader of one format. */
export interface ReadOptions {
  /**
   * Names the recording; where the file holds several, each gets a number after it. @defaultValue the file's name for it
   */
  readonly name?: string;
  /**
   * The zone of times that state none: `UTC`, an offset such as `+02:00`, or a name of the time zone database; `issues`
   * says where it was needed. Times that state their zone, and those of NMEA and FIT, which are UTC by definition, do not
   * need it, so that one zone can be given for files of any format. @defaultValue none: times that need it are refused
   */
  readonly zone?: string;
  /**
   * The longest document that is read, in bytes, or characters of text; a packed one as it is unpacked. A longer one is
   * refused as `too-large` before its points are looked at. Memory grows by up to 12 times the document, 35 times for GeoJSON, where its
   * points are the smallest there are.
   * @defaultValue 268 435 456, for GeoJSON 67 108 864
   */
  readonly maxBytes?: number;
  /** The most recordings that a document may hold: each has columns of its own. @defaultValue 10 000 */
  readonly maxRecordings?: number;
}

/** What a reader of tracks is told. */
export interface Reading extends Pick<ReadOptions, 'maxBytes' | 'maxRecordings'> {
  readonly readTime: TimeReader;
  readonly wanted: 'recordings' | 'lines';
}

/** The keys of {@link ReadOptions}. */
export const readKeys: OptionKeys<ReadOptions> = { name: true, zone: true, maxBytes: true, maxRecordings: true };

/** No text of this program is longer, in characters. */
const MOST_BYTES = 2 ** 29 - 24;

/**
 * Refuses limits that are none.
 *
 * @throws {InputError} `not-finite` or `out-of-range`
 */
export function checkLimits({ maxBytes, maxRecordings }: Pick<ReadOptions, 'maxBytes' | 'maxRecordings'>): void {
  if (maxBytes !== undefined) checkNumber(maxBytes, 'options.maxBytes', { min: 1, max: MOST_BYTES });
  if (maxRecordings !== undefined) checkNumber(maxRecordings, 'options.maxRecordings', { min: 1, max: 1e9 });
}

/**
 * The options checked, the zone turned into a reader of times.
 *
 * @throws {InputError} unknown keys; a name that is blank or not a string; an unknown zone
 */
export function checkReadOptions(options: ReadOptions = {}): { readonly name?: string; readonly reading: Reading } {
  checkOptions(options, readKeys);
  const { name, zone, maxBytes, maxRecordings } = options;
  checkLimits(options);
  if (name !== undefined && (typeof name !== 'string' || name.trim() === '')) {
    throw new InputError({
      reason: 'wrong-type',
      argument: 'options.name',
      rule: 'a string that is not blank',
      value: name,
    });
  }
  return { name, reading: { readTime: timeReader(zone), wanted: 'recordings', maxBytes, maxRecordings } };
}
