import { checkChoice, checkNumber, checkOptions, checkRoute, type Route } from '../model';
import { nextPasses } from './nextPasses';
import { passedLine } from './passedLine';
import type { RepeatedStretch } from './RepeatedStretch';
import { SHORTEST } from './Repetitions';
import { selfContacts } from './selfContacts';

/** Options of {@link repeatedStretches}. */
export interface RepeatedStretchesOptions {
  /** Metres within which two stretches count as the same way. */
  readonly maxDistance: number;
  /**
   * Every two passes, or each with the next one only: of a hundred laps 4950 pairs, or 99.
   * @defaultValue 'every'
   */
  readonly pairs?: 'every' | 'next';
}

/**
 * The pairs of stretches where a route runs along itself, no further than `maxDistance` metres apart: laps, out-and-back, a
 * street used twice. In order of the first stretch; three laps give three pairs, one for each two
 * of them, or two with `pairs: 'next'`.
 *
 * Stretches count where their directions differ by less than 30° and they are at least 4 × `maxDistance` long: shorter ones are
 * crossings.
 *
 * @example
 * const route = routeBuilder().start([5, 60]).outAndBack((out) => out.lineBy({ azimuth: 0, distance: 500 })).build();
 * repeatedStretches(route, { maxDistance: 5 }) // → [{ first: { from: 0, to: 500.0 }, second: { from: 500.0, to: 1000.0 }, direction: 'opposite' }]
 *
 * const laps = routeBuilder().start([5, 60], { azimuth: 0 }).laps(3, (lap) => lap.arc({ turn: 'left', radius: 60, sweep: 360 })).build();
 * repeatedStretches(laps, { maxDistance: 5, pairs: 'next' }).length // → 2
 *
 * @throws {InputError} a distance not above 0
 * @remarks Looked for at the route's vertices: ends are as close as its spacing. Some 2 µs for each vertex and each pass within
 * reach of it: as every two passes are a pair, time and pairs grow with the square of the number of laps. With `pairs: 'next'`
 * no vertex looks past its next pass: laps, spirals and rows take n log n, and pairs grow with the laps.
 */
export function repeatedStretches(route: Route, options: RepeatedStretchesOptions): RepeatedStretch[] {
  checkRoute(route);
  checkOptions(options, { maxDistance: true, pairs: true });
  const maxDistance = checkNumber(options?.maxDistance, 'options.maxDistance', { above: 0 });
  const pairs = checkChoice(options.pairs ?? 'every', 'options.pairs', ['every', 'next']);
  // no stretch of it is long enough
  if (SHORTEST * maxDistance > route.length) return [];
  return pairs === 'every'
    ? selfContacts(route, maxDistance)
    : nextPasses(passedLine(route), maxDistance, { left: Infinity });
}
