import { InputError } from '../model';
import { checkView } from './checkView';
import { drawPlan } from './drawPlan';
import { boxAround } from './mapFrame';
import { type StretchPictureOptions, stretchPictureKeys } from './PictureOptions';
import { placeBox } from './placeBox';
import { planLines } from './planLines';
import type { Assessments, ReportModel } from './reportModel';
import { routePlane } from './routePlane';
import { shownPlaces } from './shownPlaces';

/** Options of {@link planMap}. */
export interface PlanMapOptions extends StretchPictureOptions {
  /** Only the surroundings of the worst place of this number. @defaultValue the whole route */
  readonly place?: number;
}

/**
 * The route from above as an SVG document, north up and true to scale: corridor, reference, recordings, numbered worst
 * places, north arrow and scale bar. It asks for nothing from outside and is light or dark as the reader prefers, unless `theme` is one of the two.
 *
 * Recordings are drawn from where they joined the route to where they left it, never the way there or home, and within 50 m
 * of the route or half the corridor where that is more.
 *
 * @param assessments - one assessment, or several of the same route
 * @throws {InputError} no assessment, assessments of different routes, a section, place or receiver that isn't there, a
 *   number outside its range
 *
 * @example
 * const street = routeBuilder().start([2, 61]).lineBy({ azimuth: 90, distance: 200 }).build()
 * const recording = readGeoJson('{"type":"LineString","coordinates":[[2,61.00002],[2.0036,61.00002]]}')[0]
 * planMap(assess(street, [recording])).startsWith('<svg xmlns="http://www.w3.org/2000/svg"') // → true
 */
export function planMap(assessments: Assessments, options: PlanMapOptions = {}): string {
  const view = checkView(assessments, options, { ...stretchPictureKeys, place: true }, 900);
  const { model, width, height, from, to, part } = view;
  const plane = routePlane(model.route.line);
  const place = options.place === undefined ? undefined : placeNumbered(model, options.place);
  const [most, shape] = [height ?? (place ? 0.6 : 1.05) * width, 1 / 0.6];
  const box = place ? placeBox(place, plane, shape) : part ? boxAround(plane.between(from, to), 30) : undefined;
  return view.document(
    drawPlan(model, plane, planLines(model, plane), {
      width,
      title: view.title(place ? `place ${place.number}, close up` : 'seen from above'),
      places: place ? [place] : shownPlaces(model),
      names: place ? 'none' : 'all',
      key: 'below',
      limits: { least: Math.min(0.4 * width, most), most },
      ...(box ? { box } : {}),
    }),
  );
}

function placeNumbered({ places }: ReportModel, number: number) {
  const place = places.find((candidate) => candidate.number === number);
  if (place) return place;
  const rule = places.length > 0 ? `one of ${places.map((one) => one.number).join(', ')}` : 'absent: nobody strayed';
  throw new InputError({ reason: 'missing', argument: 'options.place', rule, value: number });
}
