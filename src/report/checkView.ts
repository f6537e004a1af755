import {
  checkArray,
  checkChoice,
  checkLooks,
  checkNumber,
  checkOptions,
  checkStretch,
  InputError,
  type OptionKeys,
} from '../model';
import type { Picture } from './Picture';
import type { StretchPictureOptions } from './PictureOptions';
import type { PictureTheme } from './pictureStyle';
import { type Assessments, type ReportModel, reportModel } from './reportModel';
import { standaloneSvg } from './standaloneSvg';

/** Pixels of the words as pictures are drawn, before they are made larger. */
const TEXT = 12;
/** Pixels below which no picture can be read. */
const LEAST = 240;
/** Metres of the route below which there is nothing to see. */
const LEAST_STRETCH = 1;

const themes: readonly PictureTheme[] = ['reader', 'light', 'dark'];

/**
 * What a picture is asked to show: its model, its width and height as drawn, the stretch it takes, its title, and how it
 * becomes a document as large as was asked.
 *
 * @throws {InputError} unknown options, no assessment, no section or receiver of that name, a number outside its range
 */
export function checkView<Options extends StretchPictureOptions>(
  assessments: Assessments,
  options: Options,
  keys: OptionKeys<Options>,
  usualWidth: number,
) {
  checkOptions(options, keys);
  const { textSize = TEXT, theme = 'reader', width = usualWidth, height, looks = {} } = options;
  checkLooks(looks, 'options.looks');
  checkChoice(theme, 'options.theme', themes);
  const scale = checkNumber(textSize, 'options.textSize', { min: 8, max: 96 }) / TEXT;
  checkNumber(width, 'options.width', { min: Math.max(LEAST, LEAST * scale), max: 10_000 });
  if (height !== undefined) checkNumber(height, 'options.height', { min: 120 * scale, max: 10_000 });
  const whole = reportModel(assessments, null, looks);
  const model = options.receivers === undefined ? whole : withReceivers(whole, options.receivers);
  const section = sectionNamed(model, options.section);
  if (options.stretch !== undefined) {
    checkStretch(model.route, options.stretch, 'options.stretch');
    if (options.stretch.to - options.stretch.from < LEAST_STRETCH) {
      const rule = 'at least a metre long';
      throw new InputError({ reason: 'out-of-range', argument: 'options.stretch', rule, value: options.stretch });
    }
    if (section) {
      const rule = 'absent where options.section is given';
      throw new InputError({ reason: 'wrong-type', argument: 'options.stretch', rule, value: options.stretch });
    }
  }
  const { from, to } = options.stretch ?? section ?? { from: 0, to: model.route.length };
  return {
    model,
    width: width / scale,
    /** Pixels of the finished picture to one as it is drawn. */
    scale,
    height: height === undefined ? undefined : height / scale,
    section,
    from,
    to,
    part: from > 0 || to < model.route.length,
    title: (shows: string) => [model.route.name ?? 'The route', section?.name, shows].filter(Boolean).join(', '),
    document: (picture: Picture) => standaloneSvg(picture, theme, scale),
  };
}

function sectionNamed({ sections }: ReportModel, name: string | undefined) {
  const section = sections.find((candidate) => candidate.name === name);
  if (section || name === undefined) return section;
  const rule =
    sections.length > 0 ? `one of ${sections.map((s) => s.name).join(', ')}` : 'absent: the route has no sections';
  throw new InputError({ reason: 'missing', argument: 'options.section', rule, value: name });
}

/** Without the others: places keep their numbers, those where none of these strayed are left out. */
function withReceivers(model: ReportModel, names: readonly string[]): ReportModel {
  checkArray(names, 'options.receivers');
  names.forEach((name, i) => {
    if (model.receivers.some(({ label }) => label === name)) return;
    const rule = `one of ${model.receivers.map(({ label }) => label).join(', ')}`;
    throw new InputError({ reason: 'missing', argument: `options.receivers[${i}]`, rule, value: name });
  });
  const shown = (label: string) => names.includes(label);
  return {
    ...model,
    receivers: model.receivers.filter(({ label }) => shown(label)),
    strands: model.strands.filter(({ receiver }) => shown(receiver.label)),
    places: model.places.flatMap((place) => {
      const mine = ({ strand }: (typeof place.strayings)[number]) => shown(strand.receiver.label);
      const strayings = place.strayings.filter(mine);
      return strayings.length === 0 ? [] : [{ ...place, strayings, worst: place.worst.filter(mine) }];
    }),
  };
}
