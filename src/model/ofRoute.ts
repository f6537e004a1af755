import type { Route } from './Route';

/** Where a route keeps what was made of it; it stays behind when the route is sent to a worker thread. */
const KEPT = Symbol('made of the route');

interface Kept {
  /** A copy of the route with other properties is another route. */
  owner?: Route;
  readonly made: Map<unknown, unknown>;
}

/** The same route, which keeps what {@link ofRoute} makes of it. */
export function keepingRoute(route: Route): Route {
  const kept: Kept = { made: new Map() };
  // copied by its properties: to spread it would ask for its warnings, which are found only when they are read
  const properties = { ...Object.getOwnPropertyDescriptors(route), [KEPT]: { value: kept } };
  kept.owner = Object.freeze(Object.defineProperties({}, properties)) as Route;
  return kept.owner;
}

/** Whether it does. */
export function isKeepingRoute(route: Route): boolean {
  return keptOf(route) !== undefined;
}

/** What `make` makes of the route and of nothing else: once where the route keeps it, else anew. */
export function ofRoute<T>(route: Route, make: (route: Route) => T): T {
  const made = keptOf(route);
  if (!made) return make(route);
  if (!made.has(make)) made.set(make, make(route));
  return made.get(make) as T;
}

function keptOf(route: Route): Map<unknown, unknown> | undefined {
  const kept = (route as { readonly [KEPT]?: Kept })[KEPT];
  return kept?.owner === route ? kept.made : undefined;
}
