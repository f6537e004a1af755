import { checkRoute, type Route } from '../model';
import { derivedRecipe } from './derivedRecipe';
import { mapAlong } from './mapAlong';
import { carriedWarnings, withWarnings } from './withWarnings';

/**
 * The same route travelled the other way: along-track counts from the old end, left and right change places.
 *
 * @example
 * const route = routeFromLine([[5, 60], [5.01, 60]]);
 * pointAt(reverseRoute(route), 0).position // → [5.01, 60]
 * reverseRoute(route).length === route.length // → true
 *
 * @remarks Time grows with the vertices; of hundreds of thousands, what the engine takes to collect garbage is most of it, up to n^2.2
 * (docs/growth.md).
 */
export function reverseRoute(route: Route): Route {
  checkRoute(route);
  const { length } = route;
  const map = (at: number) => length - at;
  const carried = mapAlong(route, map, [0, length]);
  const lon = route.lon.slice().reverse();
  const turns = 360 * Math.floor((lon[0] + 180) / 360);
  if (turns !== 0) for (let i = 0; i < lon.length; i++) lon[i] -= turns;
  const reversed = {
    ...(route.name === undefined ? {} : { name: route.name }),
    lon,
    lat: route.lat.slice().reverse(),
    alongTrack: route.alongTrack.map((at) => length - at).reverse(),
    length,
    ...carried,
    arcs: carried.arcs.map((arc) => ({ ...arc, turn: arc.turn === 'left' ? 'right' : 'left' }) as const),
    lateral95: route.lateral95.slice().reverse(),
    recipe: derivedRecipe({ call: 'reverse', recipe: route.recipe }),
  };
  return withWarnings(reversed, () => carriedWarnings(route, map, [0, length]));
}
