import { InputError } from '../errors';
import { checkOptions, type OptionKeys } from '../internal/checkOptions';
import type { Recording } from './Recording';

/** Options of {@link anonymise}. */
export interface AnonymiseOptions {
  /**
   * - `relative`: milliseconds since the first fix, as if it had been recorded from 1970-01-01T00:00Z on
   * - `absolute`: as recorded
   * - `none`: no times
   *
   * @defaultValue 'relative'
   */
  readonly times?: 'relative' | 'absolute' | 'none';
  /** Relative times count from here, milliseconds since the Unix epoch. @defaultValue the recording's first time */
  readonly since?: number;
}

const keys: OptionKeys<AnonymiseOptions> = { times: true, since: true };

/**
 * The recording without what tells whose it is: attributes and source fields gone, times relative.
 *
 * The name stays, as it is what tables are labelled with.
 *
 * @throws {InputError} unknown options
 */
export function anonymise(recording: Recording, options: AnonymiseOptions = {}): Recording {
  checkOptions(options, keys);
  const { times = 'relative', since } = options;
  if (!['relative', 'absolute', 'none'].includes(times)) {
    throw new InputError({
      reason: 'wrong-type',
      argument: 'options.times',
      rule: "'relative', 'absolute' or 'none'",
      value: times,
    });
  }
  const { time, ...rest } = recording;
  const origin = since ?? time?.find((value) => !Number.isNaN(value)) ?? 0;
  const shown = times === 'none' ? undefined : times === 'absolute' ? time : time?.map((value) => value - origin);
  return {
    ...rest,
    ...(shown ? { time: shown } : {}),
    source: { format: recording.source.format },
    attributes: {},
  };
}
