import type { Polygon, Position } from 'geojson';
import pointInPolygon from 'point-in-polygon-hao';
import { Geodesic, unwrapLongitude, WGS84 } from '../geodesy';
import { checkNumber, checkPosition, InputError } from '../model';
import { type DiscZone, drawZone } from './drawZone';

/** What is kept out of what is published: a disc, a GeoJSON polygon, or the ring of one. */
export type Zone = DiscZone | Polygon | readonly Position[];

/**
 * The function that tells whether a position lies in a zone. Edges of polygons are straight in degrees, their boundary
 * belongs to them.
 *
 * @throws {InputError} what is neither a disc nor a polygon
 */
export function insideZone(zone: Zone, argument: string): (lon: number, lat: number) => boolean {
  if (typeof zone === 'object' && zone !== null && 'centre' in zone) return insideDisc(zone, argument);
  const rings = Array.isArray(zone) ? [zone as Position[]] : (zone as Polygon | null)?.coordinates;
  if (!Array.isArray(rings) || rings.length === 0) {
    throw new InputError({
      reason: 'wrong-type',
      argument,
      rule: 'a disc { centre, radius }, a polygon or a ring of positions',
      value: zone,
    });
  }
  const coordinates = rings.map((ring, k) => closedRing(ring, `${argument} ring ${k}`, rings[0]));
  const middle = coordinates[0].reduce((sum, [lon]) => sum + lon, 0) / coordinates[0].length;
  return (lon, lat) => pointInPolygon([unwrapLongitude(lon, middle), lat], coordinates) !== false;
}

function insideDisc(zone: DiscZone, argument: string): (lon: number, lat: number) => boolean {
  const { centre, radius } = zone;
  checkPosition(centre, `${argument} centre`);
  checkNumber(radius, `${argument} radius`, { above: 0 });
  const offset = zone.offset ?? drawZone(centre, { radius }).offset!;
  checkNumber(offset.azimuth, `${argument} offset.azimuth`);
  checkNumber(offset.distance, `${argument} offset.distance`, { min: 0 });
  const moved = WGS84.Direct(centre[1], centre[0], offset.azimuth, offset.distance);
  const reach = radius + offset.distance;
  return (lon, lat) => WGS84.Inverse(moved.lat2!, moved.lon2!, lat, lon, Geodesic.DISTANCE).s12! <= reach;
}

/** The ring closed, its longitudes unwrapped from the first of the outer one on. */
function closedRing(ring: readonly Position[], argument: string, outer: readonly Position[]): Position[] {
  if (!Array.isArray(ring) || ring.length < 3) {
    throw new InputError({ reason: 'too-few', argument, rule: 'a ring of at least 3 positions', value: ring });
  }
  let near = outer[0][0];
  const unwrapped = ring.map((position, i): Position => {
    checkPosition(position, `${argument}[${i}]`);
    near = unwrapLongitude(position[0], near);
    return [near, position[1]];
  });
  const [first, last] = [unwrapped[0], unwrapped[unwrapped.length - 1]];
  return first[0] === last[0] && first[1] === last[1] ? unwrapped : [...unwrapped, first];
}
