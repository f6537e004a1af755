import { group } from 'd3-array';
import { type Area, Ground } from '../areas';
import {
  checkChoice,
  checkNumber,
  checkOptions,
  checkRoute,
  type Line,
  type OptionKeys,
  ofRoute,
  type Recording,
  type Route,
} from '../model';
import type {
  AssessedRecording,
  Assessment,
  AssessmentRow,
  AssessmentWarning,
  Exclusion,
  Pair,
  SectionExclusion,
  SectionOrder,
} from './Assessment';
import { assessmentWarnings } from './assessmentWarnings';
import { balancedMean } from './balancedMean';
import { besideWarnings } from './besideWarnings';
import { checkExclusions } from './checkExclusions';
import { commonShift } from './commonShift';
import { companionOffsets } from './companionOffsets';
import { comparePair, metresApart } from './comparePair';
import { describeAreas } from './describeAreas';
import { describeMethod } from './describeMethod';
import { describeRecording } from './describeRecording';
import { describeRoute } from './describeRoute';
import { errorAlong } from './errorAlong';
import { findCorners } from './findCorners';
import { findExcursions } from './findExcursions';
import { findPassages } from './findPassages';
import { allowedShares, type GroundFound } from './groundFigures';
import { groundPassed } from './groundPassed';
import { groundWarnings } from './groundWarnings';
import { judgePairs } from './judgePairs';
import { lapRepeatability } from './lapRepeatability';
import { judgedPart, measureRow, type Stretch, statedUncertainty } from './measureRow';
import type { NamedPlaced } from './NamedPlaced';
import { nameLaps } from './nameLaps';
import { orderRecordings } from './orderRecordings';
import { onOwnDraft, ownDraftLimit, ownDrafts } from './ownDrafts';
import { placeEntries } from './placeEntries';
import { RouteGrid, wholeGrid } from './RouteGrid';
import { RunChances } from './RunChances';
import { ranAgainst } from './ranAgainst';
import { referenceDoubt } from './referenceDoubt';
import { referenceShifts } from './referenceShifts';
import { shareAcross } from './shareAcross';
import { shownDistances } from './shownDistances';
import { type CarriedRecording, type Entry, testEntries } from './testEntries';
import { totalLengths } from './totalLengths';
import { verdictCap } from './verdictCap';
import { withoutSides } from './withoutSides';
import { withUnlikeMemories } from './withUnlikeMemories';

/** Options of {@link assess}. */
export interface AssessOptions {
  /** The middle of the street: asks for the share on the right side of it. */
  readonly centreline?: Line;
  /** A mapped line that was not travelled: asks whether recordings are drawn to it. */
  readonly decoy?: Line;
  /** Stretches or sections to take out for all recordings alike, a detour really travelled for one. @defaultValue none */
  readonly exclude?: readonly (Exclusion | SectionExclusion)[];
  /** Two recordings are equivalent when the whole interval of their difference lies within this many metres of 0. @defaultValue 1 */
  readonly equivalence?: number;
  /** Metres by which a receiver may be off the line the body travels. @defaultValue 0.5 */
  readonly leverArm?: number;
  /** The receiver (or the recording, where none is stated) that alone the others are compared with. @defaultValue every two are compared */
  readonly baseline?: string;
  /** Metres beyond which an offset is an excursion where the route states no corridor. @defaultValue 10 */
  readonly defaultHalfWidth?: number;
  /**
   * Whether the recordings of a run with times were carried by one body, whose pace they share: then each has an error along
   * the route, and what one saw decides where another alone could not tell one pass of it from the next. `apart` places each
   * alone. @defaultValue 'shared'
   */
  readonly pace?: 'shared' | 'apart';
  /**
   * Ground that the recorded lines are judged by: where they can have been (roadways, paths), and where not (houses, water).
   * Those of one name are one. See `areasFromGeoJson`.
   */
  readonly areas?: readonly Area[];
}

const optionKeys: OptionKeys<AssessOptions> = {
  centreline: true,
  decoy: true,
  exclude: true,
  equivalence: true,
  leverArm: true,
  baseline: true,
  defaultHalfWidth: true,
  pace: true,
  areas: true,
};

/**
 * Judges recordings against the route truly travelled, section by section: how far off each was, to which side, how
 * steadily, how bad at worst, and whether two of them really differ. Lengths in metres.
 *
 * Sections that share a name are told apart by their lap: `oval, lap 2`.
 *
 * A recording that cannot be judged (too few fixes, elsewhere, over more than a day) is named in `warnings` and left out;
 * the rest stands.
 *
 * @param recordings - recordings, or `{ recording, receiver?, placement?, run? }`; only those of one run are compared
 *
 * @throws {InputError} no recording at all, something that is no recording, or an option outside its range
 *
 * @remarks Figures are of the offset in bins of at most a metre, each counting once; their intervals hold the truth as
 * often as the table in docs/verdicts.md says. 10 km of six recordings at one fix a second take well under 1.5 s on one core.
 * @see the questions that each field answers, docs/questions.md
 *
 * @example
 * const quay = routeFromLine([[2.1, 61.4], [2.11, 61.4]])
 * const north = (metres) => Array.from({ length: 101 }, (_, i) => direct([2.1 + i / 1e4, 61.4], 0, metres + (i % 3) - 1).position)
 * const recorded = (name, metres) => readGeoJson(JSON.stringify({ type: 'LineString', coordinates: north(metres) }), { name })
 * const assessment = assess(quay, [...recorded('A', 2), ...recorded('B', 6)])
 * assessment.rows.map(({ recording, biasInWords, strayedTo }) => [recording, biasInWords, strayedTo]) // → [['A', '2.0 m left', 'left'], ['B', '6.0 m left', 'left']]
 * assessment.pairs[0] // → { difference: -4.0…, verdict: 'closer', closer: 'A' }
 * assess(quay, []) // throws too-few: recordings must be at least 1 recording
 */
export function assess(
  authored: Route,
  recordings: Iterable<Recording | CarriedRecording>,
  options: AssessOptions = {},
): Assessment {
  checkRoute(authored);
  checkOptions(options, optionKeys);
  const {
    centreline,
    decoy,
    exclude = [],
    equivalence = 1,
    leverArm = 0.5,
    defaultHalfWidth = 10,
    baseline,
    pace = 'shared',
    areas,
  } = options;
  const route = ofRoute(authored, nameLaps);
  checkChoice(pace, 'options.pace', ['shared', 'apart']);
  checkNumber(equivalence, 'options.equivalence', { above: 0 });
  checkNumber(leverArm, 'options.leverArm', { min: 0 });
  checkNumber(defaultHalfWidth, 'options.defaultHalfWidth', { above: 0 });
  const excluded = checkExclusions(exclude, route, authored);
  const entries = testEntries(recordings);
  const receiverOf = ({ receiver, name }: { receiver: string | null; name: string }) => receiver ?? name;
  if (baseline !== undefined) checkChoice(baseline, 'options.baseline', [...new Set(entries.map(receiverOf))]);
  const ground = areas && new Ground(areas, 'options.areas', route);
  const grid = excluded.length > 0 ? new RouteGrid(route, excluded) : ofRoute(route, wholeGrid);
  const warnings: AssessmentWarning[] = [];
  const warn = (reason: AssessmentWarning['reason'], message: string, about: Partial<AssessmentWarning> = {}) =>
    warnings.push({ recording: null, section: null, from: null, to: null, ...about, reason, message });

  const described: AssessedRecording[] = [];
  const included: (NamedPlaced & { readonly entry: Entry })[] = [];
  const judged: NamedPlaced[] = [];
  const { placements, beside } = placeEntries(grid, route, entries, pace);
  entries.forEach((entry, i) => {
    if (entry.renamedFrom !== null) {
      warn('renamed', `Another recording is also called “${entry.renamedFrom}”.`, { recording: entry.name });
    }
    const { placed, refusal } = placements[i];
    described.push(describeRecording(grid, entry, placed, refusal ?? null, defaultHalfWidth));
    if (refusal) warn(refusal.reason, refusal.message, { recording: entry.name });
    else included.push({ name: entry.name, placed: placed!, entry });
    if (placed) judged.push({ name: entry.name, placed });
  });
  const runs = [...new Set(included.map(({ entry }) => entry.run))].map((run) => ({
    run,
    members: included.filter(({ entry }) => entry.run === run),
  }));
  const told = shareAcross(described, beside);

  const stretches: Stretch[] = [
    ...route.sections.map(({ name, from, to }) => ({ section: name, from, to })),
    { section: null, from: 0, to: route.length },
  ];
  const centre = centreline === undefined ? undefined : companionOffsets(grid, centreline);
  const lure = decoy === undefined ? undefined : companionOffsets(grid, decoy);
  const found = new Map<string, GroundFound>();
  if (ground) {
    for (const { name, placed } of judged) {
      const passed = groundPassed(grid, placed, ground);
      const passages = findPassages(grid, name, placed, passed, ground);
      found.set(name, { passed, passages, areas: ground.index.areas, timed: placed.recording.time !== undefined });
    }
  }
  const allowedOf = (name: string) => {
    const one = found.get(name);
    return one && allowedShares(one.passed);
  };
  const inRun = new Map(
    runs.flatMap(({ members }) => {
      const chances = new RunChances(grid, members, centre?.offset, allowedOf);
      return members.map(({ name }) => [name, chances] as const);
    }),
  );
  const own = ownDrafts(route, told);
  const plain = judged.flatMap((one) => {
    // what is left out of its run is judged alone
    const chances = inRun.get(one.name) ?? new RunChances(grid, [one], centre?.offset, allowedOf);
    const against = ranAgainst(one.placed);
    const error = errorAlong(grid, one.placed, beside.get(one.name));
    return stretches.map((stretch) => {
      const row = {
        ...measureRow(grid, one.name, one.placed, stretch, {
          chances,
          decoy: lure?.offset,
          leverArm,
          ground: found.get(one.name),
        }),
        alongTrackError: error(judgedPart(grid, stretch)),
      };
      if (own.names.has(one.name)) return onOwnDraft(row);
      return against ? withoutSides(row) : row;
    });
  });
  const bySection = group(plain, ({ section }) => section);
  const limited = new Map(
    runs.flatMap(({ members }) => {
      const names = new Set(members.map(({ name }) => name));
      return stretches.flatMap(({ section }) => {
        const mine = bySection.get(section)?.filter((row) => names.has(row.recording)) ?? [];
        return withUnlikeMemories(mine).map((row, i) => [mine[i], row] as const);
      });
    }),
  );
  const measured = plain.map((row) => limited.get(row) ?? row);
  const measuredIn = group(measured, ({ section }) => section);
  const measuredOf = group(measured, ({ recording }) => recording);

  const pairs: Pair[] = [];
  const moved: (readonly number[])[] = [];
  const order: SectionOrder[] = [];
  const cap = verdictCap(told, measured);
  const shifts = referenceShifts(grid);
  for (const { run, members } of runs) {
    const names = new Set(members.map(({ name }) => name));
    const couples = members.flatMap((first, i) =>
      members
        .slice(i + 1)
        .flatMap((second) =>
          baseline === undefined || [first, second].some(({ entry }) => receiverOf(entry) === baseline)
            ? [{ first, second, apart: metresApart(first.placed, second.placed) }]
            : [],
        ),
    );
    if (baseline !== undefined && members.length > 1 && couples.length === 0) {
      warn('no-baseline', `Run “${run}” has no recording of “${baseline}”: nothing is compared in it.`);
    }
    for (const stretch of stretches) {
      const comparisons = couples.map(({ first, second, apart }) =>
        comparePair(grid, first, second, stretch, inRun.get(first.name)!, apart, leverArm, shifts),
      );
      const verdicts = judgePairs(comparisons, {
        equivalence,
        cap: (pair, candidate) => ownDraftLimit(own, pair.first, pair.second) ?? cap(pair, candidate),
      }).map(({ moved: _, ...pair }): Pair => pair);
      pairs.push(...verdicts);
      moved.push(...comparisons.map((comparison) => comparison.moved));
      const mine = measuredIn.get(stretch.section)?.filter(({ recording }) => names.has(recording)) ?? [];
      order.push(
        orderRecordings(mine, verdicts, stretch.section, run, equivalence, (recording) =>
          balancedMean(measuredOf.get(recording)!),
        ),
      );
    }
  }
  const floors = new Map(stretches.map(({ section }) => [section, new Map<string, number>()]));
  for (const { section, first, second, floor } of pairs) {
    const inSection = floors.get(section)!;
    for (const name of [first, second]) inSection.set(name, Math.max(floor, inSection.get(name) ?? leverArm));
  }
  const rows = measured.map((row): AssessmentRow => {
    return { ...row, verdictLimit: floors.get(row.section)!.get(row.recording) ?? leverArm };
  });
  const doubt = referenceDoubt(grid, included, pairs, moved, shifts);
  const shift = commonShift(
    grid,
    included.filter(({ name }) => !own.names.has(name)),
  );
  const lateral95 = statedUncertainty(grid, 0, grid.count);
  for (const { reason, message, ...about } of own.warnings) warn(reason, message, about);
  warnings.push(...assessmentWarnings({ route, recordings: told, rows, doubt, shift, lateral95, excluded }));
  warnings.push(...besideWarnings(told, beside, pace));
  if (ground) {
    for (const { from, to, message } of groundWarnings(route, ground)) warn('route', message, { from, to });
    if (!ground.isNear)
      warn('areas-elsewhere', 'No area lies within a kilometre of the route: are they of another place?');
    for (const message of issuesOf(areas)) warn('areas-left-out', message);
  }

  return {
    schema: 1,
    route: describeRoute(grid, excluded, lure, centre, ground ? describeAreas(grid, ground) : null),
    recordings: told,
    rows,
    excursions: judged
      .flatMap(({ name, placed }) => findExcursions(grid, name, placed, defaultHalfWidth))
      .sort((a, b) => Math.abs(b.peak) - Math.abs(a.peak))
      .map((excursion, i) => ({ number: i + 1, ...excursion })),
    passages: [...found.values()]
      .flatMap(({ passages }) => passages)
      .sort((a, b) => b.metres - a.metres)
      .map((passage, i) => ({ number: i + 1, ...passage })),
    corners: findCorners(grid, judged, Math.max(1, leverArm)),
    distances: runs.flatMap(({ members }) => shownDistances(grid, members)),
    pairs,
    order,
    lapRepeatability: lapRepeatability(grid, judged),
    totals: totalLengths(grid, judged, rows),
    referenceDoubt: doubt,
    commonShift: shift,
    method: describeMethod(
      route,
      entries,
      { decoy: lure, centreline: centre },
      { leverArm, equivalence, defaultHalfWidth, pace, baseline: baseline ?? null, exclude: excluded },
      ground,
    ),
    warnings,
  };
}

/** What was left out of the documents that areas were read from, each told once. */
function issuesOf(areas: readonly Area[]): string[] {
  const told = areas.flatMap(({ issues = [] }) =>
    issues.map(({ message, count, place }) => `${message}: ${count}, the first at ${place}.`),
  );
  return [...new Set(told)];
}
