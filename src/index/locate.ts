import { wrapLongitude } from '../geodesy';
import type { GivenPosition, Route, RoutePlace } from '../model';
import { alongEdge } from './alongEdge';
import { directedEdge } from './directedEdge';
import { endPassed } from './endPassed';
import { placeOnEdge } from './placeOnEdge';

/** What is known of a place on the route before it is worked out in full. */
export type Foot = Pick<RoutePlace, 'segment' | 'fraction' | 'distance' | 'crossTrack'>;

/** A place on a route in full: where it is, how far along, in which direction the route runs there. */
export function locate(route: Route, foot: Foot, position: GivenPosition): RoutePlace {
  const { segment, fraction, distance, crossTrack } = foot;
  const { lon, lat, alongTrack } = route;
  const edge = directedEdge(alongTrack, segment);
  const at = edge === segment ? fraction : edge > segment ? 0 : 1;
  const place = placeOnEdge(lon, lat, edge, at, alongTrack[edge + 1] - alongTrack[edge]);
  const located = {
    position: [wrapLongitude(place.lon), place.lat],
    alongTrack: alongEdge(alongTrack, segment, fraction),
    crossTrack,
    distance,
    segment,
    fraction,
    azimuth: place.azimuth,
  };
  const beyond = endPassed(route, foot, position);
  return beyond === undefined ? located : { ...located, beyond };
}
