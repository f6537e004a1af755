import { quantileSorted } from 'simple-statistics';
import { offsetStatistics } from '../metrics';
import type { AssessmentRow, Interval } from './Assessment';
import { blockInterval } from './blockInterval';
import { correlationOf } from './correlationOf';
import { medianOf, type PlacedRecording } from './PlacedRecording';
import type { RouteGrid } from './RouteGrid';

/** A section, or the whole route, as a row sees it. */
export interface Stretch {
  readonly section: string | null;
  readonly from: number;
  readonly to: number;
}

const BLOCKS = 4;

/** The figures of one recording on one stretch. */
export function measureRow(grid: RouteGrid, name: string, placed: PlacedRecording, stretch: Stretch): AssessmentRow {
  const { first, end } = grid.range(stretch.from, stretch.to);
  const slice = (column: Float64Array) => column.subarray(first, end);
  const width = slice(grid.width);
  const offset = slice(placed.offset);
  const values: number[] = [];
  const weights: number[] = [];
  let length = 0;
  let covered = 0;
  let corridor = 0;
  let inside = 0;
  const sums = { recorded: 0, turn: 0, wiggle: 0, seconds: 0, offset: 0, absolute: 0, square: 0 };
  for (let k = first; k < end; k++) {
    if (grid.excluded[k] === 1) continue;
    length += grid.width[k];
    sums.recorded += placed.recorded[k];
    sums.turn += placed.turnTerm[k];
    sums.wiggle += placed.wiggleTerm[k];
    if (Number.isNaN(placed.offset[k])) continue;
    values.push(placed.offset[k]);
    weights.push(grid.width[k]);
    covered += grid.width[k];
    sums.seconds += placed.dwell[k];
    sums.offset += placed.dwellOffset[k];
    sums.absolute += placed.dwellAbsolute[k];
    sums.square += placed.dwellSquare[k];
    if (Number.isNaN(grid.halfWidth[k])) continue;
    corridor += grid.width[k];
    if (Math.abs(placed.offset[k]) <= grid.halfWidth[k]) inside += grid.width[k];
  }
  const some = values.length > 0;
  const statistics = some ? offsetStatistics(values, weights) : undefined;
  const size = Float64Array.from(offset, Math.abs);
  const interval = blockInterval(size, width, BLOCKS);
  const correlation = correlationOf(size);
  const lateral95 = statedUncertainty(grid, first, end);
  const medianOffset = some
    ? quantileSorted(
        [...values].sort((a, b) => a - b),
        0.5,
      )
    : null;
  const bias = statistics?.mean ?? null;
  const timed = placed.recording.time !== undefined && sums.seconds > 0;
  const lengthError = some ? sums.recorded - length : null;
  return {
    recording: name,
    section: stretch.section,
    from: stretch.from,
    to: stretch.to,
    coverage: length > 0 ? covered / length : 0,
    covered,
    meanAbsolute: statistics?.meanAbsolute ?? null,
    interval95: interval ? ([Math.max(0, interval.low), interval.high] satisfies Interval) : null,
    blocks: interval?.blocks ?? null,
    median: statistics?.median ?? null,
    p68: statistics?.p68 ?? null,
    p90: statistics?.p90 ?? null,
    p95: statistics?.p95 ?? null,
    max: statistics ? Math.max(Math.abs(statistics.min), Math.abs(statistics.max)) : null,
    rms: statistics?.rms ?? null,
    bias,
    biasSide: bias === null || !(Math.abs(bias) > (lateral95 ?? 0)) ? null : bias < 0 ? 'left' : 'right',
    biasInWords: bias === null ? null : sideInWords(bias),
    medianOffset,
    sd: statistics?.sd ?? null,
    robustSd: medianOffset === null ? null : 1.4826 * medianOf(values.map((value) => Math.abs(value - medianOffset))),
    area: statistics ? statistics.meanAbsolute * covered : null,
    signedArea: statistics ? statistics.mean * covered : null,
    timeWeighted: timed
      ? {
          seconds: sums.seconds,
          meanAbsolute: sums.absolute / sums.seconds,
          rms: Math.sqrt(sums.square / sums.seconds),
          bias: sums.offset / sums.seconds,
        }
      : null,
    insideCorridor: corridor > 0 ? inside / corridor : null,
    insideCorridorOfAll: corridor > 0 && length > 0 ? inside / length : null,
    correctSide: null,
    undecidedSide: null,
    recordedLength: some ? sums.recorded : null,
    referenceLength: length,
    lengthError,
    turnTerm: some ? sums.turn : null,
    wiggleTerm: some ? sums.wiggle : null,
    remainder: lengthError === null ? null : lengthError - sums.turn - sums.wiggle,
    roughness: null,
    correlationLength: correlation?.length ?? null,
    correlationTime: null,
    effectiveSamples: correlation?.effectiveSamples ?? null,
    fixInterval: null,
    gaps: 0,
    missing: length - covered,
    offRoute: 0,
    ambiguousShare: 0,
    seconds: null,
    pace: null,
    mapAttraction: null,
    resolution: statistics && lateral95 ? statistics.meanAbsolute / lateral95 : null,
    verdictLimit: null,
    limits: [],
  };
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

/** "2.1 m left". */
export function sideInWords(offset: number): string {
  const size = Math.abs(offset).toFixed(1);
  return size === '0.0' ? 'on the line' : `${size} m ${offset < 0 ? 'left' : 'right'}`;
}
