import type { Assessment } from '../assess';
import type { OptionKeys } from '../model';
import type {
  AssessedFigures,
  FiguresMethod,
  FiguresOptions,
  FiguresPair,
  FiguresRecording,
  FiguresRoute,
  FiguresRow,
  FiguresSection,
  FiguresWarning,
} from './AssessedFigures';
import { checkFigures } from './checkFigures';

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
const rowKeys: OptionKeys<FiguresRow> = {
  recording: true,
  section: true,
  meanAbsolute: true,
  bias: true,
  insideCorridor: true,
  insideAllowed: true,
  undecidedAllowed: true,
  correctSide: true,
  coverage: true,
  referenceLength: true,
  offRoute: true,
  halfWidth: true,
  sideLimit: true,
  foretold: true,
};
const pairKeys: OptionKeys<FiguresPair> = {
  first: true,
  second: true,
  section: true,
  difference: true,
  floor: true,
  commonShare: true,
  foretold: true,
};
const sectionKeys: OptionKeys<FiguresSection> = { name: true, from: true, to: true, halfWidth: true, lap: true };
const warningKeys: OptionKeys<FiguresWarning> = { reason: true, recording: true, message: true };
const optionKeys: OptionKeys<FiguresOptions> = { leverArm: true, equivalence: true, baseline: true };
/** Places of the line between which others are left out. */
const MOST_EDGES = 100;

/** Warnings of an assessment that its summary passes on. */
const passedOn: readonly string[] = ['clock', 'other-pace'];

/**
 * What {@link combine} needs of an assessment: a small document to be kept or sent in its place, with which `combine` gives
 * the same summary. Of figures it gives the same figures again.
 *
 * No position of a recording stands in it, and none of its offsets: the line is that of the route, at 101 places at most.
 *
 * @throws {InputError} `wrong-type`: neither an assessment nor figures of one
 * @remarks Grows with the recordings and sections, and with the pairs of recordings of a run; the line of the route and the method
 * in sentences come once: docs/many.md has sizes.
 *
 * @example
 * const quay = routeFromLine([[2.1, 61.4], [2.11, 61.4]])
 * const north = (metres) => [2.1, 2.102, 2.104, 2.106, 2.108, 2.11].map((lon) => direct([lon, 61.4], 0, metres).position)
 * const recorded = (name, metres) => readGeoJson(JSON.stringify({ type: 'LineString', coordinates: north(metres) }), { name })
 * const day = (a, b) => runFigures(assess(quay, [...recorded('A', a), ...recorded('B', b)]))
 * day(2, 6).rows[0] // → { recording: 'A', section: null, meanAbsolute: 2.0… }
 * combine([day(2, 6), day(3, 6), day(2, 7)]).pairs[0] // → { runs: 3, difference: -4.0…, verdict: 'closer', closer: 'A' }
 * runFigures({}) // throws wrong-type: assessment must be what assess or runFigures returned
 */
export function runFigures(assessment: Assessment | AssessedFigures): AssessedFigures {
  checkFigures(assessment, 'assessment');
  return takenFigures(assessment);
}

/** {@link runFigures} of what was checked. */
export function takenFigures(assessment: Assessment | AssessedFigures): AssessedFigures {
  const { route, recordings, rows, pairs, method, warnings } = assessment;
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
