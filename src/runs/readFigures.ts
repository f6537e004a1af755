import type { Assessment } from '../assess';
import { checkShape, InputError, type OptionKeys } from '../model';
import type {
  AssessedFigures,
  FiguresMethod,
  FiguresOptions,
  FiguresRecording,
  FiguresRoute,
  FiguresSection,
  FiguresWarning,
} from './AssessedFigures';
import { checkSizes } from './checkSizes';
import { pairKeys, rowKeys } from './columnKeys';
import { fromColumns } from './fromColumns';
import type { TakenFigures } from './TakenFigures';
import { takenFiguresShapes } from './takenFiguresShapes';

/** Keys of what is taken; typed so that one that `combine` reads can't be forgotten here. */
const recordingKeys: OptionKeys<FiguresRecording> = {
  name: true,
  receiver: true,
  placement: true,
  run: true,
  leftOut: true,
  fixes: true,
  hash: true,
};
const sectionKeys: OptionKeys<FiguresSection> = { name: true, from: true, to: true, halfWidth: true, lap: true };
const warningKeys: OptionKeys<FiguresWarning> = { reason: true, recording: true, message: true };
const optionKeys: OptionKeys<FiguresOptions> = { leverArm: true, equivalence: true, baseline: true };
/** Places of the line between which others are left out. */
const MOST_EDGES = 100;

/** Warnings of an assessment that its summary passes on. */
const passedOn: readonly string[] = ['clock', 'other-pace', 'on-the-line'];

/**
 * What {@link combine} reads of an assessment or of its figures, and nothing else; anything that has not, to the last member,
 * what is read is refused. Linear in its size.
 *
 * @throws {InputError} naming the place: `assessments[1].rows[3].bias`
 */
export function readFigures(given: Assessment | AssessedFigures, argument: string): TakenFigures {
  if (typeof given !== 'object' || given === null || (given as Partial<AssessedFigures>).schema !== 1) {
    throw new InputError({ reason: 'wrong-type', argument, rule: 'what assess or runFigures returned', value: given });
  }
  const figures = (Array.isArray(given.rows) ? given : fromColumns(given as AssessedFigures, argument)) as TakenFigures;
  checkShape(figures, '#', takenFiguresShapes, argument);
  const { route, recordings, rows, pairs, method, warnings } = figures;
  checkSizes({ rows, pairs }, argument);
  return {
    schema: 1,
    route: routeOf(route),
    recordings: recordings.map(taking(recordingKeys)),
    rows: rows.map(taking(rowKeys)),
    pairs: pairs.map(taking(pairKeys)),
    method: methodOf(method),
    warnings: warnings.filter(({ reason }) => passedOn.includes(reason)).map(taking(warningKeys)),
  };
}

function routeOf({ name, length, sections, line }: FiguresRoute): FiguresRoute {
  const step = Math.max(1, Math.ceil((line.lon.length - 1) / MOST_EDGES));
  const kept = (column: readonly number[]) => column.filter((_, i) => i % step === 0 || i === column.length - 1);
  return {
    name,
    length,
    sections: sections.map(taking(sectionKeys)),
    line: { lon: kept(line.lon), lat: kept(line.lat) },
  };
}

function methodOf({ library, version, hash, sentences, cautions, options, inputs }: FiguresMethod): FiguresMethod {
  const [{ name, hash: routeHash }] = inputs;
  return {
    library,
    version,
    hash,
    options: taking(optionKeys)(options),
    inputs: [{ name, hash: routeHash }],
    sentences,
    cautions,
  };
}

function taking<T extends object>(keys: OptionKeys<T>): (whole: T) => T {
  const names = Object.keys(keys) as (keyof T)[];
  return (whole) => {
    const taken = {} as T;
    for (const name of names) taken[name] = whole[name];
    return taken;
  };
}
