import { type AsyncOptions, asyncOptions, inSlices } from '../model';
import { type ReportHtmlOptions, reportHtmlKeys } from './ReportHtmlOptions';
import type { Assessments } from './reportModel';
import { reportSteps } from './reportSteps';

/**
 * What {@link reportHtml} writes, to the last character, as a promise: the work lets everything else have its turn between one part
 * and the next, tells how far it is, and can be left.
 *
 * @throws {InputError} rejected with it: as {@link reportHtml}. Once `signal` is aborted, its reason
 * @remarks Linear in the size of the assessment, whose pairs grow with the square of the receivers.
 *
 * @example
 * const street = routeBuilder().start([2, 61]).lineBy({ azimuth: 90, distance: 200 }).build()
 * const recording = readGeoJson('{"type":"LineString","coordinates":[[2,61.00002],[2.0036,61.00002]]}')[0]
 * const assessment = assess(street, [recording])
 * let left = 0
 * const page = await reportHtmlAsync(assessment, { onProgress: ({ done, of }) => (left = of - done) })
 * page === reportHtml(assessment) // → true
 * left // → 0
 */
export async function reportHtmlAsync(
  assessments: Assessments,
  options: ReportHtmlOptions & AsyncOptions = {},
): Promise<string> {
  const { own, driven } = asyncOptions<ReportHtmlOptions>(options, reportHtmlKeys);
  return inSlices(reportSteps(assessments, own), driven);
}
