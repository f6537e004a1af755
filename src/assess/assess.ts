import { InputError } from '../errors';
import type { Recording } from '../formats';
import { checkNumber } from '../internal/checkNumber';
import { checkOptions, type OptionKeys } from '../internal/checkOptions';
import type { Route, routeFromLine } from '../route';
import { snap } from '../snap';
import type {
  AssessedRecording,
  AssessedRoute,
  Assessment,
  AssessmentRow,
  AssessmentWarning,
  Exclusion,
  Pair,
  SectionOrder,
} from './Assessment';
import { comparePair, metresApart, type NamedPlaced } from './comparePair';
import { describeMethod } from './describeMethod';
import { describeRecording } from './describeRecording';
import { drawnLine } from './drawnLine';
import { findCorners } from './findCorners';
import { findExcursions } from './findExcursions';
import { judgePairs } from './judgePairs';
import { measureRow, type Stretch, statedUncertainty } from './measureRow';
import { orderRecordings } from './orderRecordings';
import { PlacedRecording } from './PlacedRecording';
import { RouteGrid } from './RouteGrid';
import { type CarriedRecording, type Entry, testEntries } from './testEntries';

/** A line beside the route, in any form {@link routeFromLine} takes. */
export type CompanionLine = Parameters<typeof routeFromLine>[0];

/** Options of {@link assess}. */
export interface AssessOptions {
  /** The middle of the street: asks for the share on the right side of it. */
  readonly centreline?: CompanionLine;
  /** A mapped line that was not travelled: asks whether recordings are drawn to it. */
  readonly decoy?: CompanionLine;
  /** Stretches to take out for all recordings alike, a detour really travelled for one. @defaultValue none */
  readonly exclude?: readonly Exclusion[];
  /** Two recordings whose difference surely lies within so many metres are equivalent. @defaultValue 1 */
  readonly equivalence?: number;
  /** Metres by which a receiver may be off the line the body travels. @defaultValue 0.5 */
  readonly leverArm?: number;
  /** Metres beyond which an offset is an excursion where the route states no corridor. @defaultValue 10 */
  readonly defaultHalfWidth?: number;
}

const optionKeys: OptionKeys<AssessOptions> = {
  centreline: true,
  decoy: true,
  exclude: true,
  equivalence: true,
  leverArm: true,
  defaultHalfWidth: true,
};

/**
 * Judges recordings against the route truly travelled, section by section: how far off each was, to which side, how
 * steadily, how bad at worst, and whether two of them really differ. Lengths in metres.
 *
 * A recording that cannot be judged (too few fixes, elsewhere, over more than a day) is named in `warnings` and left out;
 * the rest stands.
 *
 * @param recordings - recordings, or `{ recording, receiver?, placement?, run? }`; only those of one run are compared
 *
 * @throws {InputError} no recording at all, something that is no recording, or an option outside its range
 */
export function assess(
  route: Route,
  recordings: readonly (Recording | CarriedRecording)[],
  options: AssessOptions = {},
): Assessment {
  checkOptions(options, optionKeys);
  const { exclude = [], equivalence = 1, leverArm = 0.5, defaultHalfWidth = 10 } = options;
  checkNumber(equivalence, 'options.equivalence', { above: 0 });
  checkNumber(leverArm, 'options.leverArm', { min: 0 });
  checkNumber(defaultHalfWidth, 'options.defaultHalfWidth', { above: 0 });
  const excluded = checkExclusions(exclude, route);
  const entries = testEntries(recordings);
  const grid = new RouteGrid(route, excluded);
  const warnings: AssessmentWarning[] = [];
  const warn = (reason: AssessmentWarning['reason'], message: string, about: Partial<AssessmentWarning> = {}) =>
    warnings.push({ recording: null, section: null, from: null, to: null, ...about, reason, message });

  const described: AssessedRecording[] = [];
  const included: (NamedPlaced & { readonly entry: Entry })[] = [];
  const judged: NamedPlaced[] = [];
  for (const entry of entries) {
    if (entry.renamedFrom !== undefined) {
      warn('renamed', `Another recording is called “${entry.renamedFrom}” too.`, { recording: entry.name });
    }
    const { placed, refusal } = placeEntry(grid, route, entry);
    described.push(describeRecording(grid, entry, placed, refusal?.message ?? null, defaultHalfWidth));
    if (refusal) warn(refusal.reason, refusal.message, { recording: entry.name });
    else included.push({ name: entry.name, placed: placed!, entry });
    if (placed) judged.push({ name: entry.name, placed });
  }

  const stretches: Stretch[] = [
    ...route.sections.map(({ name, from, to }) => ({ section: name, from, to })),
    { section: null, from: 0, to: route.length },
  ];
  const rows = judged.flatMap(({ name, placed }) =>
    stretches.map((stretch) => measureRow(grid, name, placed, stretch)),
  );

  const runs = [...new Set(included.map(({ entry }) => entry.run))];
  const pairs: Pair[] = [];
  const order: SectionOrder[] = [];
  for (const run of runs) {
    const members = included.filter(({ entry }) => entry.run === run);
    const couples = members.flatMap((first, i) =>
      members.slice(i + 1).map((second) => ({ first, second, apart: metresApart(first.placed, second.placed) })),
    );
    for (const stretch of stretches) {
      const comparisons = couples.map(({ first, second, apart }) =>
        comparePair(grid, first, second, stretch, apart, leverArm),
      );
      const verdicts = judgePairs(comparisons, equivalence);
      pairs.push(...verdicts);
      const mine = rows.filter(
        (row) => row.section === stretch.section && members.some(({ name }) => name === row.recording),
      );
      order.push(orderRecordings(mine, verdicts, stretch.section, run, (recording) => balancedMean(rows, recording)));
    }
  }

  const excursions = judged
    .flatMap(({ name, placed }) => findExcursions(grid, name, placed, defaultHalfWidth))
    .sort((a, b) => Math.abs(b.peak) - Math.abs(a.peak))
    .map((excursion, i) => ({ number: i + 1, ...excursion }));

  return {
    schema: 1,
    route: describeRoute(grid, excluded),
    recordings: described,
    rows,
    excursions,
    corners: findCorners(grid, judged, Math.max(1, leverArm)),
    distances: [],
    pairs,
    order,
    lapRepeatability: [],
    totals: [],
    referenceDoubt: null,
    commonShift: null,
    method: describeMethod(route, entries, { leverArm, equivalence, defaultHalfWidth, exclude: excluded }),
    warnings,
  };
}

function checkExclusions(exclude: readonly Exclusion[], route: Route): Exclusion[] {
  if (!Array.isArray(exclude)) {
    throw new InputError({ reason: 'wrong-type', argument: 'options.exclude', rule: 'an array', value: exclude });
  }
  return exclude.map((stretch, i) => {
    const argument = `options.exclude[${i}]`;
    checkOptions<Exclusion>(stretch, { from: true, to: true, reason: true }, argument);
    const from = checkNumber(stretch.from, `${argument}.from`, { min: 0, max: route.length });
    const to = checkNumber(stretch.to, `${argument}.to`, { min: from, max: route.length });
    if (typeof stretch.reason !== 'string' || stretch.reason.trim() === '') {
      throw new InputError({
        reason: 'missing',
        argument: `${argument}.reason`,
        rule: 'stated in words',
        value: stretch.reason,
      });
    }
    return { from, to, reason: stretch.reason };
  });
}

interface Refusal {
  readonly reason: AssessmentWarning['reason'];
  readonly message: string;
}

const DAY = 24 * 3600 * 1000;

function placeEntry(
  grid: RouteGrid,
  route: Route,
  { recording }: Entry,
): { placed?: PlacedRecording; refusal?: Refusal } {
  const finite = recording.lon.reduce((n, lon, i) => n + (Number.isFinite(lon + recording.lat[i]) ? 1 : 0), 0);
  if (finite < 2) {
    return { refusal: { reason: 'too-few-fixes', message: `It has ${finite} usable fixes: a line needs 2.` } };
  }
  let placed: PlacedRecording;
  try {
    placed = new PlacedRecording(grid, recording, snap(route, recording));
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { refusal: { reason: 'unreadable', message: `It could not be placed: ${error.message}.` } };
  }
  if (placed.offset.every(Number.isNaN)) {
    return {
      refusal: { reason: 'off-the-route', message: 'It never follows the route: another place, or another route?' },
    };
  }
  const times = recording.time?.filter(Number.isFinite);
  if (times && times.length > 0) {
    let low = times[0];
    let high = times[0];
    for (const time of times) {
      low = Math.min(low, time);
      high = Math.max(high, time);
    }
    if (high - low > DAY) {
      const days = ((high - low) / DAY).toFixed(1);
      return { placed, refusal: { reason: 'spans-days', message: `Its times span ${days} days: no single run.` } };
    }
  }
  return { placed };
}

/** Mean of the sections' means, each section counting the same; null unless every section was covered. */
function balancedMean(rows: readonly AssessmentRow[], recording: string): number | null {
  const mine = rows.filter((row) => row.recording === recording && row.section !== null);
  if (mine.length === 0 || mine.some((row) => row.meanAbsolute === null)) return null;
  return mine.reduce((sum, row) => sum + row.meanAbsolute!, 0) / mine.length;
}

function describeRoute(grid: RouteGrid, excluded: readonly Exclusion[]): AssessedRoute {
  const { route } = grid;
  return {
    name: route.name ?? null,
    length: route.length,
    sections: route.sections.map((section) => {
      const { first, end } = grid.range(section.from, section.to);
      return {
        name: section.name,
        from: section.from,
        to: section.to,
        halfWidth: section.halfWidth ?? null,
        environment: section.environment ?? null,
        lap: section.lap ?? null,
        lateral95: statedUncertainty(grid, first, end),
      };
    }),
    marks: route.marks.map(({ name, alongTrack }) => ({ name, alongTrack })),
    bins: Array.from(grid.edges),
    line: drawnLine(route, 0.05),
    corridor: route.sections.flatMap(({ name, halfWidth, from, to }) =>
      halfWidth === undefined
        ? []
        : [
            {
              section: name,
              halfWidth,
              left: besideRoute(grid, from, to, -halfWidth),
              right: besideRoute(grid, from, to, halfWidth),
            },
          ],
    ),
    decoy: null,
    centreline: null,
    decoyOffsets: null,
    centrelineOffsets: null,
    excluded,
  };
}

const METRES_PER_DEGREE = 111_320;

/** The line so many metres right of a stretch, for drawing. */
function besideRoute(grid: RouteGrid, from: number, to: number, right: number) {
  const { first, end } = grid.range(from, to);
  const bins = Array.from({ length: end - first }, (_, i) => first + i);
  return drawnLine(
    {
      lon: bins.map(
        (k) =>
          grid.lon[k] + (right * grid.rightEast[k]) / (METRES_PER_DEGREE * Math.cos((grid.lat[k] * Math.PI) / 180)),
      ),
      lat: bins.map((k) => grid.lat[k] + (right * grid.rightNorth[k]) / METRES_PER_DEGREE),
      alongTrack: bins.map((k) => grid.middle[k]),
    },
    0.05,
  );
}
