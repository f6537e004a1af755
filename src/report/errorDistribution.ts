import { checkView } from './checkView';
import { drawDistribution } from './drawDistribution';
import { type StretchPictureOptions, stretchPictureKeys } from './PictureOptions';
import type { Assessments } from './reportModel';

/** Options of {@link errorDistribution}. */
export interface ErrorDistributionOptions extends StretchPictureOptions {}

/**
 * The share of covered metres no further off than so many metres, a curve for each recording, as an SVG document, with the
 * marks of 50, 68 and 95 % and, for a section, its corridor. Each metre of the route counts once.
 *
 * @param assessments - one assessment, or several of the same route
 * @throws {InputError} no assessment, assessments of different routes, a section or receiver that isn't there, a number
 *   outside its range
 * @remarks Linear in the size of the assessment, whose pairs grow with the square of the receivers.
 *
 * @example
 * const street = routeBuilder().start([2, 61]).lineBy({ azimuth: 90, distance: 200 }).build()
 * const recording = readGeoJson('{"type":"LineString","coordinates":[[2,61.00002],[2.0036,61.00002]]}')[0]
 * errorDistribution(assess(street, [recording]), { section: 'quay' }) // throws missing: options.section must be absent: the route has no sections
 */
export function errorDistribution(assessments: Assessments, options: ErrorDistributionOptions = {}): string {
  const view = checkView(assessments, options, stretchPictureKeys, 600);
  const { model, width, height, section, from, to } = view;
  return view.document(
    drawDistribution(model, {
      width,
      height: height ?? Math.round(Math.min(420, Math.max(220, 0.6 * width))),
      title: view.title('distances from it'),
      from,
      to,
      corridor: section?.halfWidth ?? null,
      runs: 'named',
      key: 'below',
    }),
  );
}
