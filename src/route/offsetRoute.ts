import type { Position } from 'geojson';
import { wrapLongitude } from '../geodesy';
import { segmentAt } from '../index';
import {
  type Beside,
  checkChoice,
  checkNumber,
  checkOptions,
  checkRoute,
  InputError,
  type OffsetJoin,
  type Route,
  SIDES,
} from '../model';
import { derivedRecipe } from './derivedRecipe';
import { mapAlong } from './mapAlong';
import { measureVertices } from './measureVertices';
import { offsetLine, wideOffsetMessage } from './offsetLine';
import { carriedWarnings, withWarnings } from './withWarnings';

/** Options of {@link offsetRoute}. */
export interface OffsetRouteOptions extends Beside {
  /**
   * How it goes round the outside of a corner: an arc at the same distance, the sides prolonged to meet (up to twice the
   * distance), or straight across. @defaultValue 'round'
   */
  readonly join?: OffsetJoin;
}

/**
 * The route that runs `metres` beside another, to its left or right: every point that far away, save at corners, where
 * it goes round the outside by `join` and is trimmed inside, without loops.
 *
 * A U-turn is gone round at its tip by a semicircle, on either side. Where bends are too tight for the offset, what would
 * be nearer than asked is cut away, with a `wide-offset` warning; where nothing would remain, it runs at
 * half the distance, or half of that; a route of a micrometre, which has no direction, stays where it is. Only the bend itself counts, as far along as half a circle of that radius: beside
 * another passage of the route, as in a crossing, the line is not cut. A closed line gives a closed line, unless it turns by more than 150° at its start.
 *
 * @example
 * const ring = routeBuilder({ maxSagitta: 0.001 }).start([5, 60], { azimuth: 0 }).arc({ turn: 'left', radius: 50, sweep: 360 }).build();
 * offsetRoute(ring, { side: 'right', metres: 1 }).length - ring.length // → 6.283
 *
 * @throws {InputError} a distance not above 0, or no side
 * @remarks Within 1 mm of the distance asked at any latitude; about 8 µs a vertex.
 */
export function offsetRoute(route: Route, options: OffsetRouteOptions): Route {
  checkRoute(route);
  if (options === undefined) {
    throw new InputError({ reason: 'missing', argument: 'options', rule: 'a side and metres', value: options });
  }
  checkOptions(options, { side: true, metres: true, join: true });
  const { side, metres, join = 'round' } = options;
  checkChoice(side, 'options.side', SIDES);
  checkNumber(metres, 'options.metres', { above: 0 });
  checkChoice(join, 'options.join', ['round', 'mitre', 'bevel']);
  const line: Position[] = [];
  for (let i = 0; i < route.lon.length; i++) line.push([wrapLongitude(route.lon[i]), route.lat[i]]);
  const { vertices, source, wide, metres: kept } = offsetLine(line, side, metres, { join });
  const columns = measureVertices(vertices);
  const lateral95 = new Float64Array(source.length);
  for (let i = 0; i < source.length; i++) lateral95[i] = route.lateral95[Math.floor(source[i])];
  const sourceAt = (alongTrack: number) => {
    const segment = segmentAt(route.alongTrack, alongTrack);
    const begin = route.alongTrack[segment];
    const length = route.alongTrack[segment + 1] - begin;
    return segment + (length > 0 ? (alongTrack - begin) / length : 1);
  };
  const map = (alongTrack: number) => besideSource(sourceAt(alongTrack), source, columns.alongTrack);
  const { arcs, ...carried } = mapAlong(route, map, [0, route.length]);
  const alongSource = (at: number) => {
    const vertex = Math.min(Math.floor(at), route.alongTrack.length - 1);
    const next = Math.min(vertex + 1, route.alongTrack.length - 1);
    return map(route.alongTrack[vertex] + (at - vertex) * (route.alongTrack[next] - route.alongTrack[vertex]));
  };
  const beside = {
    ...(route.name === undefined ? {} : { name: route.name }),
    ...columns,
    ...carried,
    arcs: arcs.flatMap((arc) => {
      const radius = arc.radius + (arc.turn === side ? -kept : kept);
      return radius > 0 ? [{ ...arc, radius, length: (arc.length * radius) / arc.radius }] : [];
    }),
    lateral95,
    recipe: derivedRecipe({ call: 'offset', recipe: route.recipe, ...options }),
  };
  return withWarnings(beside, () => [
    ...carriedWarnings(route, map, [0, route.length]),
    ...wide.map(([from, to]) => ({
      reason: 'wide-offset' as const,
      from: alongSource(from),
      to: alongSource(to),
      message: wideOffsetMessage(metres, kept),
    })),
  ]);
}

/** Along-track on the offset line beside a place on its source; the middle of a curve round a corner. */
function besideSource(at: number, source: readonly number[], alongTrack: Float64Array): number {
  const after = firstIndex(source, (value) => value >= at);
  const past = firstIndex(source, (value) => value > at);
  const end = source.length - 1;
  if (past > after) {
    // Beside the ends of the route lie the ends of the offset, whatever curve leads there.
    if (after === 0) return 0;
    if (past > end) return alongTrack[end];
    return (alongTrack[after] + alongTrack[past - 1]) / 2;
  }
  if (after === 0) return 0;
  if (after > end) return alongTrack[end];
  const share = (at - source[after - 1]) / (source[after] - source[after - 1]);
  return alongTrack[after - 1] + share * (alongTrack[after] - alongTrack[after - 1]);
}

/** The first index of a sorted list whose value passes; its length when none does. */
function firstIndex(values: readonly number[], passes: (value: number) => boolean): number {
  let low = 0;
  let high = values.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (passes(values[middle])) high = middle;
    else low = middle + 1;
  }
  return low;
}
