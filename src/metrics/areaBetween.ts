import { Sum } from '../geodesy';
import {
  checkColumns,
  checkLength,
  checkOptions,
  checkRoute,
  InputError,
  isColumn,
  type Route,
  type Snapped,
} from '../model';
import { Moments } from './Moments';
import { turnsOf } from './turnsOf';

/** Options of {@link areaBetween}. */
export interface AreaBetweenOptions {
  /** The recording's `gapBefore`: stretches across its gaps are left out. By default every two neighbouring fixes that are on the route are joined. */
  readonly gapBefore?: ArrayLike<number>;
}

/** Metres: further along or beside a route lies nothing on Earth, whatever its laps. */
const FARTHEST = 1e12;

/** Areas between a route and what was recorded, square metres. */
export interface AreaBetween {
  /** Areas on either side, both counted positive. */
  readonly area: number;
  /** Areas to the right less areas to the left: they cancel, so it says nothing of the size of the error. */
  readonly signed: number;
  /** Metres of route that carry the areas: `area / length` is the mean distance from the route. */
  readonly length: number;
}

/**
 * Areas in square metres between a route and a recording placed on it.
 *
 * The offset n runs straight from fix to fix along the route; a strip of route ds holds n ds + n²κ ds / 2, the second term
 * because on the outside of a turn there is more ground than on the inside (κ: turn to the left per metre). **Weighted by
 * distance**: each metre of route counts once, however many fixes stood there; where it was passed several times (jitter at
 * a stop, a backtrack) the mean of the passes counts. Fixes that are not on the route, and the stretches to them, are left
 * out; with nothing to measure all is 0.
 *
 * @example
 * const route = routeFromLine([[0, 0], [0.01, 0]])
 * const fixes = [[0, -0.00009], [0.005, -0.00009], [0.01, -0.00009]]
 * const recording = { ...readGpx(writeGpx(fixes))[0] }
 * areaBetween(route, snap(route, recording)).area / route.length // → 9.95…
 *
 * @throws {InputError} columns that are not those of a placed recording
 * @remarks The curvature term is that of the route's own vertices, each a turn in place; it needs offsets smaller than the
 * radius on the inside of a turn. An exact reversal has no side and adds no term. n log n, however
 * often one stretch is passed.
 * @see Weyl, On the volume of tubes, Am. J. Math. 61 (1939), doi:10.2307/2371513
 */
export function areaBetween(
  route: Route,
  snapped: Pick<Snapped, 'alongTrack' | 'crossTrack'>,
  options: AreaBetweenOptions = {},
): AreaBetween {
  checkOptions(options, { gapBefore: true });
  checkRoute(route);
  checkSnapped(snapped);
  const { alongTrack, crossTrack } = snapped;
  const { gapBefore } = options;
  if (gapBefore !== undefined) {
    const argument = 'options.gapBefore';
    if (!isColumn(gapBefore)) {
      throw new InputError({ reason: 'wrong-type', argument, rule: 'a column', value: gapBefore });
    }
    checkLength(gapBefore, argument, alongTrack.length, 'the recording');
  }

  const legs: Leg[] = [];
  for (let i = 1; i < alongTrack.length; i++) {
    // a NaN on either side fails here too
    if (
      Math.abs(alongTrack[i] - alongTrack[i - 1]) > 0 &&
      Math.abs(crossTrack[i] - crossTrack[i - 1]) >= 0 &&
      !(gapBefore !== undefined && gapBefore[i] > 0)
    ) {
      legs.push(...onOneSide(alongTrack[i - 1], crossTrack[i - 1], alongTrack[i], crossTrack[i]));
    }
  }
  const breaks = Float64Array.from(new Set(legs.flatMap(({ from, to }) => [from, to]))).sort();
  const cells = Math.max(0, breaks.length - 1);
  // how many passes go over what lies between two breaks
  const passes = new Int32Array(cells + 1);
  for (const { from, to } of legs) {
    passes[firstFrom(breaks, from)]++;
    passes[firstFrom(breaks, to)]--;
  }
  for (let k = 1; k < cells; k++) passes[k] += passes[k - 1];

  const length = new Sum();
  for (let k = 0; k < cells; k++) if (passes[k] > 0) length.add(breaks[k + 1] - breaks[k]);
  const each = (of: number, k: number) => (passes[k] > 0 ? of / passes[k] : 0);
  // to an offset that runs straight, a stretch is as its middle
  const metres = new Moments(
    Float64Array.from({ length: cells }, (_, k) => (breaks[k] + breaks[k + 1]) / 2),
    Float64Array.from({ length: cells }, (_, k) => each(breaks[k + 1] - breaks[k], k)),
  );
  const vertices = route.alongTrack;
  const turns = new Moments(
    vertices,
    turnsOf(route).map((turn, v) => {
      const k = firstFrom(breaks, vertices[v]) - (breaks[firstFrom(breaks, vertices[v])] === vertices[v] ? 0 : 1);
      return k >= 0 && k < cells ? each(turn / 2, k) : 0;
    }),
  );
  const area = new Sum();
  const signed = new Sum();
  for (const { from, to, middle, offset, slope, side } of legs) {
    metres.about(middle, firstFrom(breaks, from), firstFrom(breaks, to));
    const strip = offset * metres.sums[0] + slope * metres.sums[1];
    turns.about(middle, firstFrom(vertices, from), firstFrom(vertices, to));
    const [none, first, second] = turns.sums;
    const sectors = offset * (offset * none + 2 * slope * first) + slope * slope * second;
    signed.add(strip + sectors);
    area.add(side * (strip + sectors));
  }
  return { area: area.value, signed: signed.value, length: length.value };
}

/** What lies between two fixes, as far as it keeps to one side of the route. */
interface Leg {
  readonly from: number;
  readonly to: number;
  /** Metres along the route halfway, the offset there, and what that grows by a metre. */
  readonly middle: number;
  readonly offset: number;
  readonly slope: number;
  /** −1 left, 1 right. */
  readonly side: number;
}

function onOneSide(s0: number, n0: number, s1: number, n1: number): Leg[] {
  if (s0 > s1) return onOneSide(s1, n1, s0, n0);
  const slope = (n1 - n0) / (s1 - s0);
  const whole = { middle: (s0 + s1) / 2, offset: (n0 + n1) / 2, slope };
  const crossing = s0 - n0 / slope;
  if (n0 * n1 >= 0 || !(crossing > s0 && crossing < s1))
    return [{ ...whole, from: s0, to: s1, side: Math.sign(n0 + n1) }];
  return [
    { ...whole, from: s0, to: crossing, side: Math.sign(n0) },
    { ...whole, from: crossing, to: s1, side: Math.sign(n1) },
  ];
}

/** The first of some numbers in order that is not less than one; their count where all are. */
function firstFrom(values: Float64Array, least: number): number {
  let [low, high] = [0, values.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (values[middle] < least) low = middle + 1;
    else high = middle;
  }
  return low;
}

function checkSnapped(snapped: Pick<Snapped, 'alongTrack' | 'crossTrack'>): void {
  checkColumns(snapped, 'snapped', 'columns with alongTrack and crossTrack', ['alongTrack', 'crossTrack']);
  for (const key of ['alongTrack', 'crossTrack'] as const) {
    const i = snapped[key].findIndex((value) => Math.abs(value) > FARTHEST);
    if (i < 0) continue;
    const rule = `within ±${FARTHEST} m, or NaN off the route`;
    throw new InputError({ reason: 'out-of-range', argument: `snapped.${key}[${i}]`, rule, value: snapped[key][i] });
  }
}
