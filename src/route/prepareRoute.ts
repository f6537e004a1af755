import { checkRoute, isKeepingRoute, keepingRoute, type Route } from '../model';

/**
 * The same route, which keeps what {@link snap} and {@link assess} make of it alone: its bins, the tree over its segments, its
 * corridor as drawn, the hash of its recipe. For many recordings of one route, judged one after the other: all but the first
 * call do without that work, and answer the same.
 *
 * What is made of it (`reverseRoute`, `sliceRoute` …) is a route that keeps nothing. A prepared route takes more memory.
 *
 * @throws {InputError} `wrong-type`: no route
 *
 * @example
 * const quay = prepareRoute(routeFromLine([[2.1, 61.4], [2.11, 61.4]]))
 * const [a, b] = [1, 2].map((metres) => readCsv(['lon,lat', ...[2.1, 2.104, 2.107, 2.11].map((lon) => lon + ',' + (61.4 + metres / 1e5))].join('\n'))[0])
 * ;[a, b].map((recording) => assess(quay, [recording]).rows[0].biasInWords) // → ['1.1 m left', '2.2 m left']
 * prepareRoute({}) // throws wrong-type: route must be a route
 */
export function prepareRoute(route: Route): Route {
  checkRoute(route);
  return isKeepingRoute(route) ? route : keepingRoute(route);
}
