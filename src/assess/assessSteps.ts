import { group } from 'd3-array';
import { type Area, Ground } from '../areas';
import {
  checkChoice,
  checkNumber,
  checkOptions,
  checkRoute,
  InputError,
  ofRoute,
  type Recording,
  type Route,
  type Steps,
} from '../model';
import type {
  AssessedRecording,
  Assessment,
  AssessmentRow,
  AssessmentWarning,
  Excursion,
  Pair,
  SectionOrder,
} from './Assessment';
import { type AssessOptions, assessKeys } from './AssessOptions';
import { assessmentWarnings } from './assessmentWarnings';
import { balancedMean } from './balancedMean';
import { besideWarnings } from './besideWarnings';
import { binsElsewhere } from './binsElsewhere';
import { checkExclusions } from './checkExclusions';
import { commonShift } from './commonShift';
import { companionOffsets } from './companionOffsets';
import { comparePair, metresApart } from './comparePair';
import { describeAreas } from './describeAreas';
import { describeMethod } from './describeMethod';
import { describeRecording } from './describeRecording';
import { describeRoute } from './describeRoute';
import { distanceSums } from './distanceSums';
import { drawnRecording } from './drawnRecording';
import { type EntryHashes, entryHashes } from './entryHashes';
import { errorAlong } from './errorAlong';
import { farTogether } from './farTogether';
import { findCorners } from './findCorners';
import { findExcursions } from './findExcursions';
import { findPassages } from './findPassages';
import { allowedShares, type GroundFound } from './groundFigures';
import { groundPassed } from './groundPassed';
import { groundWarnings } from './groundWarnings';
import { judgePairs } from './judgePairs';
import { lapRepeatability } from './lapRepeatability';
import { meanOffset } from './meanOffset';
import { judgedPart, measureRow, type Stretch, statedUncertainty } from './measureRow';
import type { NamedPlaced } from './NamedPlaced';
import { nameLaps } from './nameLaps';
import { orderRecordings } from './orderRecordings';
import { onOwnDraft, ownDraftLimit, ownDrafts } from './ownDrafts';
import { pairSums, type Summed } from './pairSums';
import { placeEntries } from './placeEntries';
import { RouteGrid, wholeGrid } from './RouteGrid';
import { RunChances } from './RunChances';
import { ranAgainst } from './ranAgainst';
import { referenceDoubt } from './referenceDoubt';
import { referenceShifts } from './referenceShifts';
import { rowColumns } from './rowColumns';
import { shareAcross } from './shareAcross';
import { shownDistances } from './shownDistances';
import { sparseAmong } from './sparseAmong';
import { type CarriedRecording, type Entry, testEntries } from './testEntries';
import { totalLengths } from './totalLengths';
import { verdictCap } from './verdictCap';
import { withoutSides } from './withoutSides';
import { withUnlikeMemories } from './withUnlikeMemories';

/** A kilobyte each in the assessment, and a third of that in the report. */
const MOST_COMPARISONS = 200_000;

/** A recording that stands in comparisons. */
type Member = NamedPlaced & { readonly entry: Entry };

/**
 * What `assess` does, in steps: recordings are placed, rows measured, pairs compared.
 *
 * @param wanted - with `rows and pairs` what pictures are drawn from is left empty: offsets, times and pieces of recordings, bins of
 * the route, corners, distances and lengths
 */
export function* assessSteps(
  authored: Route,
  recordings: Iterable<Recording | CarriedRecording>,
  options: AssessOptions = {},
  wanted: 'all' | 'rows and pairs' = 'all',
): Steps<Assessment> {
  checkRoute(authored);
  checkOptions(options, assessKeys);
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
  yield;
  const warnings: AssessmentWarning[] = [];
  const warn = (reason: AssessmentWarning['reason'], message: string, about: Partial<AssessmentWarning> = {}) =>
    warnings.push({ recording: null, section: null, from: null, to: null, ...about, reason, message });

  const described: AssessedRecording[] = [];
  const included: Member[] = [];
  const judged: NamedPlaced[] = [];
  const hashes: EntryHashes[] = [];
  const { placements, beside } = yield* placeEntries(grid, route, entries, pace);
  for (const [i, entry] of entries.entries()) {
    if (entry.renamedFrom !== null) {
      warn('renamed', `Another recording is also called “${entry.renamedFrom}”.`, { recording: entry.name });
    }
    const { placed, refusal } = placements[i];
    hashes.push(entryHashes(entry));
    const one = describeRecording(grid, entry, placed, refusal ?? null, defaultHalfWidth, hashes[i].positions);
    described.push(wanted === 'all' ? { ...one, ...drawnRecording(grid, placed) } : one);
    if (refusal) warn(refusal.reason, refusal.message, { recording: entry.name });
    else included.push({ name: entry.name, placed: placed!, entry });
    if (placed) judged.push({ name: entry.name, placed });
    yield;
  }
  const runs = Array.from(
    group(included, ({ entry }) => entry.run),
    ([run, members]) => ({ run, members }),
  );
  const stretches: Stretch[] = [
    ...route.sections.map(({ name, from, to }) => ({ section: name, from, to })),
    { section: null, from: 0, to: route.length },
  ];
  const compared = runs.map(({ run, members }) => {
    const couples = members.flatMap((first, i) =>
      members
        .slice(i + 1)
        .flatMap((second) =>
          baseline === undefined || [first, second].some(({ entry }) => receiverOf(entry) === baseline)
            ? [{ first, second }]
            : [],
        ),
    );
    return { run, couples, members };
  });
  const of = stretches.length * compared.reduce((sum, { couples }) => sum + couples.length, 0);
  if (of > MOST_COMPARISONS) {
    throw new InputError({
      reason: 'too-large',
      argument: 'recordings',
      rule: `such as make at most ${MOST_COMPARISONS} comparisons, of every two of a run on every section`,
      value: of,
      hint: 'State their runs, or one receiver that all are compared with (baseline)',
    });
  }
  const told = shareAcross(described, beside);
  yield;

  const centre = centreline === undefined ? undefined : companionOffsets(grid, centreline);
  const lure = decoy === undefined ? undefined : companionOffsets(grid, decoy);
  const found = new Map<string, GroundFound>();
  if (ground) {
    for (const { name, placed } of judged) {
      const passed = groundPassed(grid, placed, ground);
      const passages = findPassages(grid, name, placed, passed, ground);
      found.set(name, { passed, passages, areas: ground.index.areas, timed: placed.recording.time !== undefined });
      yield;
    }
  }
  const allowedOf = (name: string) => {
    const one = found.get(name);
    return one && allowedShares(one.passed);
  };
  const inRun = new Map<string, RunChances>();
  for (const { members } of runs) {
    const chances = new RunChances(grid, members, centre?.offset, allowedOf);
    for (const { name } of members) inRun.set(name, chances);
    yield;
  }
  const own = ownDrafts(route, told);
  const plain: Omit<AssessmentRow, 'verdictLimit'>[] = [];
  const sumsOf = new Map<string, Float64Array>();
  for (const one of judged) {
    // what is left out of its run is judged alone
    const chances = inRun.get(one.name) ?? new RunChances(grid, [one], centre?.offset, allowedOf);
    const against = ranAgainst(one.placed);
    const columns = rowColumns(grid, one.placed, chances.columns.get(one.name)!);
    sumsOf.set(one.name, columns.sums);
    const error = errorAlong(grid, one.placed, beside.get(one.name));
    for (const stretch of stretches) {
      const row = {
        ...measureRow(grid, one.name, one.placed, stretch, {
          chances,
          decoy: lure?.offset,
          leverArm,
          ground: found.get(one.name),
          columns,
        }),
        alongTrackError: error(judgedPart(grid, stretch)),
      };
      plain.push(own.names.has(one.name) ? onOwnDraft(row) : against ? withoutSides(row) : row);
      yield { done: plain.length, of: judged.length * stretches.length, what: 'rows' };
    }
  }
  // each recording's rows stand in the order of the stretches
  const plainOf = group(plain, ({ recording }) => recording);
  const limited = new Map<(typeof plain)[number], (typeof plain)[number]>();
  for (const { members } of runs) {
    const rowsOf = members.map(({ name }) => plainOf.get(name)!);
    for (const s of stretches.keys()) {
      const mine = rowsOf.map((rows) => rows[s]);
      for (const [i, row] of withUnlikeMemories(mine).entries()) limited.set(mine[i], row);
    }
    yield;
  }
  const measured = plain.map((row) => limited.get(row) ?? row);
  const measuredOf = group(measured, ({ recording }) => recording);

  const pairs: Pair[] = [];
  const moved: (readonly number[])[] = [];
  const order: SectionOrder[] = [];
  const cap = verdictCap(told, measured);
  const shifts = included.length > 1 ? grid.once(referenceShifts) : [];
  for (const { run, couples, members } of compared) {
    if (baseline !== undefined && members.length > 1 && couples.length === 0) {
      warn('no-baseline', `Run “${run}” has no recording of “${baseline}”: nothing is compared in it.`);
    }
  }
  const doubted: (Member & Summed)[] = [];
  for (const { run, couples, members } of compared) {
    const summed = new Map<string, Summed>();
    // of one alone nobody asks
    for (const member of included.length > 1 ? members : []) {
      const distances = distanceSums(grid, member.placed.offset, shifts);
      summed.set(member.name, { placed: member.placed, distances });
      doubted.push({ ...member, distances });
      yield;
    }
    const beneath: { readonly sums: Float64Array; readonly apart: Float64Array; readonly flattered: number }[] = [];
    const sparse = sparseAmong(told, measuredOf);
    for (const { first, second } of couples) {
      const sums = pairSums(grid, summed.get(first.name)!, summed.get(second.name)!, shifts);
      beneath.push({
        sums,
        apart: metresApart(first.placed, second.placed),
        flattered: sparse(first.name, second.name),
      });
      yield;
    }
    const rowsOf = members.map(({ name }) => measuredOf.get(name)!);
    for (const [s, stretch] of stretches.entries()) {
      const comparisons: ReturnType<typeof comparePair>[] = [];
      for (const [i, { first, second }] of couples.entries()) {
        const chances = inRun.get(first.name)!;
        const { sums, apart, flattered } = beneath[i];
        comparisons.push(comparePair(grid, first, second, stretch, chances, sums, apart, leverArm, flattered));
        yield { done: moved.push(comparisons[i].moved), of, what: 'pairs' };
      }
      const verdicts = judgePairs(comparisons, {
        equivalence,
        cap: (pair, candidate) => ownDraftLimit(own, pair.first, pair.second) ?? cap(pair, candidate),
      }).map(({ moved: _, ...pair }): Pair => pair);
      pairs.push(...verdicts);
      const mine = rowsOf.map((rows) => rows[s]);
      order.push(
        orderRecordings(mine, verdicts, stretch.section, run, equivalence, (recording) =>
          balancedMean(measuredOf.get(recording)!),
        ),
      );
      yield;
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
  yield;
  const doubt = referenceDoubt(grid, doubted, pairs, moved, shifts);
  const far = farTogether(grid, included);
  const elsewhere = binsElsewhere(grid, far);
  const shift = commonShift(
    grid,
    included.filter(({ name }) => !own.names.has(name)),
    elsewhere,
  );
  // a stretch that was never travelled as drawn lies on no side of the way
  const offsets = (from: number, to: number) =>
    grid.isLeft(from, to)
      ? included.map(({ placed }) => meanOffset(grid, placed.offset, grid.range(from, to), elsewhere))
      : [];
  const lateral95 = statedUncertainty(grid, { first: 0, end: grid.count });
  for (const { reason, message, ...about } of own.warnings) warn(reason, message, about);
  warnings.push(
    ...assessmentWarnings({ route, recordings: told, rows, doubt, shift, far, offsets, lateral95, excluded }),
  );
  warnings.push(...besideWarnings(told, rows, beside, pace));
  if (ground) {
    for (const { from, to, message } of groundWarnings(route, ground)) warn('route', message, { from, to });
    if (!ground.isNear)
      warn('areas-elsewhere', 'No area lies within a kilometre of the route: are they of another place?');
    for (const message of issuesOf(areas)) warn('areas-left-out', message);
  }

  yield;
  const excursions: Omit<Excursion, 'number'>[] = [];
  for (const { name, placed } of judged) {
    excursions.push(...findExcursions(grid, name, placed, defaultHalfWidth));
    yield;
  }
  const all = wanted === 'all';
  const corners = all ? findCorners(grid, judged, Math.max(1, leverArm)) : [];
  yield;
  const distances: Assessment['distances'][number][] = [];
  for (const { members } of all ? runs : []) {
    distances.push(...shownDistances(grid, members));
    yield;
  }
  const repeatability = all ? lapRepeatability(grid, judged) : [];
  yield;
  const drawn = {
    ...describeRoute(grid, excluded, lure, centre, ground && all ? describeAreas(grid, ground) : null),
    bins: all ? grid.once(edgesOf).slice() : [],
  };
  yield;
  const method = describeMethod(
    route,
    entries,
    hashes,
    { decoy: lure, centreline: centre },
    { leverArm, equivalence, defaultHalfWidth, pace, baseline: baseline ?? null, exclude: excluded },
    ground,
  );
  yield;
  return {
    schema: 1,
    route: drawn,
    recordings: told,
    rows,
    excursions: excursions
      .sort((a, b) => Math.abs(b.peak) - Math.abs(a.peak))
      .map((excursion, i) => ({ number: i + 1, ...excursion })),
    passages: [...found.values()]
      .flatMap(({ passages }) => passages)
      .sort((a, b) => b.metres - a.metres)
      .map((passage, i) => ({ number: i + 1, ...passage })),
    corners,
    distances,
    pairs,
    order,
    lapRepeatability: repeatability,
    totals: all ? totalLengths(grid, sumsOf, rows) : [],
    referenceDoubt: doubt,
    commonShift: shift,
    method,
    warnings,
  };
}

/** As a list, which is copied in a hundredth of the time that it takes to make. */
const edgesOf = ({ edges }: RouteGrid) => Array.from(edges);

/** What was left out of the documents that areas were read from, each told once. */
function issuesOf(areas: readonly Area[]): string[] {
  const told = areas.flatMap(({ issues = [] }) =>
    issues.map(({ message, count, place }) => `${message}: ${count}, the first at ${place}.`),
  );
  return [...new Set(told)];
}
