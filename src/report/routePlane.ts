import { bisectLeft, bisectRight } from 'd3-array';
import type { DrawnLine } from '../assess';
import { earthCentred, RADIAN } from '../geodesy';
import type { Trace } from './Trace';

export type Point = readonly [x: number, y: number];

/** The route in metres east and north of its middle: what every map is drawn from. */
export interface RoutePlane {
  readonly toPlane: (longitude: number, latitude: number) => Point;
  readonly lineToPlane: (line: DrawnLine) => { readonly x: Float64Array; readonly y: Float64Array };
  /** The route's drawn vertices. */
  readonly line: Trace;
  /** The route at so many metres along-track, held at its ends. */
  readonly at: (alongTrack: number) => Point;
  /** The route's vertices between two places, with both places. */
  readonly between: (from: number, to: number) => Trace;
  /** Unit vector to the right of travel, taken over `reach` metres to both sides so that a corner turns gradually. */
  readonly right: (alongTrack: number, reach: number) => Point;
}

/** A plane about the middle of the route's box, true in length and direction to a few millimetres over a day's ride. */
export function routePlane(route: DrawnLine): RoutePlane {
  const middle = (values: readonly number[]) => {
    const [low, high] = values.reduce(([a, b], v) => [Math.min(a, v), Math.max(b, v)], [Infinity, -Infinity]);
    return (low + high) / 2;
  };
  const toPlane = chordPlane(middle(route.lon), middle(route.lat));
  const lineToPlane = ({ lon, lat }: DrawnLine) => {
    const x = new Float64Array(lon.length);
    const y = new Float64Array(lon.length);
    for (let i = 0; i < x.length; i++) [x[i], y[i]] = toPlane(lon[i], lat[i]);
    return { x, y };
  };
  const line = lineToPlane(route);
  const { x, y } = line;
  const along = route.alongTrack.map((s) => s ?? 0);

  const at = (alongTrack: number): Point => {
    const b = Math.min(Math.max(bisectRight(along, alongTrack), 1), x.length - 1);
    const a = b - 1;
    const span = along[b] - along[a];
    const fraction = span > 0 ? Math.min(1, Math.max(0, (alongTrack - along[a]) / span)) : 0;
    return [x[a] + fraction * (x[b] - x[a]), y[a] + fraction * (y[b] - y[a])];
  };
  return {
    toPlane,
    lineToPlane,
    line,
    at,
    between: (from, to) => {
      const begin = bisectRight(along, from);
      const end = Math.max(begin, bisectLeft(along, to));
      const [first, last] = [at(from), at(to)];
      return {
        x: [first[0], ...x.subarray(begin, end), last[0]],
        y: [first[1], ...y.subarray(begin, end), last[1]],
      };
    },
    right: (alongTrack, reach) => {
      const a = at(alongTrack - reach);
      const b = at(alongTrack + reach);
      const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
      return length > 0 ? [(b[1] - a[1]) / length, -(b[0] - a[0]) / length] : [0, 0];
    },
  };
}

/** Mean radius of the earth, metres (IUGG). */
const RADIUS = 6_371_009;

/**
 * The plane of {@link localPlane} by the chord and its direction in the horizon of its origin, twenty times sooner: a
 * millimetre off within 30 km, and with the cube of the way more beyond, where a pixel is hundreds of metres.
 */
function chordPlane(longitude: number, latitude: number): (longitude: number, latitude: number) => Point {
  const [x0, y0, z0] = earthCentred(longitude, latitude);
  const [sinLon, cosLon] = [Math.sin(longitude * RADIAN), Math.cos(longitude * RADIAN)];
  const [sinLat, cosLat] = [Math.sin(latitude * RADIAN), Math.cos(latitude * RADIAN)];
  return (lon, lat) => {
    const place = earthCentred(lon, lat);
    const dx = place[0] - x0;
    const dy = place[1] - y0;
    const dz = place[2] - z0;
    const east = cosLon * dy - sinLon * dx;
    const north = cosLat * dz - sinLat * (cosLon * dx + sinLon * dy);
    const flat = Math.hypot(east, north);
    if (flat === 0) return [0, 0];
    const arc = 2 * RADIUS * Math.asin(Math.min(1, Math.sqrt(dx * dx + dy * dy + dz * dz) / (2 * RADIUS)));
    return [(east * arc) / flat, (north * arc) / flat];
  };
}
