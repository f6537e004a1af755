import { type AsyncOptions, asyncOptions, inSlices, type Recordings } from '../model';
import type { DocumentSource } from './DocumentSource';
import { fitTracks } from './fitTracks';
import { gatherSteps } from './gatherRecordings';
import { gatherSource } from './gatherSource';
import { checkReadOptions, type ReadOptions, readKeys } from './ReadOptions';

/**
 * Every session of a FIT file, or of several chained, as a recording.
 *
 * Each event of the timer begins a new stretch; a record without position is dropped, and only the time that passed makes
 * a gap of it. When the laps of a session began stands in `attributes['lap.start_time']`, written as in XML with blanks between.
 * Positions are semicircles of 180/2³¹ degrees, times count from 1989-12-31T00:00Z. A file that was cut off keeps the whole messages
 * before, one whose checksum fails is read nevertheless; both are said in `issues`.
 *
 * @example
 * await readFit(new Uint8Array()) // throws too-few: data must be a document that is not empty
 *
 * @throws {InputError} as {@link readGpx}, and as {@link readRecordings} what is no document
 * @see The public description of the FIT protocol: header, definition and data messages, checksum; its profile: messages session 18, lap 19, record 20, event 21
 */
export async function readFit(
  data: Exclude<DocumentSource, string>,
  options?: ReadOptions & AsyncOptions,
): Promise<Recordings> {
  const { own, driven } = asyncOptions<ReadOptions>(options, readKeys);
  const { name, reading } = checkReadOptions(own);
  const whole = await gatherSource(data, reading.maxBytes, driven);
  return inSlices(gatherSteps(fitTracks(whole, reading), name), driven);
}
