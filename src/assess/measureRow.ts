import { weightedQuantiles } from '../metrics';
import { correlationLag, medianOf, quantilesIn, robustSd } from '../statistics';
import type { AssessmentRow, RowLimit } from './Assessment';
import { sumsWithin } from './distanceSums';
import { type GroundFound, groundFigures } from './groundFigures';
import { lineVerdict } from './lineVerdict';
import { mapAttraction } from './mapAttraction';
import type { PlacedRecording } from './PlacedRecording';
import type { BinRange, RouteGrid } from './RouteGrid';
import type { RunChances } from './RunChances';
import { LEAST_SAMPLES, rowChances } from './rowChances';
import type { RowColumns } from './rowColumns';

/** A section, or the whole route, as a row sees it. */
export interface Stretch {
  readonly section: string | null;
  readonly from: number;
  readonly to: number;
}

/** The part of a stretch that figures may speak of: no place where too little of it is left after exclusions. */
export function judgedPart(grid: RouteGrid, stretch: Stretch): Stretch & { readonly range: BinRange } {
  const range = grid.range(stretch.from, stretch.to);
  if (grid.isLeft(stretch.from, stretch.to)) return { ...stretch, range };
  return {
    section: stretch.section,
    from: Number.POSITIVE_INFINITY,
    to: Number.NEGATIVE_INFINITY,
    range: { first: range.first, end: range.first },
  };
}

/** What rows are measured with, beside the recording. */
export interface RowMeasures {
  readonly chances: RunChances;
  /** Offsets of the decoy, by bin. */
  readonly decoy?: Float64Array;
  readonly leverArm: number;
  readonly columns: RowColumns;
  /** Where the recorded line lay, where areas were given. */
  readonly ground?: GroundFound;
}

/** The figures of one recording on one stretch, but for those that the others of its run decide. */
export function measureRow(
  grid: RouteGrid,
  name: string,
  placed: PlacedRecording,
  stretch: Stretch,
  { chances, decoy, leverArm, ground, columns }: RowMeasures,
): Omit<AssessmentRow, 'verdictLimit' | 'alongTrackError'> {
  const judged = judgedPart(grid, stretch);
  const { range } = judged;
  const parts = grid.partsWithin(range);
  const begin = columns.before[parts.first];
  const end = columns.before[parts.end];
  const total = sumsWithin(grid, columns.sums, range);
  const [length, line, turn, wiggle, away, doubtful] = total;
  const [covered, squares, signed, sizes, ofSquares] = total.subarray(6);
  const [spent, timesOffset, timesAbsolute, timesSquare] = total.subarray(11);
  const [corridor, within, sided, sideCorrect, sideUndecided] = total.subarray(15);
  const count = end - begin;
  const some = count > 0;
  const values = columns.offsets.subarray(begin, end);
  const bias = some ? signed / covered : null;
  const biasInWords = bias === null ? null : sideInWords(bias);
  const meanAbsolute = some ? sizes / covered : null;
  const spread = bias === null ? undefined : spreadOf(columns, begin, end, bias, { total: covered, squares });
  const stated = grid.partsWithin(grid.range(stretch.from, stretch.to));
  const halfWidth = largestIn(grid.once(corridors), stated);
  const figures = groundFigures(ground, judged);
  const chance = rowChances(chances, name, range, figures.insideAllowed);
  const lateral95 = largestIn(grid.once(uncertainties), stated);
  const timed = placed.recording.time !== undefined && spent > 0;
  const lengthError = some ? line - length : null;
  const coverage = length > 0 ? covered / length : 0;
  const { pace, fixInterval } = stepsIn(grid, placed, judged);
  const seconds = secondsBetween(grid, placed, judged);
  const remembered = correlationLag(values);
  const correlationLength = remembered ? (remembered * covered) / count : null;
  const resolution = meanAbsolute !== null && lateral95 ? meanAbsolute / lateral95 : null;
  const ambiguousShare = length > 0 ? Math.min(1, doubtful / length) : 0;
  const attraction = decoy && mapAttraction(placed.offset, decoy, grid.width, range.first, range.end);
  return {
    recording: name,
    section: stretch.section,
    from: stretch.from,
    to: stretch.to,
    coverage,
    covered,
    meanAbsolute,
    interval95: chance.interval95,
    median: spread?.median ?? null,
    p68: spread?.p68 ?? null,
    p90: spread?.p90 ?? null,
    p95: spread?.p95 ?? null,
    max: spread?.max ?? null,
    rms: some ? Math.sqrt(ofSquares / covered) : null,
    bias,
    biasInterval95: chance.biasInterval95,
    biasSide:
      bias === null || biasInWords === ON_THE_LINE || !(Math.abs(bias) > (lateral95 ?? 0))
        ? null
        : bias < 0
          ? 'left'
          : 'right',
    biasInWords,
    medianOffset: spread?.medianOffset ?? null,
    sd: spread?.sd ?? null,
    robustSd: spread?.robustSd ?? null,
    area: some ? sizes : null,
    signedArea: some ? signed : null,
    timeWeighted: timed
      ? {
          seconds: spent,
          meanAbsolute: timesAbsolute / spent,
          rms: Math.sqrt(timesSquare / spent),
          bias: timesOffset / spent,
        }
      : null,
    insideCorridor: corridor > 0 ? within / corridor : null,
    insideCorridorInterval95: chance.insideCorridorInterval95,
    insideCorridorOfAll: corridor > 0 ? within / length : null,
    correctSide: sided > 0 ? sideCorrect / sided : null,
    correctSideInterval95: chance.correctSideInterval95,
    undecidedSide: sided > 0 ? sideUndecided / sided : null,
    ...figures,
    insideAllowedInterval95: chance.insideAllowedInterval95,
    recordedLength: some ? line : null,
    referenceLength: length,
    lengthError,
    turnTerm: some ? turn : null,
    wiggleTerm: some ? wiggle : null,
    remainder: lengthError === null ? null : lengthError - turn - wiggle,
    roughness: roughnessOf(columns, begin, end),
    correlationLength,
    correlationTime: correlationLength !== null && pace && pace.median > 0 ? correlationLength / pace.median : null,
    effectiveSamples: chance.effectiveSamples,
    foretold: chance.foretold,
    fixInterval,
    gaps: placed.gapsIn(judged.from, judged.to),
    missing: length - covered,
    offRoute: away,
    ambiguousShare,
    seconds,
    pace,
    mapAttraction: attraction ?? null,
    resolution,
    halfWidth,
    ...lineVerdict({
      coverage,
      interval95: chance.interval95,
      biasInterval95: chance.biasInterval95,
      halfWidth,
      floor: Math.max(leverArm, lateral95 ?? 0),
    }),
    limits: rowLimits({
      some,
      left: length > 0,
      coverage,
      samples: chance.effectiveSamples,
      resolution,
      lateral95,
      ambiguousShare,
    }),
  };
}

/** What a row's limits are drawn from. */
interface RowFindings {
  readonly some: boolean;
  /** Whether anything of it was left to be judged. */
  readonly left: boolean;
  readonly coverage: number;
  readonly samples: number | null;
  readonly resolution: number | null;
  readonly lateral95: number | null;
  readonly ambiguousShare: number;
}

function rowLimits({ some, left, coverage, samples, resolution, lateral95, ambiguousShare }: RowFindings): RowLimit[] {
  const limits: RowLimit[] = [];
  const limit = (reason: RowLimit['reason'], message: string) => limits.push({ reason, message });
  if (!left) {
    limit('left-out', 'It is left out, or next to nothing of it is left: no figure.');
  } else if (!some) limit('not-covered', 'Nothing of it was covered.');
  if (some && coverage < 0.8) limit('low-coverage', `Only ${Math.round(100 * coverage)} % of it was covered.`);
  if (samples !== null && samples < LEAST_SAMPLES) {
    limit('too-short', 'It is too short for an interval: errors last nearly as long as the stretch.');
  } else if (samples !== null && samples < 20) {
    limit('few-samples', `With ${samples.toFixed(0)} effective samples, p95 is practically the maximum.`);
  }
  if (resolution !== null && resolution < 2) {
    const known = `The reference is known to ${lateral95!.toFixed(1)} m`;
    limit('coarse-reference', `${known}: it cannot resolve offsets as small as these.`);
  }
  if (ambiguousShare > 0.05) {
    limit('ambiguous', 'Part of it could also lie elsewhere on the route: sides and splits are uncertain.');
  }
  return limits;
}

/** By part of the grid, half the corridor and the stated lateral uncertainty: NaN where any of the part states none. */
const corridors = (grid: RouteGrid) => largestByPart(grid, grid.halfWidth);
const uncertainties = (grid: RouteGrid) => largestByPart(grid, grid.lateral95);

function largestByPart({ parts }: RouteGrid, column: Float64Array): Float64Array {
  return Float64Array.from(parts, ({ first, end }) => column.subarray(first, end).reduce((a, b) => Math.max(a, b), 0));
}

/** The largest of some parts; null where any of them has none. */
function largestIn(byPart: Float64Array, { first, end }: BinRange): number | null {
  let largest = 0;
  for (let p = first; p < end; p++) largest = Math.max(largest, byPart[p]);
  return Number.isNaN(largest) ? null : largest;
}

/** Largest stated lateral uncertainty over a stretch between ends of sections; null where any of it is unstated. */
export function statedUncertainty(grid: RouteGrid, range: BinRange): number | null {
  return largestIn(grid.once(uncertainties), grid.partsWithin(range));
}

/** What the order of a row's offsets tells, and how they scatter about their mean. */
type Spread = Record<'median' | 'p68' | 'p90' | 'p95' | 'max' | 'sd' | 'medianOffset' | 'robustSd', number>;

function spreadOf(
  { offsets, widths, scratch }: RowColumns,
  begin: number,
  end: number,
  mean: number,
  { total, squares }: { readonly total: number; readonly squares: number },
): Spread {
  const values = scratch.subarray(0, end - begin);
  let sum = 0;
  let max = 0;
  for (let i = begin; i < end; i++) {
    const size = Math.abs(offsets[i]);
    values[i - begin] = size;
    max = Math.max(max, size);
    sum += widths[i] * (offsets[i] - mean) ** 2;
  }
  const weights = widths.subarray(begin, end);
  const [median, p68, p90, p95] = weightedQuantiles(values, weights, { total, squares, largest: max }, SHARES);
  values.set(offsets.subarray(begin, end));
  const medianOffset = medianOf(values);
  const sd = values.length > 1 ? Math.sqrt(sum / (total - squares / total)) : 0;
  return { median, p68, p90, p95, max, sd, medianOffset, robustSd: robustSd(values, medianOffset) };
}

/** Of the sizes of a row's offsets. */
const SHARES = [0.5, 0.68, 0.9, 0.95];

const ON_THE_LINE = 'on the line';

/** "2.1 m left". */
function sideInWords(offset: number): string {
  const size = Math.abs(offset).toFixed(1);
  return size === '0.0' ? ON_THE_LINE : `${size} m ${offset < 0 ? 'left' : 'right'}`;
}

/** Of the steps of trusted line whose end lies in the stretch and is not left out: pace, forward and back, and seconds each. */
function stepsIn(
  grid: RouteGrid,
  placed: PlacedRecording,
  { from, to }: Stretch,
): Pick<AssessmentRow, 'pace' | 'fixInterval'> {
  const { snapped, wait, joined, first, last } = placed;
  const { alongTrack } = snapped;
  const fixes = placed.fixesBetween(from, to);
  const paces = new Float64Array(fixes.length);
  const waits = new Float64Array(fixes.length);
  let known = 0;
  let waited = 0;
  for (let k = 0; k < fixes.length; k++) {
    const i = fixes[k];
    if (i <= first || i > last || joined[i] !== 1 || grid.isExcluded(alongTrack[i])) continue;
    const pace = (alongTrack[i] - alongTrack[i - 1]) / wait[i];
    if (Number.isFinite(pace)) paces[known++] = pace;
    if (wait[i] > 0) waits[waited++] = wait[i];
  }
  const fixInterval = waited > 0 ? medianOf(waits.subarray(0, waited)) : null;
  if (known < 2) return { pace: null, fixInterval };
  const [p5, median, p95] = quantilesIn(paces.subarray(0, known), [0.05, 0.5, 0.95]);
  return { pace: { p5, median, p95 }, fixInterval };
}

/** Seconds from end to end of a stretch, but for what is left out of it. */
function secondsBetween(grid: RouteGrid, placed: PlacedRecording, { from, to }: Stretch): number | null {
  const between = (a: number, b: number) =>
    (placed.passing(b)?.seconds ?? Number.NaN) - (placed.passing(a)?.seconds ?? Number.NaN);
  let seconds = between(from, to);
  for (const [a, b] of grid.excludedStretches(from, to)) seconds -= between(a, b);
  return Number.isFinite(seconds) ? seconds : null;
}

const ROUGHNESS_WINDOW = 10;
/** Half of the window, and a hair: bins are a metre but for rounding. */
const HALF_WINDOW = ROUGHNESS_WINDOW / 2 + 1e-6;

/** Spread of the offset about its own mean over 10 m, and how often a kilometre it crosses the reference. */
function roughnessOf({ offsets, widths, middles }: RowColumns, begin: number, end: number): AssessmentRow['roughness'] {
  let squares = 0;
  let metres = 0;
  let crossings = 0;
  let last = 0;
  let low = begin;
  let high = begin;
  let sum = 0;
  let covered = 0;
  for (let i = begin; i < end; i++) {
    const offset = offsets[i];
    const at = middles[i];
    while (high < end && middles[high] - at <= HALF_WINDOW) sum += offsets[high++];
    while (at - middles[low] > HALF_WINDOW) sum -= offsets[low++];
    covered += widths[i];
    const sign = Math.sign(offset);
    if (sign !== 0) {
      if (last === -sign) crossings++;
      last = sign;
    }
    // at a gap or an end the window would be one-sided and see a slope as roughness
    if (high - low < ROUGHNESS_WINDOW * 0.9) continue;
    squares += widths[i] * (offset - sum / (high - low)) ** 2;
    metres += widths[i];
  }
  return metres > 0 ? { sd10: Math.sqrt(squares / metres), crossings: (1000 * crossings) / covered } : null;
}
