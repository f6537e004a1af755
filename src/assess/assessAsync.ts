import { type AsyncOptions, asyncOptions, inSlices, type Recording, type Route } from '../model';
import type { Assessment } from './Assessment';
import { type AssessOptions, assessKeys } from './AssessOptions';
import { assessSteps } from './assessSteps';
import type { CarriedRecording } from './testEntries';

/**
 * What {@link assess} finds, to the last bit, as a promise: the work lets everything else have its turn between one recording, row
 * or pair and the next, tells how far it is, and can be left.
 *
 * @throws {InputError} rejected with it: as {@link assess}. Once `signal` is aborted, its reason
 * @remarks The longest stretch without a rest is that of the longest recording placed: about 5 µs a fix.
 *
 * @example
 * const quay = routeFromLine([[2.1, 61.4], [2.11, 61.4]])
 * const [recording] = readCsv('lon,lat\n2.1,61.40002\n2.11,61.40002')
 * const told = []
 * const { rows } = await assessAsync(quay, [recording], { onProgress: ({ done, of, what }) => told.push(`${done} of ${of} ${what}`) })
 * told // → ['1 of 1 recordings', '1 of 1 rows']
 * await assessAsync(quay, [recording], { signal: AbortSignal.abort('enough') }).catch((reason) => reason) // → 'enough'
 */
export async function assessAsync(
  route: Route,
  recordings: Iterable<Recording | CarriedRecording>,
  options: AssessOptions & AsyncOptions = {},
): Promise<Assessment> {
  const { own, driven } = asyncOptions<AssessOptions>(options, assessKeys);
  return inSlices(assessSteps(route, recordings, own), driven);
}
