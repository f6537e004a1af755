import { checkView } from './checkView';
import { drawPlan } from './drawPlan';
import { boxAround } from './mapFrame';
import { planLines } from './planLines';
import type { Assessments } from './reportModel';
import { routePlane } from './routePlane';
import { shownPlaces } from './shownPlaces';
import { standaloneSvg } from './standaloneSvg';

/** Options of {@link planMap}. */
export interface PlanMapOptions {
  /** Pixels, 240 to 10 000. @defaultValue 900 */
  readonly width?: number;
  /** Only the stretch around this section. @defaultValue the whole route */
  readonly section?: string;
}

/**
 * The route from above as an SVG document, north up and true to scale: corridor, reference, recordings, numbered worst
 * places, north arrow and scale bar. It asks for nothing from outside and is light or dark as the reader prefers.
 *
 * Recordings are drawn from where they joined the route to where they left it, never the way there or home, and within 50 m
 * of the route or half the corridor where that is more.
 *
 * @param assessments - one assessment, or several of the same route
 * @throws {InputError} no assessment, assessments of different routes, a section that isn't there, a width outside its range
 *
 * @example
 * const street = routeBuilder().start([2, 61]).lineBy({ azimuth: 90, distance: 200 }).build()
 * const recording = readGeoJson('{"type":"LineString","coordinates":[[2,61.00002],[2.0036,61.00002]]}')[0]
 * planMap(assess(street, [recording])).startsWith('<svg xmlns="http://www.w3.org/2000/svg"') // → true
 */
export function planMap(assessments: Assessments, options: PlanMapOptions = {}): string {
  const view = checkView(assessments, options, { width: true, section: true }, 900);
  const { model, width, section } = view;
  const plane = routePlane(model.route.line);
  return standaloneSvg(
    drawPlan(model, plane, planLines(model, plane), {
      width,
      title: view.title('seen from above'),
      places: shownPlaces(model),
      names: 'all',
      key: 'below',
      ...(section ? { box: boxAround(plane.between(section.from, section.to), 30) } : {}),
    }),
  );
}
