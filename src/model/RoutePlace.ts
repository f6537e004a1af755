import type { Position } from 'geojson';

/** A place on a route as seen from a position: the foot of that position, how far along the route and how far aside. */
export interface RoutePlace {
  /** The foot on the route. */
  readonly position: Position;
  /** Metres from the route's start. */
  readonly alongTrack: number;
  /** Metres, right of travel positive. */
  readonly crossTrack: number;
  /** Metres, unsigned. */
  readonly distance: number;
  /** Index of the vertex that the segment starts at. */
  readonly segment: number;
  /** 0 at the segment's start, 1 at its end. */
  readonly fraction: number;
  /** Direction of travel there, degrees clockwise from north, [0, 360). */
  readonly azimuth: number;
  /** Set where the place is an end of the route and the position lies beyond it, not straight beside it. */
  readonly beyond?: 'start' | 'end';
}
