import type { Position } from 'geojson';
import { wrapLongitude } from '../geodesy';
import { placeOnEdge, segmentAt } from '../index';
import { checkNumber, checkOptions, InputError, type Route } from '../model';

/** Options of {@link pointAt}. */
export interface PointAtOptions {
  /** What to do off the ends of the route: refuse, or take the nearer end. @defaultValue 'refuse' */
  readonly outside?: 'refuse' | 'clamp';
}

/** A place on a route. */
export interface PlaceOnRoute {
  readonly position: Position;
  /** Direction of travel there, degrees clockwise from north, [0, 360). */
  readonly azimuth: number;
  /** Index of the vertex the segment starts at. */
  readonly segment: number;
  /** 0 at the segment's start, 1 at its end. */
  readonly fraction: number;
}

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
export function pointAt(route: Route, alongTrack: number, options?: PointAtOptions): PlaceOnRoute {
  let at = alongTrack;
  if (!(at >= 0 && at <= route.length)) {
    checkNumber(alongTrack, 'alongTrack');
    checkOptions(options, { outside: true });
    if (options?.outside !== 'clamp') {
      throw new InputError({
        reason: 'outside',
        argument: 'alongTrack',
        rule: `within [0, ${route.length}], the route`,
        value: alongTrack,
      });
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
