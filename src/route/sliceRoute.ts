import { checkNumber, checkRoute, InputError, type Route } from '../model';
import { derivedRecipe } from './derivedRecipe';
import { mapAlong } from './mapAlong';
import { sliceColumns } from './sliceColumns';
import { carriedWarnings, withWarnings } from './withWarnings';

/** Metres past the end that are its end: another engine's last digit. */
const HARDLY = 1e-6;

/**
 * The part of a route between two places, `from` and `to` metres along it, as a route of its own: vertices between kept,
 * sections cut at the ends, everything counted from the new start.
 *
 * @example
 * const route = routeFromLine([[5, 60], [5.01, 60]]);
 * sliceRoute(route, 100, 250).length // → 150
 * sliceRoute(route, 250, 100) // throws out-of-range: to must be a number above 250
 *
 * @throws {InputError} `outside` off the ends of the route, by more than a micrometre at the last; `out-of-range` unless `from` lies before `to`
 */
export function sliceRoute(route: Route, from: number, to: number): Route {
  checkRoute(route);
  checkNumber(from, 'from');
  checkNumber(to, 'to');
  for (const [argument, value] of [
    ['from', from],
    ['to', to],
  ] as const) {
    if (value >= 0 && value <= route.length + HARDLY) continue;
    const rule = `within [0, ${route.length}], the route`;
    throw new InputError({ reason: 'outside', argument, rule, value });
  }
  const end = Math.min(to, route.length);
  if (!(end > from)) checkNumber(to, 'to', { above: from, max: route.length });
  const columns = sliceColumns(route, from, end);
  const map = (at: number) => at - from;
  const slice = {
    ...(route.name === undefined ? {} : { name: route.name }),
    ...columns,
    length: end - from,
    ...mapAlong(route, map, [from, end]),
    recipe: derivedRecipe({ call: 'slice', recipe: route.recipe, from, to }),
  };
  return withWarnings(slice, () => carriedWarnings(route, map, [from, end]));
}
