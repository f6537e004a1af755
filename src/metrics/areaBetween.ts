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
import { turnsOf } from './turnsOf';

/** Options of {@link areaBetween}. */
export interface AreaBetweenOptions {
  /** The recording's `gapBefore`: stretches across its gaps are left out. By default every two neighbouring fixes that are on the route are joined. */
  readonly gapBefore?: ArrayLike<number>;
}

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
 * radius on the inside of a turn. An exact reversal has no side and adds no term. n log n, and a step more for
 * each two fixes between which another pass lies: for a recording back and forth over one stretch it grows with the number
 * of passes as well.
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

  // legs between neighbouring fixes on the route, in the order of the route
  const legs: number[] = [];
  for (let i = 1; i < alongTrack.length; i++) {
    const step = alongTrack[i] - alongTrack[i - 1];
    // a NaN on either side fails here too
    if (
      Math.abs(step) > 0 &&
      Math.abs(crossTrack[i] - crossTrack[i - 1]) >= 0 &&
      !(gapBefore !== undefined && gapBefore[i] > 0)
    )
      legs.push(i);
  }
  const from = (i: number) => Math.min(alongTrack[i - 1], alongTrack[i]);
  const to = (i: number) => Math.max(alongTrack[i - 1], alongTrack[i]);
  legs.sort((i, j) => from(i) - from(j));
  const offset = (i: number, s: number) =>
    crossTrack[i - 1] +
    ((crossTrack[i] - crossTrack[i - 1]) * (s - alongTrack[i - 1])) / (alongTrack[i] - alongTrack[i - 1]);

  const turns = turnsOf(route);
  const breaks = [...new Set(legs.flatMap((i) => [from(i), to(i)]))].sort((s, t) => s - t);
  const area = new Sum();
  const signed = new Sum();
  const length = new Sum();
  let passing: number[] = [];
  let next = 0;
  let vertex = 0;
  for (let k = 0; k + 1 < breaks.length; k++) {
    const [begin, end] = [breaks[k], breaks[k + 1]];
    passing = passing.filter((i) => to(i) > begin);
    while (next < legs.length && from(legs[next]) <= begin) passing.push(legs[next++]);
    if (passing.length === 0) continue;
    length.add(end - begin);
    while (vertex < turns.length && route.alongTrack[vertex] < begin) vertex++;
    let turnEnd = vertex;
    while (turnEnd < turns.length && route.alongTrack[turnEnd] < end) turnEnd++;
    for (const i of passing) {
      const [n0, n1] = [offset(i, begin), offset(i, end)];
      signed.add(((n0 + n1) / 2) * ((end - begin) / passing.length));
      area.add(meanAbsolute(n0, n1) * ((end - begin) / passing.length));
      for (let v = vertex; v < turnEnd; v++) {
        const n = offset(i, route.alongTrack[v]);
        const sector = (turns[v] * n * n) / 2 / passing.length;
        signed.add(sector);
        area.add(Math.sign(n) * sector);
      }
    }
  }
  return { area: area.value, signed: signed.value, length: length.value };
}

/** Mean of |n| where n runs straight from one value to another. */
function meanAbsolute(n0: number, n1: number): number {
  if (n0 * n1 >= 0) return Math.abs(n0 + n1) / 2;
  return (n0 * n0 + n1 * n1) / (2 * Math.abs(n1 - n0));
}

function checkSnapped(snapped: Pick<Snapped, 'alongTrack' | 'crossTrack'>): void {
  checkColumns(snapped, 'snapped', 'columns with alongTrack and crossTrack', ['alongTrack', 'crossTrack']);
  for (const key of ['alongTrack', 'crossTrack'] as const) {
    const i = snapped[key].findIndex((value) => Math.abs(value) === Infinity);
    if (i < 0) continue;
    const rule = 'a finite number, or NaN off the route';
    throw new InputError({ reason: 'not-finite', argument: `snapped.${key}[${i}]`, rule, value: snapped[key][i] });
  }
}
