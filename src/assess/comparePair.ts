import { quantileSorted } from 'd3-array';
import { MEAN_RADIUS, RADIAN } from '../geodesy';
import { differenceLimits, differencePValue, studentQuantile } from '../statistics';
import type { ForetoldPair, Pair } from './Assessment';
import { judgedPart, type Stretch } from './measureRow';
import type { NamedPlaced } from './NamedPlaced';
import type { PlacedRecording } from './PlacedRecording';
import type { RouteGrid } from './RouteGrid';
import type { RunChances } from './RunChances';
import type { ChancePair } from './RunScatter';
import { movedDifference, type ReferenceShift } from './referenceShifts';
import { LEAST_SAMPLES, wideningOf } from './rowChances';

/** What two recordings say of one stretch, before the verdict. */
export type Comparison = Omit<Pair, 'verdict' | 'closer' | 'adjustedPValue' | 'detectable' | 'limits'> & {
  /** The difference once more for each way of moving the reference. */
  readonly moved: readonly number[];
};

/** The difference of two recordings on the bins of a stretch that both cover. */
export function comparePair(
  grid: RouteGrid,
  first: NamedPlaced,
  second: NamedPlaced,
  stretch: Stretch,
  chances: RunChances,
  apart: Float64Array,
  leverArm: number,
  shifts: readonly ReferenceShift[],
): Comparison {
  const judged = judgedPart(grid, stretch);
  const { range } = judged;
  const a = first.placed.offset;
  const b = second.placed.offset;
  let length = 0;
  let common = 0;
  let between = 0;
  let sum = 0;
  const lengths = [0, 0];
  const moments = { a: 0, b: 0, aa: 0, bb: 0, ab: 0 };
  for (let k = range.first; k < range.end; k++) {
    if (grid.excluded[k] === 1) continue;
    const width = grid.width[k];
    length += width;
    lengths[0] += first.placed.recorded[k];
    lengths[1] += second.placed.recorded[k];
    if (Number.isNaN(a[k]) || Number.isNaN(b[k])) continue;
    common += width;
    between += width * Math.abs(a[k] - b[k]);
    moments.a += width * a[k];
    moments.b += width * b[k];
    moments.aa += width * a[k] * a[k];
    moments.bb += width * b[k] * b[k];
    moments.ab += width * a[k] * b[k];
    sum += width * (Math.abs(a[k]) - Math.abs(b[k]));
  }
  const chance = chances.distances(first.name, second.name, range);
  const told = chance && chance.samples >= LEAST_SAMPLES ? chance : undefined;
  const limits = (within: number) =>
    told ? differenceLimits(told, studentQuantile(within, told.degrees) * wideningOf.distance(told.samples)) : null;
  const some = common > 0;
  const moved = some ? shifts.map(({ right }) => movedDifference(grid, a, b, right, range) / common) : [];
  const doubt = Math.max(0, ...moved.map((difference) => Math.abs(difference - sum / common)));
  const varianceA = moments.aa / common - (moments.a / common) ** 2;
  const varianceB = moments.bb / common - (moments.b / common) ** 2;
  const covariance = moments.ab / common - (moments.a * moments.b) / common ** 2;
  const spread = some && varianceA > 1e-12 && varianceB > 1e-12;
  const distances = instants(grid, first.placed, judged, apart);
  return {
    first: first.name,
    second: second.name,
    section: stretch.section,
    difference: some ? sum / common : null,
    interval95: limits(0.95),
    interval90: limits(0.9),
    commonShare: length > 0 ? common / length : 0,
    floor: Math.max(leverArm, doubt),
    pValue: told ? differencePValue(told, told.degrees, wideningOf.distance(told.samples)) : null,
    effectiveSamples: chance?.samples ?? null,
    foretold: told ? foretoldOf(told) : null,
    correlation: spread ? covariance / Math.sqrt(varianceA * varianceB) : null,
    // the part both share has the covariance as its variance
    commonModeShare: spread ? Math.min(1, Math.max(0, (2 * covariance) / (varianceA + varianceB))) : null,
    apart:
      distances.length > 0 ? { median: quantileSorted(distances, 0.5)!, p95: quantileSorted(distances, 0.95)! } : null,
    between: some ? between / common : null,
    lengthDifference: some ? lengths[0] - lengths[1] : null,
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

function instants(grid: RouteGrid, placed: PlacedRecording, stretch: Stretch, apart: Float64Array): number[] {
  const distances: number[] = [];
  const { alongTrack } = placed.snapped;
  for (const i of placed.fixesBetween(stretch.from, stretch.to)) {
    if (!(apart[i] >= 0)) continue;
    if (grid.excluded[grid.binAt(alongTrack[i])] === 0) distances.push(apart[i]);
  }
  return distances.sort((x, y) => x - y);
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
    apart[i] = MEAN_RADIUS * RADIAN * Math.hypot(lat - a.lat[i], turn * Math.cos((RADIAN * (lat + a.lat[i])) / 2));
  }
  return apart;
}
