import { checkArray, checkNumber, checkOptions, type OptionKeys } from '../model';
import { checkView } from './checkView';
import { errorDistribution } from './errorDistribution';
import { groundShapes } from './groundShapes';
import { type PictureOptions, pictureKeys } from './PictureOptions';
import { planMapKeys } from './PlanMapOptions';
import { planDocument } from './planDocument';
import { type Assessments, reportModel } from './reportModel';
import { routePlane } from './routePlane';
import { type SurroundingOptions, surroundingKeys } from './SurroundingOptions';
import { shownPlaces } from './shownPlaces';
import { stripChart } from './stripChart';
import { surroundingCredit } from './surroundingCredit';

const keys: OptionKeys<ReportPicturesOptions> = { ...pictureKeys, ...surroundingKeys };

/** Options of {@link reportPictures}. */
export interface ReportPicturesOptions extends PictureOptions, SurroundingOptions {}

/** A picture to publish. */
export interface NamedPicture {
  /** Of its file, without an ending: `plan`, `strip`, `distribution`, `place-1`, `stretch-2-lane`, `stretch-2-lane-plan`. */
  readonly name: string;
  readonly svg: string;
}

/** Pixels of the words of a picture 1600 px wide: as large beside it as those of a page's picture. */
const WORDS = 20;

/**
 * Every picture of a report by itself, to publish: the plan, left and right along the whole route, the distances, each
 * numbered place close up, and of each section its strip and its plan. Receivers are drawn alike in all of them, and in
 * every other report on them.
 *
 * @param assessments - one assessment, or several of the same route
 * @param options - as those of {@link planMap}; 1600 px wide, its words an eightieth of that, unless stated
 * @throws {InputError} as {@link planMap}
 * @remarks Linear in the size of the assessment, whose pairs grow with the square of the receivers, and in the number of
 * pictures; as the plan of a section shows every lap that lies in it, that of many laps grows with the square of the laps.
 *
 * @example
 * const street = routeBuilder().start([2, 61]).section('lane').lineBy({ azimuth: 90, distance: 200 }).build()
 * const recording = readGeoJson('{"type":"LineString","coordinates":[[2,61.00002],[2.0036,61.00002]]}')[0]
 * reportPictures(assess(street, [recording])).map(({ name }) => name) // → ['plan', 'strip', 'distribution', 'stretch-1-lane', 'stretch-1-lane-plan']
 */
export function reportPictures(assessments: Assessments, options: ReportPicturesOptions = {}): NamedPicture[] {
  checkOptions(options, keys);
  const { surroundings, credit, ...alike } = options;
  if (alike.width !== undefined) checkNumber(alike.width, 'options.width', { above: 0 });
  const { width = 1600, textSize = Math.min(96, Math.max(8, (WORDS * width) / 1600)) } = alike;
  const view = { ...alike, width, textSize };
  if (options.receivers !== undefined) checkArray(options.receivers, 'options.receivers');
  const model = reportModel(assessments);
  const shown = new Set(options.receivers ?? model.receivers.map(({ label }) => label));
  const places = shownPlaces(model).filter(({ strayings }) =>
    strayings.some(({ strand }) => shown.has(strand.receiver.label)),
  );
  const { assessments: all, route } = model;
  const plane = routePlane(route.line);
  const ground = groundShapes(route, plane, surroundings);
  const said = surroundingCredit({ surroundings, credit });
  const map = (part: { readonly place?: number; readonly section?: string }) =>
    planDocument(checkView(all, { ...view, ...part }, planMapKeys, width), part.place, plane, ground, said);
  return [
    { name: 'plan', svg: map({}) },
    { name: 'strip', svg: stripChart(all, view) },
    { name: 'distribution', svg: errorDistribution(all, view) },
    ...places.map(({ number: place }) => ({ name: `place-${place}`, svg: map({ place }) })),
    ...model.sections.flatMap(({ name: section }, i) => {
      const name = ['stretch', i + 1, ...fileWords(section)].join('-');
      return [
        { name, svg: stripChart(all, { ...view, section }) },
        { name: `${name}-plan`, svg: map({ section }) },
      ];
    }),
  ];
}

/** What of a name can stand in a file's name anywhere. */
function fileWords(name: string): string[] {
  return (
    name
      .normalize('NFKD')
      .replace(/\p{M}/gu, '')
      .toLowerCase()
      .match(/[a-z0-9]+/g)
      ?.slice(0, 6)
      .map((word) => word.slice(0, 24)) ?? []
  );
}
