import { placeOnEdge, segmentAt } from '../index';
import { checkNumber, checkRoute, InputError, type Route } from '../model';
import { derivedRecipe } from './derivedRecipe';
import { mapAlong } from './mapAlong';
import { carriedWarnings, withWarnings } from './withWarnings';

/**
 * The part of a route between two places, `from` and `to` metres along it, as a route of its own: vertices between kept,
 * sections cut at the ends, everything counted from the new start.
 *
 * @example
 * const route = routeFromLine([[5, 60], [5.01, 60]]);
 * sliceRoute(route, 100, 250).length // → 150
 * sliceRoute(route, 250, 100) // throws out-of-range: to must be a number above 250
 *
 * @throws {InputError} `outside` off the ends of the route; `out-of-range` unless `from` lies before `to`
 */
export function sliceRoute(route: Route, from: number, to: number): Route {
  checkRoute(route);
  checkNumber(from, 'from');
  checkNumber(to, 'to');
  for (const [argument, value] of [
    ['from', from],
    ['to', to],
  ] as const) {
    if (value >= 0 && value <= route.length) continue;
    const rule = `within [0, ${route.length}], the route`;
    throw new InputError({ reason: 'outside', argument, rule, value });
  }
  checkNumber(to, 'to', { above: from });
  const first = segmentAt(route.alongTrack, from);
  let last = segmentAt(route.alongTrack, to);
  // A place that is a vertex ends the segment before it.
  if (route.alongTrack[last] === to) last--;
  const inner = last - first;
  const lon = new Float64Array(inner + 2);
  const lat = new Float64Array(inner + 2);
  const alongTrack = new Float64Array(inner + 2);
  const lateral95 = new Float64Array(inner + 2);
  const put = (at: number, segment: number, along: number) => {
    const begin = route.alongTrack[segment];
    const length = route.alongTrack[segment + 1] - begin;
    // a vertex said twice makes a segment of no length: any place of it is its end
    const fraction = length > 0 ? Math.min((along - begin) / length, 1) : 1;
    const place = placeOnEdge(route.lon, route.lat, segment, fraction, length);
    lon[at] = place.lon;
    lat[at] = place.lat;
    alongTrack[at] = along - from;
    lateral95[at] = route.lateral95[segment];
  };
  put(0, first, from);
  for (let i = first + 1; i <= last; i++) {
    lon[i - first] = route.lon[i];
    lat[i - first] = route.lat[i];
    alongTrack[i - first] = route.alongTrack[i] - from;
    lateral95[i - first] = route.lateral95[i];
  }
  put(inner + 1, last, to);
  if (to === route.length) lateral95[inner + 1] = route.lateral95[route.lateral95.length - 1];
  const turns = 360 * Math.floor((lon[0] + 180) / 360);
  if (turns !== 0) for (let i = 0; i < lon.length; i++) lon[i] -= turns;
  const map = (at: number) => at - from;
  const slice = {
    ...(route.name === undefined ? {} : { name: route.name }),
    lon,
    lat,
    alongTrack,
    length: to - from,
    ...mapAlong(route, map, [from, to]),
    lateral95,
    recipe: derivedRecipe({ call: 'slice', recipe: route.recipe, from, to }),
  };
  return withWarnings(slice, () => carriedWarnings(route, map, [from, to]));
}
