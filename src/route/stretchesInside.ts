import booleanPointInPolygon from '@turf/boolean-point-in-polygon';
import type { MultiPolygon, Polygon } from 'geojson';
import { wrapLongitude } from '../internal/longitude';
import type { Route } from './Route';

/** Metres: how closely the place where the route enters or leaves an area is found. */
const PRECISION = 1e-3;

/**
 * The stretches of a route inside an area, in metres along-track. The area's edges are straight in longitude and
 * latitude, as RFC 7946 section 3.1.1 has them.
 *
 * @remarks Vertices are tested, so a stretch shorter than one edge of the route between two vertices outside is missed.
 */
export function stretchesInside(
  { lon, lat, alongTrack }: Pick<Route, 'lon' | 'lat' | 'alongTrack'>,
  area: Polygon | MultiPolygon,
): [from: number, to: number][] {
  const inside = (longitude: number, latitude: number) =>
    booleanPointInPolygon([wrapLongitude(longitude), latitude], area);
  const crossing = (i: number) => {
    let [low, high] = [0, 1];
    const startsInside = inside(lon[i], lat[i]);
    const length = alongTrack[i + 1] - alongTrack[i];
    while ((high - low) * length > PRECISION) {
      const middle = (low + high) / 2;
      const there = inside(lon[i] + middle * (lon[i + 1] - lon[i]), lat[i] + middle * (lat[i + 1] - lat[i]));
      if (there === startsInside) low = middle;
      else high = middle;
    }
    return alongTrack[i] + ((low + high) / 2) * length;
  };
  const stretches: [number, number][] = [];
  let entered = inside(lon[0], lat[0]) ? 0 : Number.NaN;
  for (let i = 0; i + 1 < lon.length; i++) {
    const next = inside(lon[i + 1], lat[i + 1]);
    if (next && Number.isNaN(entered)) entered = crossing(i);
    else if (!next && !Number.isNaN(entered)) {
      stretches.push([entered, crossing(i)]);
      entered = Number.NaN;
    }
  }
  if (!Number.isNaN(entered)) stretches.push([entered, alongTrack[alongTrack.length - 1]]);
  return stretches;
}
