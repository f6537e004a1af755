import { EdgeBoxes, verticesOf } from '../index';
import type { Route } from '../model';
import { directionsOf } from './directionsOf';
import { longestEdge } from './longestEdge';
import type { PassedLine } from './nextPasses';

/** A route with what is needed to look for its passes. */
export function passedLine({ lon, lat, alongTrack }: Pick<Route, 'lon' | 'lat' | 'alongTrack'>): PassedLine {
  const vertices = verticesOf({ lon, lat });
  const longest = longestEdge(alongTrack);
  const boxes = new EdgeBoxes(vertices, longest);
  return { lon, lat, alongTrack, vertices, boxes, longest, cosine: directionsOf({ lon, lat }).cosine };
}
