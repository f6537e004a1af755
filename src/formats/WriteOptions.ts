import { anonymise } from './anonymise';
import type { Recording } from './Recording';

/** Options of every writer of recordings. */
export interface WriteOptions {
  /** `strip`: without attributes and source, see {@link anonymise}; `keep`: with them. @defaultValue 'strip' */
  readonly identity?: 'strip' | 'keep';
  /** As {@link anonymise} has it. Several recordings count from the earliest of all. @defaultValue 'relative' */
  readonly times?: 'relative' | 'absolute' | 'none';
}

/** The recordings as a writer may show them. */
export function shownRecordings(recordings: readonly Recording[], options: WriteOptions): Recording[] {
  const { identity = 'strip', times = 'relative' } = options;
  let since = Number.POSITIVE_INFINITY;
  for (const { time } of recordings) {
    for (const value of time ?? []) if (value < since) since = value;
  }
  return recordings.map((recording) => {
    const shown = anonymise(recording, { times, ...(Number.isFinite(since) ? { since } : {}) });
    return identity === 'keep' ? { ...shown, source: recording.source, attributes: recording.attributes } : shown;
  });
}
