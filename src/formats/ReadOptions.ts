import { checkOptions, InputError, type OptionKeys } from '../model';
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
}

const keys: OptionKeys<ReadOptions> = { name: true, zone: true };

/**
 * The options checked, the zone turned into a reader of times.
 *
 * @throws {InputError} unknown keys; a name that is blank or not a string; an unknown zone
 */
export function checkReadOptions(options: ReadOptions = {}): { readonly name?: string; readonly readTime: TimeReader } {
  checkOptions(options, keys);
  const { name, zone } = options;
  if (name !== undefined && (typeof name !== 'string' || name.trim() === '')) {
    throw new InputError({
      reason: 'wrong-type',
      argument: 'options.name',
      rule: 'a string that is not blank',
      value: name,
    });
  }
  return { name, readTime: timeReader(zone) };
}
