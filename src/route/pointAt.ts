import { wrapLongitude } from '../geodesy';
import { placeOnEdge, segmentAt } from '../index';
import {
  checkChoice,
  checkNumber,
  checkOptions,
  checkRoute,
  InputError,
  type OptionKeys,
  type Route,
  type RoutePlace,
} from '../model';

/** Options of {@link pointAt}. */
export interface PointAtOptions {
  /** What to do off the ends of the route: refuse, or take the nearer end. @defaultValue 'refuse' */
  readonly outside?: 'refuse' | 'clamp';
}

const optionKeys: OptionKeys<PointAtOptions> = { outside: true };

/**
 * The place `alongTrack` metres from the route's start.
 *
 * A vertex belongs to the segment it starts; the last vertex to the last segment.
 *
 * @example
 * const route = routeFromLine([[5, 60], [5.01, 60]]);
 * pointAt(route, 100).position // → [5.00179…, 60.0000…]
 * pointAt(route, -1) // throws outside: alongTrack must be within
 * pointAt(route, -1, { outside: 'clamp' }) // → { segment: 0, fraction: 0 }
 *
 * @throws {InputError} `outside` off the ends of the route, unless clamped
 * @remarks A micrometre for edges up to 100 m at any latitude below 89°; longer ones and the poles by exact geodesics.
 */
export function pointAt(
  route: Route,
  alongTrack: number,
  options?: PointAtOptions,
): Pick<RoutePlace, 'position' | 'azimuth' | 'segment' | 'fraction'> {
  const vertices = route?.alongTrack;
  const sound = vertices instanceof Float64Array && route.lon?.length === vertices.length;
  if (!(sound && route.lat?.length === vertices.length && typeof route.length === 'number')) checkRoute(route);
  checkOptions(options, optionKeys);
  let at = alongTrack;
  if (!(typeof at === 'number' && at >= 0 && at <= route.length)) {
    checkRoute(route);
    checkNumber(alongTrack, 'alongTrack');
    if (checkChoice(options?.outside ?? 'refuse', 'options.outside', ['refuse', 'clamp']) === 'refuse') {
      const rule = `within [0, ${route.length}], the route`;
      throw new InputError({ reason: 'outside', argument: 'alongTrack', rule, value: alongTrack });
    }
    at = at > 0 ? route.length : 0;
  }
  const segment = segmentAt(route.alongTrack, at);
  const begin = route.alongTrack[segment];
  const length = route.alongTrack[segment + 1] - begin;
  const fraction = length > 0 ? Math.min((at - begin) / length, 1) : 0;
  const place = placeOnEdge(route.lon, route.lat, segment, fraction, length);
  return { position: [wrapLongitude(place.lon), place.lat], azimuth: place.azimuth, segment, fraction };
}
