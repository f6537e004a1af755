import { checkOptions, InputError, type Recording } from '../model';
import type { DocumentSource } from './DocumentSource';
import { checkReadOptions } from './ReadOptions';
import { type ReadRecordingsOptions, readRecordings, recordingsKeys } from './readRecordings';

/**
 * The one recording in a document of any of the formats.
 *
 * @example
 * (await readRecording('lat,lon\n60,5\n60.001,5.001', { name: 'A' })).name // → 'A'
 * await readRecording('track,lat,lon\nA,60,5\nA,60.1,5\nB,60,5\nB,60.1,5') // throws ambiguous: data must be a document
 *
 * @throws {InputError} `ambiguous` when there are several, naming them; and as {@link readRecordings}
 */
export async function readRecording(data: DocumentSource, options: ReadRecordingsOptions = {}): Promise<Recording> {
  checkOptions(options, recordingsKeys);
  const { name, ...rest } = options;
  checkReadOptions({ name });
  const recordings = await readRecordings(data, rest);
  if (recordings.length > 1) {
    throw new InputError({
      reason: 'ambiguous',
      argument: 'data',
      rule: 'a document with one recording',
      value: recordings.map((recording) => recording.name).join(', '),
      hint: 'readRecordings gives them all',
    });
  }
  return name === undefined ? recordings[0] : { ...recordings[0], name };
}
