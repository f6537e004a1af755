import { InputError } from '../model';
import type { checkView } from './checkView';
import { drawPlan } from './drawPlan';
import type { GroundShape } from './groundShapes';
import { boxAround } from './mapFrame';
import { placeBox } from './placeBox';
import { planLines } from './planLines';
import type { ReportModel } from './reportModel';
import type { RoutePlane } from './routePlane';
import { shownPlaces } from './shownPlaces';
import type { SurroundingCredit } from './surroundingCredit';

/** The route from above, or one of its places, as a document of its own. */
export function planDocument(
  view: ReturnType<typeof checkView>,
  number: number | undefined,
  plane: RoutePlane,
  ground: readonly GroundShape[],
  credit: SurroundingCredit | undefined,
): string {
  const { model, width, height, from, to, part } = view;
  const place = number === undefined ? undefined : placeNumbered(model, number);
  const [most, shape] = [height ?? (place ? 0.6 : 1.05) * width, 1 / 0.6];
  const box = part ? boxAround([plane.between(from, to)], 30) : undefined;
  return view.document(
    drawPlan(model, plane, planLines(model, plane, ground), {
      width,
      title: view.title(place ? `place ${place.number}, close up` : 'seen from above'),
      places: place ? [place] : shownPlaces(model),
      names: place ? 'none' : 'all',
      key: 'below',
      limits: { least: Math.min(0.4 * width, most), most },
      pixel: 1 / view.scale,
      ...(place ? placeBox(place, plane, shape) : box && { box }),
      ...(credit && { credit }),
    }),
  );
}

function placeNumbered({ places }: ReportModel, number: number) {
  const place = places.find((candidate) => candidate.number === number);
  if (place) return place;
  const rule = places.length > 0 ? `one of ${places.map((one) => one.number).join(', ')}` : 'absent: nobody strayed';
  throw new InputError({ reason: 'missing', argument: 'options.place', rule, value: number });
}
