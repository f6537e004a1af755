import { bisectRight } from 'd3-array';
import type { DrawnLine } from '../assess';
import { earthCentred, localPlane, RADIAN, wrapLongitude } from '../geodesy';

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
  const origin: readonly [number, number] = [wrapLongitude(middle(route.lon)), middle(route.lat)];
  const plane = localPlane(origin);
  const near = nearPlane(...origin);
  // a line round a pole goes on counting its longitudes
  const toPlane = (longitude: number, latitude: number): Point =>
    near(longitude, latitude) ?? plane.toPlane([wrapLongitude(longitude), latitude]);
  const lineToPlane = ({ lon, lat }: DrawnLine) => lon.map((longitude, i) => toPlane(longitude, lat[i]));
  const line = lineToPlane(route);
  const along = route.alongTrack.map((s) => s ?? 0);

  const at = (alongTrack: number): Point => {
    const after = Math.min(Math.max(bisectRight(along, alongTrack), 1), line.length - 1);
    const a = line[after - 1];
    const b = line[after];
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
      const a = at(alongTrack - reach);
      const b = at(alongTrack + reach);
      const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
      return length > 0 ? [(b[1] - a[1]) / length, -(b[0] - a[0]) / length] : [0, 0];
    },
  };
}

/** Metres from its origin within which a plane can be had of chords: a millimetre off at most, and twenty times sooner. */
const NEAR = 30_000;

/** Mean radius of the earth, metres (IUGG). */
const RADIUS = 6_371_009;

/** The plane of {@link routePlane} near its origin, of the chord and its direction in the horizon there; null further off. */
function nearPlane(longitude: number, latitude: number): (longitude: number, latitude: number) => Point | null {
  const [x0, y0, z0] = earthCentred(longitude, latitude);
  const [sinLon, cosLon] = [Math.sin(longitude * RADIAN), Math.cos(longitude * RADIAN)];
  const [sinLat, cosLat] = [Math.sin(latitude * RADIAN), Math.cos(latitude * RADIAN)];
  return (lon, lat) => {
    const place = earthCentred(lon, lat);
    const dx = place[0] - x0;
    const dy = place[1] - y0;
    const dz = place[2] - z0;
    const square = dx * dx + dy * dy + dz * dz;
    if (!(square < NEAR * NEAR)) return null;
    const east = cosLon * dy - sinLon * dx;
    const north = cosLat * dz - sinLat * (cosLon * dx + sinLon * dy);
    const flat = Math.hypot(east, north);
    if (flat === 0) return [0, 0];
    // an arc is longer than its chord by the cube of it over 24 R²
    const stretch = (Math.sqrt(square) * (1 + square / (24 * RADIUS * RADIUS))) / flat;
    return [east * stretch, north * stretch];
  };
}
