import { checkOptions, InputError, type OptionKeys } from '../model';

/** Options of a reader of one format. */
export interface ReadOptions {
  /** Names the recording; where the file holds several, each gets a number after it. @defaultValue the file's name for it */
  readonly name?: string;
  /**
   * The zone of times that state none: `UTC`, an offset such as `+02:00`, or a name of the time zone database. Times that
   * state their zone are not touched. @defaultValue none: such times are refused
   */
  readonly zone?: string;
}

const keys: OptionKeys<ReadOptions> = { name: true, zone: true };

/** Refuses unknown keys and names that are no text; returns the options. */
export function checkReadOptions(options: ReadOptions | undefined): ReadOptions {
  checkOptions(options, keys);
  const { name } = options ?? {};
  if (name !== undefined && (typeof name !== 'string' || name === '')) {
    throw new InputError({ reason: 'wrong-type', argument: 'options.name', rule: 'a text', value: name });
  }
  return options ?? {};
}
