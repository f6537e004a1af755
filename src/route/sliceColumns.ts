import { placeOnEdge, segmentAt } from '../index';
import type { Route } from '../model';

/** The columns of a route, vertex by vertex. */
export type RouteColumns = Pick<Route, 'lon' | 'lat' | 'alongTrack' | 'lateral95'>;

/** The columns between two places of a route, counted from the first; longitudes begin within [-180, 180). */
export function sliceColumns(route: RouteColumns & Pick<Route, 'length'>, from: number, to: number): RouteColumns {
  const first = segmentAt(route.alongTrack, from);
  let last = segmentAt(route.alongTrack, to);
  // A place that is a vertex ends the segment before it.
  if (route.alongTrack[last] === to) last--;
  const inner = last - first;
  // copied as a whole, with a place before and after for the ends
  const column = (of: Float64Array) => {
    const column = new Float64Array(inner + 2);
    column.set(of.subarray(first + 1, last + 1), 1);
    return column;
  };
  const lon = column(route.lon);
  const lat = column(route.lat);
  const alongTrack = column(route.alongTrack);
  const lateral95 = column(route.lateral95);
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
  for (let i = 1; i <= inner; i++) alongTrack[i] -= from;
  put(inner + 1, last, to);
  if (to === route.length) lateral95[inner + 1] = route.lateral95[route.lateral95.length - 1];
  const turns = 360 * Math.floor((lon[0] + 180) / 360);
  if (turns !== 0) for (let i = 0; i < lon.length; i++) lon[i] -= turns;
  return { lon, lat, alongTrack, lateral95 };
}
