import { offsetStatistics } from '../metrics';
import { correlationLag, medianOf, quantileIn, robustSd } from '../statistics';
import type { AssessmentRow, RowLimit } from './Assessment';
import { sumsWithin } from './distanceSums';
import { type GroundFound, groundFigures } from './groundFigures';
import { lineVerdict } from './lineVerdict';
import { mapAttraction } from './mapAttraction';
import type { PlacedRecording } from './PlacedRecording';
import type { BinRange, RouteGrid } from './RouteGrid';
import type { RunChances } from './RunChances';
import { LEAST_SAMPLES, rowChances } from './rowChances';

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
  /** The recording's {@link rowSums}. */
  readonly sums: Float64Array;
  /** As long as the grid: what is in them is written over. */
  readonly columns: { readonly values: Float64Array; readonly weights: Float64Array };
  /** Where the recorded line lay, where areas were given. */
  readonly ground?: GroundFound;
}

/** The figures of one recording on one stretch, but for those that the others of its run decide. */
export function measureRow(
  grid: RouteGrid,
  name: string,
  placed: PlacedRecording,
  stretch: Stretch,
  { chances, decoy, leverArm, ground, sums, columns }: RowMeasures,
): Omit<AssessmentRow, 'verdictLimit' | 'alongTrackError'> {
  const judged = judgedPart(grid, stretch);
  const { range } = judged;
  const { first, end } = range;
  const { excluded, width } = grid;
  const { offset } = placed;
  const { values: column, weights } = columns;
  let count = 0;
  for (let k = first; k < end; k++) {
    if (excluded[k] === 1 || Number.isNaN(offset[k])) continue;
    column[count] = offset[k];
    weights[count++] = width[k];
  }
  const total = sumsWithin(grid, sums, range);
  const [length, line, turn, wiggle, away, doubtful] = total;
  const [covered, spent, timesOffset, timesAbsolute, timesSquare] = total.subarray(6);
  const [corridor, within, sided, sideCorrect, sideUndecided] = total.subarray(11);
  const some = count > 0;
  const values = column.subarray(0, count);
  const statistics = some ? offsetStatistics(values, weights.subarray(0, count)) : undefined;
  const medianOffset = some ? medianOf(values) : null;
  const stated = grid.range(stretch.from, stretch.to);
  const halfWidth = corridorOf(grid, stated);
  const figures = groundFigures(ground, judged);
  const chance = rowChances(chances, name, range, figures.insideAllowed);
  const lateral95 = statedUncertainty(grid, stated.first, stated.end);
  const bias = statistics?.mean ?? null;
  const timed = placed.recording.time !== undefined && spent > 0;
  const lengthError = some ? line - length : null;
  const coverage = length > 0 ? covered / length : 0;
  const steps = stepsIn(grid, placed, judged);
  const pace = paceOf(placed, steps);
  const seconds = secondsBetween(grid, placed, judged);
  const binLength = some ? covered / values.length : 1;
  const remembered = correlationLag(offset.subarray(first, end));
  const correlationLength = remembered ? remembered * binLength : null;
  const resolution = statistics && lateral95 ? statistics.meanAbsolute / lateral95 : null;
  const ambiguousShare = length > 0 ? Math.min(1, doubtful / length) : 0;
  const attraction = decoy && mapAttraction(offset, decoy, width, first, end);
  return {
    recording: name,
    section: stretch.section,
    from: stretch.from,
    to: stretch.to,
    coverage,
    covered,
    meanAbsolute: statistics?.meanAbsolute ?? null,
    interval95: chance.interval95,
    median: statistics?.median ?? null,
    p68: statistics?.p68 ?? null,
    p90: statistics?.p90 ?? null,
    p95: statistics?.p95 ?? null,
    max: statistics ? Math.max(Math.abs(statistics.min), Math.abs(statistics.max)) : null,
    rms: statistics?.rms ?? null,
    bias,
    biasInterval95: chance.biasInterval95,
    biasSide:
      bias === null || sideInWords(bias) === ON_THE_LINE || !(Math.abs(bias) > (lateral95 ?? 0))
        ? null
        : bias < 0
          ? 'left'
          : 'right',
    biasInWords: bias === null ? null : sideInWords(bias),
    medianOffset,
    sd: statistics?.sd ?? null,
    robustSd: medianOffset === null ? null : robustSd(values, medianOffset),
    area: statistics ? statistics.meanAbsolute * covered : null,
    signedArea: statistics ? statistics.mean * covered : null,
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
    roughness: roughnessOf(grid, placed, range),
    correlationLength,
    correlationTime: correlationLength !== null && pace && pace.median > 0 ? correlationLength / pace.median : null,
    effectiveSamples: chance.effectiveSamples,
    foretold: chance.foretold,
    fixInterval: fixIntervalIn(placed, steps),
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

/** Half the corridor of some bins, the widest; null where any of them states none. */
function corridorOf(grid: RouteGrid, { first, end }: BinRange): number | null {
  let widest = 0;
  for (let k = first; k < end; k++) {
    if (Number.isNaN(grid.halfWidth[k])) return null;
    widest = Math.max(widest, grid.halfWidth[k]);
  }
  return widest;
}

/** Largest stated lateral uncertainty over some bins; null where any of it is unstated. */
export function statedUncertainty(grid: RouteGrid, first: number, end: number): number | null {
  let largest = 0;
  for (let k = first; k < end; k++) {
    if (Number.isNaN(grid.lateral95[k])) return null;
    largest = Math.max(largest, grid.lateral95[k]);
  }
  return largest;
}

const ON_THE_LINE = 'on the line';

/** "2.1 m left". */
function sideInWords(offset: number): string {
  const size = Math.abs(offset).toFixed(1);
  return size === '0.0' ? ON_THE_LINE : `${size} m ${offset < 0 ? 'left' : 'right'}`;
}

/** Steps of trusted line whose end lies in the stretch and is not left out, forward ones and others. */
function stepsIn(grid: RouteGrid, placed: PlacedRecording, { from, to }: Stretch): Uint32Array {
  const { snapped, joined, first, last } = placed;
  const fixes = placed.fixesBetween(from, to);
  const steps = new Uint32Array(fixes.length);
  let count = 0;
  for (const i of fixes) {
    if (i > first && i <= last && joined[i] === 1 && !grid.isExcluded(snapped.alongTrack[i])) steps[count++] = i;
  }
  return steps.subarray(0, count);
}

function paceOf({ snapped: { alongTrack }, wait }: PlacedRecording, steps: Uint32Array): AssessmentRow['pace'] {
  const column = new Float64Array(steps.length);
  let count = 0;
  for (const i of steps) {
    const pace = (alongTrack[i] - alongTrack[i - 1]) / wait[i];
    if (Number.isFinite(pace)) column[count++] = pace;
  }
  if (count < 2) return null;
  const paces = column.subarray(0, count);
  return { p5: quantileIn(paces, 0.05), median: quantileIn(paces, 0.5), p95: quantileIn(paces, 0.95) };
}

function fixIntervalIn({ wait }: PlacedRecording, steps: Uint32Array): number | null {
  const waits = new Float64Array(steps.length);
  let count = 0;
  for (const i of steps) if (wait[i] > 0) waits[count++] = wait[i];
  return count > 0 ? medianOf(waits.subarray(0, count)) : null;
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
function roughnessOf(
  { middle, width }: RouteGrid,
  { offset }: PlacedRecording,
  { first, end }: BinRange,
): AssessmentRow['roughness'] {
  let squares = 0;
  let metres = 0;
  let crossings = 0;
  let last = 0;
  let low = first;
  let high = first;
  let sum = 0;
  let count = 0;
  let covered = 0;
  for (let k = first; k < end; k++) {
    for (; high < end && middle[high] - middle[k] <= HALF_WINDOW; high++) {
      if (Number.isNaN(offset[high])) continue;
      sum += offset[high];
      count++;
    }
    for (; middle[k] - middle[low] > HALF_WINDOW; low++) {
      if (Number.isNaN(offset[low])) continue;
      sum -= offset[low];
      count--;
    }
    if (Number.isNaN(offset[k])) continue;
    covered += width[k];
    const sign = Math.sign(offset[k]);
    if (sign !== 0 && last !== 0 && sign !== last) crossings++;
    if (sign !== 0) last = sign;
    // at a gap or an end the window would be one-sided and see a slope as roughness
    if (count < ROUGHNESS_WINDOW * 0.9) continue;
    squares += width[k] * (offset[k] - sum / count) ** 2;
    metres += width[k];
  }
  return metres > 0 ? { sd10: Math.sqrt(squares / metres), crossings: (1000 * crossings) / covered } : null;
}
