import { checkOptions } from '../model';
import { drawDistribution } from './drawDistribution';
import { type Assessments, reportModel } from './reportModel';
import { standaloneSvg } from './standaloneSvg';
import { checkWidth, sectionNamed } from './viewOptions';

/** Options of {@link errorDistribution}. */
export interface ErrorDistributionOptions {
  /** Pixels, 240 to 10 000. @defaultValue 600 */
  readonly width?: number;
  /** Only this section. @defaultValue the whole route */
  readonly section?: string;
}

/**
 * The share of covered metres no further off than so many metres, a curve for each recording, as an SVG document, with the
 * marks of 50, 68 and 95 % and, for a section, its corridor. Each metre of the route counts once.
 *
 * @param assessments - one assessment, or several of the same route
 * @throws {InputError} no assessment, assessments of different routes, a section that isn't there, a width outside its range
 *
 * @example
 * const street = routeBuilder().start([2, 61]).lineBy({ azimuth: 90, distance: 200 }).build()
 * const recording = readGeoJson('{"type":"LineString","coordinates":[[2,61.00002],[2.0036,61.00002]]}')[0]
 * errorDistribution(assess(street, [recording]), { section: 'quay' }) // throws missing: options.section must be absent: the route has no sections
 */
export function errorDistribution(assessments: Assessments, options: ErrorDistributionOptions = {}): string {
  checkOptions(options, { width: true, section: true });
  const { width = 600, section: name } = options;
  const model = reportModel(assessments);
  const section = sectionNamed(model, name);
  checkWidth(width);
  return standaloneSvg(
    drawDistribution(model, {
      width,
      height: Math.round(Math.min(420, Math.max(220, 0.6 * width))),
      title: [model.route.name ?? 'The route', section?.name, 'distances from it'].filter(Boolean).join(', '),
      from: section?.from ?? 0,
      to: section?.to ?? model.route.length,
      corridor: section?.halfWidth ?? null,
      key: 'below',
    }),
  );
}
