import type { Assessment } from '../assess';
import { type AsyncOptions, asyncOptions, inSlices } from '../model';
import type { AssessedFigures } from './AssessedFigures';
import { type CombineOptions, combineKeys } from './CombineOptions';
import { combineSteps } from './combineSteps';
import type { TestSummary } from './TestSummary';

/**
 * What {@link combine} finds, to the last bit, as a promise: the work lets everything else have its turn, tells how far it is, and can
 * be left.
 *
 * @throws {InputError} rejected with it: as {@link combine}. Once `signal` is aborted, its reason
 *
 * @example
 * const quay = routeFromLine([[2.1, 61.4], [2.11, 61.4]])
 * const recorded = (lat) => readCsv(`lon,lat\n2.1,${lat}\n2.11,${lat}`)[0]
 * const day = (a, b) => assess(quay, [{ recording: recorded(a), receiver: 'A' }, { recording: recorded(b), receiver: 'B' }])
 * const told = []
 * const days = [day(61.40002, 61.40006), day(61.40003, 61.40006)]
 * const { receivers } = await combineAsync(days, { onProgress: ({ done, of, what }) => told.push(`${done} of ${of} ${what}`) })
 * receivers // → ['A', 'B']
 * told // → ['1 of 2 assessments', '2 of 2 assessments', '1 of 1 sections']
 */
export async function combineAsync(
  assessments: Iterable<Assessment | AssessedFigures>,
  options: CombineOptions & AsyncOptions = {},
): Promise<TestSummary> {
  const { own, driven } = asyncOptions<CombineOptions>(options, combineKeys);
  return inSlices(combineSteps(assessments, own), driven);
}
