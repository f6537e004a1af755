import { checkNumber } from '../model';
import { checkView } from './checkView';
import { drawRibbon, ribbonExaggeration } from './drawRibbon';
import { type PictureOptions, pictureKeys } from './PictureOptions';
import type { Assessments } from './reportModel';
import { routePlane } from './routePlane';

/** Options of {@link ribbonMap}. */
export interface RibbonMapOptions extends PictureOptions {
  /**
   * How many times their true size the offsets are drawn, 1 to 1000. @defaultValue so that most of them fill a sixteenth of
   * the map
   */
  readonly exaggeration?: number;
}

/**
 * The route from above with the offsets exaggerated, as an SVG document: errors of a few metres that a plan of kilometres
 * can't show, each on its side of the line.
 *
 * @param assessments - one assessment, or several of the same route
 * @throws {InputError} no assessment, assessments of different routes, an unknown receiver, a number outside its range
 * @remarks Linear in the size of the assessment, whose pairs grow with the square of the receivers.
 *
 * @example
 * const street = routeBuilder().start([2, 61]).lineBy({ azimuth: 90, distance: 200 }).build()
 * const recording = readGeoJson('{"type":"LineString","coordinates":[[2,61.00002],[2.0036,61.00002]]}')[0]
 * ribbonMap(assess(street, [recording]), { exaggeration: 0 }) // throws out-of-range: options.exaggeration must be a number of at least 1
 */
export function ribbonMap(assessments: Assessments, options: RibbonMapOptions = {}): string {
  const view = checkView(assessments, options, { ...pictureKeys, exaggeration: true }, 900);
  const { model, width } = view;
  const plane = routePlane(model.route.line);
  const exaggeration =
    options.exaggeration === undefined
      ? ribbonExaggeration(model, plane)
      : checkNumber(options.exaggeration, 'options.exaggeration', { min: 1, max: 1000 });
  const title = view.title(`offsets drawn ${exaggeration} times too wide`);
  const { receivers } = model;
  return view.document(drawRibbon(model, plane, { width, title, receivers, exaggeration, key: 'below' }));
}
