import type { Position } from 'geojson';
import { checkPosition, type GivenPosition } from '../model';
import { Geodesic, type GeodesicLine, WGS84 } from './ellipsoid';
import { wrapLongitude } from './longitude';

/** The geodesic of an edge whose ends are called `names`. */
export function edgeLine(
  from: GivenPosition,
  to: GivenPosition,
  names: readonly [string, string] = ['from', 'to'],
): GeodesicLine {
  checkPosition(from, names[0]);
  checkPosition(to, names[1]);
  return WGS84.InverseLine(from[1], from[0], to[1], to[0]);
}

/** The position so many metres along it. */
export function positionAlong(line: GeodesicLine, alongTrack: number): Position {
  const { lat2, lon2 } = line.Position(alongTrack, Geodesic.LATITUDE | Geodesic.LONGITUDE);
  return [wrapLongitude(lon2!), lat2!];
}
