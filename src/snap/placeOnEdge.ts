import type { Position } from 'geojson';
import { Geodesic, WGS84 } from '../geodesy/ellipsoid';
import { wrapLongitude } from '../internal/longitude';
import type { Route } from '../route/Route';

/** The position a fraction of the way along one edge of a route. */
export function placeOnEdge({ lon, lat }: Route, segment: number, fraction: number): Position {
  const line = WGS84.InverseLine(
    lat[segment],
    lon[segment],
    lat[segment + 1],
    lon[segment + 1],
    Geodesic.STANDARD | Geodesic.DISTANCE_IN,
  );
  const { lat2, lon2 } = line.Position(fraction * line.s13, Geodesic.LATITUDE | Geodesic.LONGITUDE);
  return [wrapLongitude(lon2!), lat2!];
}
