import type { Route, RouteWarning, RouteWarningReason } from '../model';
import { fewWarnings } from './fewWarnings';
import { type AlongMap, mapStretches } from './mapAlong';
import { routeWarnings } from './routeWarnings';

/** Whether a warning comes of how the line was drawn, and stays with it; the others are found anew on whatever is made of it. */
const isDrawn: Record<RouteWarningReason, boolean> = {
  'near-duplicate': true,
  spike: true,
  'long-leg': true,
  'wide-offset': true,
  'coarse-coordinates': true,
  'swap-suspected': true,
  'tight-corner': true,
  'sharp-turn': true,
  'open-lap': true,
  'bridged-gap': true,
  'far-mark': true,
  'misspelt-property': true,
  'half-given': true,
  'unnamed-area': true,
  'overlapping-sections': false,
  'empty-section': false,
  'narrow-corridor': false,
  'self-crossing': false,
  'repeated-stretch': false,
  'start-near-end': false,
  'missing-uncertainty': false,
  'mixed-frames': false,
};

/**
 * The route with its warnings, worked out when they are first read: finding where a route meets itself takes as long as
 * building it.
 */
export function withWarnings(route: Omit<Route, 'warnings'>, drawn: () => RouteWarning[]): Route {
  let found: readonly RouteWarning[] | undefined;
  return Object.freeze({
    ...route,
    get warnings() {
      found ??= Object.freeze(fewWarnings([...drawn(), ...routeWarnings(route)]));
      return found;
    },
  });
}

/** The route with warnings of what it was drawn from, which is no part of its recipe, beside its own. */
export function withDrawingWarnings(route: Route, drawing: readonly RouteWarning[]): Route {
  if (drawing.length === 0) return route;
  let found: readonly RouteWarning[] | undefined;
  // copied by its properties: to spread it would ask for its warnings
  const properties = Object.getOwnPropertyDescriptors(route);
  const get = () => (found ??= Object.freeze(fewWarnings([...drawing, ...route.warnings])));
  return Object.freeze(Object.defineProperties({}, { ...properties, warnings: { get, enumerable: true } })) as Route;
}

/** The warnings of a route that stay with a line made of it. */
export function carriedWarnings(route: Route, map: AlongMap, kept: readonly [number, number]): RouteWarning[] {
  const drawn = route.warnings.filter(({ reason }) => isDrawn[reason]);
  return mapStretches(drawn, map, kept);
}
