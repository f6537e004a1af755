import { finish } from '../model';
import type { ReportHtmlOptions } from './ReportHtmlOptions';
import type { Assessments } from './reportModel';
import { reportSteps } from './reportSteps';

/**
 * A report as one HTML file that opens from disk and requests nothing: findings in words first, what could not be shown
 * included; figures by stretch and receiver with their intervals and ties; the route from above with the worst places
 * numbered, left and right along the route, offsets exaggerated, each stretch by itself, turns, errors by the clock where a
 * truth was carried along, pairs, lengths, what was recorded, doubt in the reference, method and cautions.
 *
 * Light or dark as the reader prefers, from 320 px to a wide screen, on paper, by keyboard and read aloud. A small script
 * shows the place pointed at in all pictures; everything can be read without it. Names from files are only ever text.
 *
 * @param assessments - one assessment, with one run or several in it, or one assessment for each run of the same route
 * @throws {InputError} no assessment, assessments of different routes, unknown options
 * @remarks Linear in the size of the assessment, whose pairs grow with the square of the receivers.
 *
 * @example
 * const street = routeBuilder().start([2, 61]).lineBy({ azimuth: 90, distance: 200 }).build()
 * const recording = readGeoJson('{"type":"LineString","coordinates":[[2,61.00002],[2.0036,61.00002]]}')[0]
 * reportHtml(assess(street, [recording]), { title: 'A <short> street' }).includes('<h1>A &lt;short&gt; street</h1>') // → true
 */
export function reportHtml(assessments: Assessments, options: ReportHtmlOptions = {}): string {
  return finish(reportSteps(assessments, options));
}
