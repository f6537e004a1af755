import { bisectRight } from 'd3-array';
import type { DrawnLine } from '../assess';
import { localPlane, wrapLongitude } from '../geodesy';

export type Point = readonly [x: number, y: number];

/** The route in metres east and north of its middle: what every map is drawn from. */
export interface RoutePlane {
  readonly toPlane: (longitude: number, latitude: number) => Point;
  readonly lineToPlane: (line: DrawnLine) => Point[];
  /** The route's drawn vertices. */
  readonly line: readonly Point[];
  /** The route at so many metres along-track, held at its ends. */
  readonly at: (alongTrack: number) => Point;
  /** The route's vertices between two places, with both places. */
  readonly between: (from: number, to: number) => Point[];
  /** Unit vector to the right of travel, taken over `reach` metres to both sides so that a corner turns gradually. */
  readonly right: (alongTrack: number, reach: number) => Point;
}

/** A plane about the middle of the route's box, true in length and direction to a few millimetres over a day's ride. */
export function routePlane(route: DrawnLine): RoutePlane {
  const middle = (values: readonly number[]) => {
    const [low, high] = values.reduce(([a, b], v) => [Math.min(a, v), Math.max(b, v)], [Infinity, -Infinity]);
    return (low + high) / 2;
  };
  const plane = localPlane([wrapLongitude(middle(route.lon)), middle(route.lat)]);
  // a line round a pole goes on counting its longitudes
  const toPlane = (longitude: number, latitude: number): Point => plane.toPlane([wrapLongitude(longitude), latitude]);
  const lineToPlane = ({ lon, lat }: DrawnLine) => lon.map((longitude, i) => toPlane(longitude, lat[i]));
  const line = lineToPlane(route);
  const along = route.alongTrack.map((s) => s ?? 0);

  const at = (alongTrack: number): Point => {
    const after = Math.min(Math.max(bisectRight(along, alongTrack), 1), line.length - 1);
    const [a, b] = [line[after - 1], line[after]];
    const span = along[after] - along[after - 1];
    const fraction = span > 0 ? Math.min(1, Math.max(0, (alongTrack - along[after - 1]) / span)) : 0;
    return [a[0] + fraction * (b[0] - a[0]), a[1] + fraction * (b[1] - a[1])];
  };
  return {
    toPlane,
    lineToPlane,
    line,
    at,
    between: (from, to) => [at(from), ...line.filter((_, i) => along[i] > from && along[i] < to), at(to)],
    right: (alongTrack, reach) => {
      const [a, b] = [at(alongTrack - reach), at(alongTrack + reach)];
      const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
      return length > 0 ? [(b[1] - a[1]) / length, -(b[0] - a[0]) / length] : [0, 0];
    },
  };
}
