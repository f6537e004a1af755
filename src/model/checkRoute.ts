import { checkColumns } from './checkColumns';
import { InputError } from './InputError';
import type { Route } from './Route';

/** Metres by which the last vertex may lie off the length: engines differ in their last bits. */
const ROUNDED = 1e-6;

/**
 * Refuses anything but a route: what the builder, or one of the functions that return routes, made.
 *
 * @throws {InputError} `wrong-type`, or `too-few` for fewer than 2 vertices
 * @remarks Looks at the shape alone, in constant time: a route was checked when it was built.
 */
export function checkRoute(route: unknown, argument = 'route'): asserts route is Route {
  const rule = 'a route, as routeFromRecipe makes one of a recipe';
  checkColumns(route, argument, rule, ['lon', 'lat', 'alongTrack', 'lateral95']);
  const { name, lon, alongTrack, length, sections, marks, arcs, laps, provenance, recipe } = route as Route;
  const lists = [sections, marks, arcs, laps, provenance, recipe?.steps];
  // warnings are only worked out when they are read
  const warnings = Object.getOwnPropertyDescriptor(route, 'warnings');
  if (warnings && !warnings.get) lists.push(warnings.value);
  const named = name === undefined || typeof name === 'string';
  const ends = typeof length === 'number' && Math.abs(length - (alongTrack[lon.length - 1] ?? length)) <= ROUNDED;
  if (!named || !ends || !lists.every(isList)) {
    throw new InputError({ reason: 'wrong-type', argument, rule, value: route });
  }
  if (lon.length < 2) {
    throw new InputError({ reason: 'too-few', argument, rule: 'a line of at least 2 vertices', value: lon.length });
  }
}

/** Whether it is a list of objects, as its first member shows. */
function isList(value: unknown): boolean {
  if (!Array.isArray(value)) return false;
  const [first] = value;
  return value.length === 0 || (typeof first === 'object' && first !== null && !Array.isArray(first));
}
