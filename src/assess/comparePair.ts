import { MEAN_RADIUS, RADIAN } from '../geodesy';
import { differenceLimits, differencePValue, studentQuantile } from '../statistics';
import type { ForetoldPair, Pair } from './Assessment';
import { sumsWithin } from './distanceSums';
import { judgedPart, type Stretch } from './measureRow';
import { medianAndP95 } from './medianAndP95';
import type { NamedPlaced } from './NamedPlaced';
import type { PlacedRecording } from './PlacedRecording';
import { PAIR_SUMS } from './pairSums';
import type { RouteGrid } from './RouteGrid';
import type { RunChances } from './RunChances';
import type { ChancePair } from './RunScatter';
import { LEAST_SAMPLES, wideningOf } from './rowChances';

/** What two recordings say of one stretch, before the verdict. */
export type Comparison = Omit<Pair, 'verdict' | 'closer' | 'adjustedPValue' | 'detectable' | 'limits'> & {
  /** The difference once more for each way of moving the reference. */
  readonly moved: readonly number[];
};

/**
 * The difference of two recordings on the bins of a stretch that both cover.
 *
 * @param sums - as {@link pairSums} makes them of the two
 * @param apart - metres by fix of the first, as {@link metresApart} makes them
 * @param flattered - share of the second's mean distance by which sparser fixes bring the first closer; negative: of the
 * first's, the second
 */
export function comparePair(
  grid: RouteGrid,
  first: NamedPlaced,
  second: NamedPlaced,
  stretch: Stretch,
  chances: RunChances,
  sums: Float64Array,
  apart: Float64Array,
  leverArm: number,
  flattered: number,
): Comparison {
  const judged = judgedPart(grid, stretch);
  const { range } = judged;
  const total = sumsWithin(grid, sums, range);
  const [length, lengthA, lengthB, common, between, sum, a, b, squaresA, squaresB, products] = total;
  const chance = chances.distances(first.name, second.name, range);
  const told = chance && chance.samples >= LEAST_SAMPLES ? chance : undefined;
  const limits = (within: number) =>
    told ? differenceLimits(told, studentQuantile(within, told.degrees) * wideningOf.distance(told.samples)) : null;
  const some = common > 0;
  const moved = some ? Array.from(total.subarray(PAIR_SUMS), (further) => further / common) : [];
  const doubt = Math.max(0, ...moved.map((difference) => Math.abs(difference - sum / common)));
  const varianceA = squaresA / common - (a / common) ** 2;
  const varianceB = squaresB / common - (b / common) ** 2;
  const covariance = products / common - (a * b) / common ** 2;
  const spread = some && varianceA > 1e-12 && varianceB > 1e-12;
  // who is found closer may be so by its sparser fixes
  const metres = chance ? Math.max(0, sum < 0 ? flattered * chance.second : -flattered * chance.first) : 0;
  const distances = instants(grid, first.placed, judged, apart);
  return {
    first: first.name,
    second: second.name,
    section: stretch.section,
    difference: some ? sum / common : null,
    interval95: limits(0.95),
    interval90: limits(0.9),
    commonShare: length > 0 ? common / length : 0,
    floor: Math.max(leverArm, doubt) + metres,
    sparseGain: metres,
    pValue: told ? differencePValue(told, told.degrees, wideningOf.distance(told.samples)) : null,
    effectiveSamples: chance?.samples ?? null,
    foretold: told ? foretoldOf(told) : null,
    correlation: spread ? covariance / Math.sqrt(varianceA * varianceB) : null,
    // the part both share has the covariance as its variance
    commonModeShare: spread ? Math.min(1, Math.max(0, (2 * covariance) / (varianceA + varianceB))) : null,
    apart: distances.length > 0 ? medianAndP95(distances) : null,
    between: some ? between / common : null,
    lengthDifference: some ? lengthA - lengthB : null,
    moved,
  };
}

/** What `combine` asks of two means. */
export function foretoldOf({
  first,
  second,
  firstVariance,
  secondVariance,
  variance,
  degrees,
}: ChancePair): ForetoldPair {
  return { first, second, firstVariance, secondVariance, variance, degrees };
}

function instants(grid: RouteGrid, placed: PlacedRecording, stretch: Stretch, apart: Float64Array): Float64Array {
  const { alongTrack } = placed.snapped;
  const fixes = placed.fixesBetween(stretch.from, stretch.to);
  const distances = new Float64Array(fixes.length);
  let count = 0;
  for (const i of fixes) if (apart[i] >= 0 && !grid.isExcluded(alongTrack[i])) distances[count++] = apart[i];
  return distances.subarray(0, count);
}

/** Metres from each fix of `first` to where `second` was at that instant; NaN where either is not known. */
export function metresApart(first: PlacedRecording, second: PlacedRecording): Float64Array {
  const a = first.recording;
  const b = second.recording;
  const apart = new Float64Array(a.lon.length).fill(Number.NaN);
  if (!a.time || !b.time) return apart;
  let j = 1;
  for (let i = 0; i < apart.length; i++) {
    const instant = a.time[i];
    while (j < b.lon.length - 1 && !(b.time[j] >= instant)) j++;
    const span = b.time[j] - b.time[j - 1];
    const fraction = (instant - b.time[j - 1]) / span;
    if (!(fraction >= 0 && fraction <= 1) || second.joined[j] !== 1) continue;
    const east = b.lon[j] - 360 * Math.round((b.lon[j] - b.lon[j - 1]) / 360) - b.lon[j - 1];
    const lon = b.lon[j - 1] + fraction * east;
    const lat = b.lat[j - 1] + fraction * (b.lat[j] - b.lat[j - 1]);
    const turn = lon - a.lon[i] - 360 * Math.round((lon - a.lon[i]) / 360);
    // on a sphere: half a per cent of metres that are known to a metre at best
    const north = lat - a.lat[i];
    const aside = turn * Math.cos((RADIAN * (lat + a.lat[i])) / 2);
    apart[i] = MEAN_RADIUS * RADIAN * Math.sqrt(north * north + aside * aside);
  }
  return apart;
}
