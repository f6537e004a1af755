import { Sum } from '../geodesy';
import { checkNumber, type Line } from '../model';
import type { BandPieces } from './BandPieces';
import type { Curve } from './Curve';
import { curveOf } from './curveOf';
import { DistanceBand } from './DistanceBand';
import { farthest } from './farthest';
import { firstAlike } from './firstAlike';
import { NearestEdge } from './NearestEdge';
import { PlaneCells } from './PlaneCells';
import { withoutRepeats } from './withoutRepeats';

// Over so many metres, distances are as on a sphere.
const FARTHER = 100_000;

// Widths in metres up to which lines lie on each other.
const NEARLY_NOTHING = 1e-7;

// Beyond the farthest place by this, in metres and as a share of the distance, there is none, however it is measured.
const AMPLE = 1e-3;

// So many places are measured to know about where the width lies: one an edge, or one for eight.
const LEAST_SAMPLE = 32;
const FAIR_SAMPLE = 512;
const MOST_SAMPLE = 1024;
const FEW_SAMPLE = 128;
const MORE = 8;
const GOLDEN = (Math.sqrt(5) - 1) / 2;

/**
 * Least width in metres of the buffer around `reference` that holds the share `share` of the length of `tested`: the
 * inverse of {@link bufferShare}.
 *
 * With a share of 1 it is the directed Hausdorff distance from `tested` to `reference`. It is a length-weighted quantile of
 * the distance from line to line, hence neither a radius that holds 95 % of positions nor an offset to one side.
 *
 * @param share - above 0, at most 1
 *
 * @example
 * const plane = localPlane([20, 0])
 * const line = (...points) => points.map(plane.toPosition)
 * bufferWidth(line([0, 0], [100, 10]), line([0, 0], [100, 0])) // → 9.5000
 * bufferWidth(line([0, 5], [100, 5]), line([0, 0], [100, 0]), 0.5) // → 5.0000
 * bufferWidth([[5, 60]], [[5, 60]], 2) // throws out-of-range: share must be a number above 0 up to 1, not 2
 *
 * @throws {InputError} no position, one that is not on the globe, or a share outside (0, 1]
 * @remarks 1e-6 m for lines up to 300 m apart, 5e-6 m up to 1 km, 1e-7 of the distance up to 100 km, a few 1e-4 of it beyond. Some
 * places measured bracket it; edges wholly within the bracket's lower end are passed over, on the others the least
 * distance is drawn where it lies in the bracket, exactly, and summed. {@link hausdorff} needs the farthest place only, a width all that
 * are about so far: 1 to 4 times its time for a recording beside its route, 2 to 8 where every edge comes in and out of the bracket,
 * up to 20 where a few looks tell the farthest. n² for two recordings of n fixes each that stand still, as are the stretches
 * outside the width: for thousands of fixes some n² / 200 where they are spread evenly.
 * @see Goodchild, Hunter, A simple positional accuracy measure for linear features, IJGIS 11 (1997), 299–306,
 * doi:10.1080/136588197242419
 */
export function bufferWidth(tested: Line, reference: Line, share = 0.95): number {
  const curve = curveOf(tested, 'tested', 'open');
  const against = withoutRepeats(curveOf(reference, 'reference', 'open'));
  checkNumber(share, 'share', { above: 0, max: 1 });
  const near = new NearestEdge(against, share < 1 ? 'sphere' : 'exact');
  if (share === 1) return farthest(curve, near)!.distance;
  const weights = weightsOf(curve);
  const total = new Sum();
  for (const weight of weights) total.add(weight);
  // as much as rounding could hold back from a full share
  const wanted = share * total.value * (1 - 1e-12);
  const measured = (px: number, py: number, pz: number) => {
    near.moveTo(px, py, pz);
    near.offer(near.edge);
    near.walk();
    near.search(0);
    return Math.sqrt(near.squared);
  };
  const cells = new PlaneCells(against);
  const usual = Math.min(Math.max(LEAST_SAMPLE, curve.edges / 8, Math.min(curve.edges, FAIR_SAMPLE)), MOST_SAMPLE) | 0;
  let count = cells.isTangled ? Math.min(usual, FEW_SAMPLE) : usual;
  const marginOf = () => 1 + 3 * Math.sqrt(share * (1 - share) * count);
  let sample = sampleOf(curve, weights, total.value, count, measured);
  // what cells say is farther than any, is farther than this
  let beyond = Infinity;
  if (cells.isTangled) {
    // where edges are tangled a look into cells is much cheaper
    const low = sample[Math.max(0, Math.floor(share * count - marginOf()))];
    const high = sample[Math.min(count - 1, Math.ceil(share * count + marginOf()))];
    const isDivided = cells.divide(low, high + AMPLE);
    if (isDivided) beyond = high;
    count = isDivided ? MORE * usual : usual;
    const look = (px: number, py: number, pz: number) => cells.distance(px, py, pz);
    sample = sampleOf(curve, weights, total.value, count, isDivided ? look : measured);
  }
  // three standard errors of so large a share of so many; should the width lie outside all the same, ever more
  for (let margin = marginOf(); ; margin *= 4) {
    const first = Math.floor(share * count - margin);
    const last = Math.ceil(share * count + margin);
    const isWidest = last >= count || sample[last] === Infinity;
    const under = first < 0 ? 0 : Math.min(sample[first], beyond);
    const over = isWidest ? farthest(curve, near)!.distance : sample[last];
    const enough = toleranceAt(under);
    const room = Math.max(enough * 0.49 - (over - under) / 2, over * 1e-9, 2e-8);
    const low = Math.max(under - room, NEARLY_NOTHING);
    const high = isWidest ? over + AMPLE * (1 + over) : Math.max(over + room, low + room);
    if (cells.isTangled) cells.divide(low, high * (1 + AMPLE) + NEARLY_NOTHING * 20);
    const band = new DistanceBand(curve, near, low, high, enough, cells);
    band.add(weights);
    const { pieces } = band;
    if (pieces.inside >= wanted) {
      if (low === NEARLY_NOTHING) return low;
      continue;
    }
    const width = leastWidth(pieces, wanted, [low, high], enough) ?? (isWidest ? over : undefined);
    if (width !== undefined) return low > FARTHER && high - low <= enough ? (low + high) / 2 : width;
  }
}

/** How far apart the ends of the last bracket may be about a width: metres. */
function toleranceAt(width: number): number {
  if (width > FARTHER) return 7e-5 * width;
  return Math.max(4e-7, width > 1000 ? 5e-8 * width : 0);
}

/** Metres of each edge, those that lie on it later on included; 1 for each where all are 0, so that points count by number. */
function weightsOf(curve: Curve): Float64Array {
  const { vertices, edges, gap } = curve;
  const isPoints = !(curve.longest > 0);
  const alike = firstAlike(curve);
  const weights = new Float64Array(edges);
  for (let i = 0; i < edges; i++) {
    if (gap?.[i] !== 1) weights[alike === undefined ? i : alike[i]] += isPoints ? 1 : Math.sqrt(vertices.chord2(i));
  }
  return weights;
}

/** Distances of some places, in order: one in each of so many equal parts, nowhere in step with the line. */
function sampleOf(
  { vertices, edges }: Curve,
  weights: Float64Array,
  total: number,
  count: number,
  distance: (px: number, py: number, pz: number) => number,
): Float64Array {
  const sample = new Float64Array(count);
  const place = new Float64Array(3);
  let edge = 0;
  let before = 0;
  for (let k = 0; k < count; k++) {
    const at = ((k + ((k * GOLDEN) % 1)) / count) * total;
    while (edge < edges - 1 && (weights[edge] === 0 || before + weights[edge] <= at)) before += weights[edge++];
    vertices.between(edge, Math.min(1, Math.max(0, (at - before) / weights[edge])) || 0, place);
    sample[k] = distance(place[0], place[1], place[2]);
  }
  return sample.sort();
}

/** The least width of the band at which what is within is the weight wanted; undefined where it takes a wider one. */
function leastWidth(
  pieces: BandPieces,
  wanted: number,
  [from, to]: readonly [number, number],
  enough: number,
): number | undefined {
  let [low, high] = [from, Math.max(from, Math.min(to, pieces.farthest))];
  const open = new Int32Array(pieces.count);
  for (let piece = 0; piece < open.length; piece++) open[piece] = piece;
  const parts = new Float64Array(pieces.count);
  let count = open.length;
  let settled = pieces.inside;
  const heldWithin = (width: number) => settled + pieces.within(open, count, width, parts);
  let heldLow = settled;
  let heldHigh = heldWithin(high) + pieces.between;
  if (heldHigh < wanted) return undefined;
  // steps in halves before the next by a straight line, and how many after that, should it lead no further
  let [halving, next] = [0, 1];
  while (high - low > enough) {
    const before = high - low;
    const middle = (low + high) / 2;
    if (!(middle > low && middle < high)) break;
    const straight = low + ((wanted - heldLow) / (heldHigh - heldLow)) * before;
    // a little to the side that is longer, so that both ends close in
    const beyond = straight + (straight < middle ? enough / 4 : -enough / 4);
    const width = halving === 0 && beyond > low && beyond < high ? beyond : middle;
    const held = heldWithin(width);
    const isEnough = held >= wanted;
    if (isEnough) [high, heldHigh] = [width, held];
    else [low, heldLow] = [width, held];
    if (halving > 0) halving--;
    else if (high - low > before / 2) {
      halving = next;
      next++;
    }
    // what a wider width holds wholly it goes on holding, what a narrower one misses it goes on missing
    let left = 0;
    for (let k = 0; k < count; k++) {
      if (isEnough ? parts[k] > 0 : parts[k] < pieces.weightOf(open[k])) open[left++] = open[k];
      else if (!isEnough) settled += parts[k];
    }
    count = left;
  }
  return high;
}
