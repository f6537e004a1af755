import { checkView } from './checkView';
import { groundShapes } from './groundShapes';
import { type PlanMapOptions, planMapKeys } from './PlanMapOptions';
import { planDocument } from './planDocument';
import type { Assessments } from './reportModel';
import { routePlane } from './routePlane';
import { surroundingCredit } from './surroundingCredit';

/**
 * The route from above as an SVG document, north up and true to scale: corridor, reference, recordings, numbered worst
 * places, north arrow and scale bar. The name of a section that has no room is a letter there and stands below. It asks for nothing from outside and is light or dark as the reader prefers, unless `theme` is one of the two.
 *
 * Recordings are drawn from where they joined the route to where they left it, never the way there or home, and within 50 m
 * of the route or half the corridor where that is more.
 *
 * @param assessments - one assessment, or several of the same route
 * @throws {InputError} no assessment, assessments of different routes, a section, place or receiver that isn't there, a
 *   number outside its range
 * @remarks Linear in the size of the assessment, whose pairs grow with the square of the receivers.
 *
 * @example
 * const street = routeBuilder().start([2, 61]).lineBy({ azimuth: 90, distance: 200 }).build()
 * const recording = readGeoJson('{"type":"LineString","coordinates":[[2,61.00002],[2.0036,61.00002]]}')[0]
 * planMap(assess(street, [recording])).startsWith('<svg xmlns="http://www.w3.org/2000/svg"') // → true
 */
export function planMap(assessments: Assessments, options: PlanMapOptions = {}): string {
  const view = checkView(assessments, options, planMapKeys, 900);
  const { route } = view.model;
  const plane = routePlane(route.line);
  const credit = surroundingCredit(options);
  return planDocument(view, options.place, plane, groundShapes(route, plane, options.surroundings), credit);
}
