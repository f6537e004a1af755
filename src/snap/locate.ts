import type { Position } from 'geojson';
import { ECCENTRICITY2, RADIAN } from '../geodesy/ellipsoid';
import { wrapAzimuth } from '../internal/azimuth';
import { wrapLongitude } from '../internal/longitude';
import type { Route } from '../route/Route';
import { earthCentred } from './earthCentred';
import type { Located } from './Located';

/** A position must lie further before the start or past the end than this, in metres, to be called beyond it. */
const BEYOND = 1e-6;

/** What is known of a place on the route before it is worked out in full. */
export type Foot = Pick<Located, 'segment' | 'fraction' | 'distance' | 'crossTrack'>;

/** A place on the route in full: where it is, how far along, in which direction the route runs there. */
export function locate(route: Route, foot: Foot, position: Position): Located {
  const { segment, fraction, distance, crossTrack } = foot;
  const { lon, lat, alongTrack } = route;
  const last = lon.length - 2;
  // the direction of an edge of no length is that of the next one with any, or of the one before
  let edge = segment;
  while (edge < last && isEmpty(route, edge)) edge++;
  while (edge > 0 && isEmpty(route, edge)) edge--;
  const [ax, ay, az] = earthCentred(lon[edge], lat[edge]);
  const [bx, by, bz] = earthCentred(lon[edge + 1], lat[edge + 1]);
  const ex = bx - ax;
  const ey = by - ay;
  const ez = bz - az;
  const at = edge === segment ? fraction : edge > segment ? 0 : 1;
  const fx = ax + at * ex;
  const fy = ay + at * ey;
  const fz = az + at * ez;
  const flat = Math.hypot(fx, fy);
  const footLat = Math.atan2(fz, flat * (1 - ECCENTRICITY2));
  const footLon = Math.atan2(fy, fx);
  const sinLat = Math.sin(footLat);
  const cosLat = Math.cos(footLat);
  const sinLon = flat === 0 ? 0 : fy / flat;
  const cosLon = flat === 0 ? 1 : fx / flat;
  const east = ey * cosLon - ex * sinLon;
  const north = ez * cosLat - sinLat * (ex * cosLon + ey * sinLon);
  const located = {
    position: [wrapLongitude(footLon / RADIAN), footLat / RADIAN],
    alongTrack: alongTrack[segment] + fraction * (alongTrack[segment + 1] - alongTrack[segment]),
    crossTrack,
    distance,
    segment,
    fraction,
    azimuth: wrapAzimuth(Math.atan2(east, north) / RADIAN),
  };
  const atStart = located.alongTrack === 0;
  if (!atStart && !(segment === last && fraction === 1)) return located;
  const [px, py, pz] = earthCentred(position[0], position[1]);
  const dx = px - fx;
  const dy = py - fy;
  const pointEast = dy * cosLon - dx * sinLon;
  const pointNorth = (pz - fz) * cosLat - sinLat * (dx * cosLon + dy * sinLon);
  const ahead = (pointEast * east + pointNorth * north) / (Math.hypot(east, north) || 1);
  if (atStart && ahead < -BEYOND) return { ...located, beyond: 'start' };
  if (!atStart && ahead > BEYOND) return { ...located, beyond: 'end' };
  return located;
}

function isEmpty({ lon, lat }: Route, segment: number): boolean {
  return lon[segment] === lon[segment + 1] && lat[segment] === lat[segment + 1];
}
