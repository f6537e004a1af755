import { checkNumber, InputError } from '../model';
import { checkView } from './checkView';
import { drawRibbon, ribbonExaggeration } from './drawRibbon';
import type { Assessments } from './reportModel';
import { routePlane } from './routePlane';
import { standaloneSvg } from './standaloneSvg';

/** Options of {@link ribbonMap}. */
export interface RibbonMapOptions {
  /** Pixels, 240 to 10 000. @defaultValue 900 */
  readonly width?: number;
  /**
   * How many times their true size the offsets are drawn, 1 to 1000. @defaultValue so that most of them fill a sixteenth of
   * the map
   */
  readonly exaggeration?: number;
  /** Only this receiver's. @defaultValue all in one map */
  readonly receiver?: string;
}

/**
 * The route from above with the offsets exaggerated, as an SVG document: errors of a few metres that a plan of kilometres
 * can't show, each on its side of the line.
 *
 * @param assessments - one assessment, or several of the same route
 * @throws {InputError} no assessment, assessments of different routes, an unknown receiver, a number outside its range
 *
 * @example
 * const street = routeBuilder().start([2, 61]).lineBy({ azimuth: 90, distance: 200 }).build()
 * const recording = readGeoJson('{"type":"LineString","coordinates":[[2,61.00002],[2.0036,61.00002]]}')[0]
 * ribbonMap(assess(street, [recording]), { exaggeration: 0 }) // throws out-of-range: options.exaggeration must be a number of at least 1
 */
export function ribbonMap(assessments: Assessments, options: RibbonMapOptions = {}): string {
  const view = checkView(assessments, options, { width: true, exaggeration: true, receiver: true }, 900);
  const { model, width } = view;
  const { receiver: name } = options;
  const receivers = name === undefined ? model.receivers : model.receivers.filter(({ label }) => label === name);
  if (receivers.length === 0 && name !== undefined) {
    const rule = `one of ${model.receivers.map(({ label }) => label).join(', ')}`;
    throw new InputError({ reason: 'missing', argument: 'options.receiver', rule, value: name });
  }
  const plane = routePlane(model.route.line);
  const exaggeration =
    options.exaggeration === undefined
      ? ribbonExaggeration(model, plane)
      : checkNumber(options.exaggeration, 'options.exaggeration', { min: 1, max: 1000 });
  const title = view.title(`offsets drawn ${exaggeration} times too wide`);
  return standaloneSvg(drawRibbon(model, plane, { width, title, receivers, exaggeration, key: 'below' }));
}
