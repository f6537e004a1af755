import { extent } from 'd3-array';
import type { MultiPolygon, Polygon, Position } from 'geojson';
import pointInPolygon from 'point-in-polygon-hao';
import { unwrapLongitude } from '../geodesy';
import { placeOnEdge } from '../index';
import type { Route } from '../model';

/** Metres: within so short a part of an edge, the geodesic and the straight line in degrees are the same to 0.3 mm at 80°. */
const STRAIGHT_PART = 50;

/** Metres: a passage shorter than this only touches the boundary, to the rounding of degrees. */
const TOUCH = 1e-6;

/** One polygon, its longitudes continuous, with the box around it. */
interface Patch {
  readonly area: Polygon;
  readonly west: number;
  readonly east: number;
  readonly south: number;
  readonly north: number;
}

/**
 * The stretches of a route inside an area, in metres along-track: one for each passage, from where an edge enters it to
 * where one leaves. The area's edges are straight in longitude and latitude, as RFC 7946 section 3.1.1 has them; what lies
 * in a hole is outside, the boundary itself inside.
 */
export function stretchesInside(
  { lon, lat, alongTrack }: Pick<Route, 'lon' | 'lat' | 'alongTrack'>,
  area: Polygon | MultiPolygon,
): [from: number, to: number][] {
  const patches = (area.type === 'Polygon' ? [area.coordinates] : area.coordinates).map(patchOf);
  const stretches: [number, number][] = [];
  /** Where the stretch that is still open begins. */
  let entered: number | undefined;
  const walk = (from: Position, to: Position, begin: number, length: number) => {
    const cuts = patches.flatMap((patch) => crossings(patch, from, to)).sort((a, b) => a - b);
    let last = 0;
    for (const cut of [...cuts, 1]) {
      if ((cut - last) * length <= TOUCH) continue;
      const middle = (last + cut) / 2;
      const at = [from[0] + middle * (to[0] - from[0]), from[1] + middle * (to[1] - from[1])];
      const inside = patches.some((patch) => contains(patch, at));
      if (inside) entered ??= begin + last * length;
      else if (entered !== undefined) {
        stretches.push([entered, begin + last * length]);
        entered = undefined;
      }
      last = cut;
    }
  };
  for (let i = 0; i + 1 < lon.length; i++) {
    const length = alongTrack[i + 1] - alongTrack[i];
    const parts = Math.ceil(length / STRAIGHT_PART);
    let from = [lon[i], lat[i]];
    for (let k = 1; k <= parts; k++) {
      const place = k === parts ? { lon: lon[i + 1], lat: lat[i + 1] } : placeOnEdge(lon, lat, i, k / parts, length);
      const to = [place.lon, place.lat];
      walk(from, to, alongTrack[i] + (length * (k - 1)) / parts, length / parts);
      from = to;
    }
  }
  if (entered !== undefined) stretches.push([entered, alongTrack[alongTrack.length - 1]]);
  return stretches;
}

function patchOf(rings: readonly Position[][]): Patch {
  const near = rings[0][0][0];
  const coordinates = rings.map((ring) => {
    let before = near;
    return ring.map(([longitude, latitude]): Position => {
      before = unwrapLongitude(longitude, before);
      return [before, latitude];
    });
  });
  const [west, east] = extent(coordinates[0], ([longitude]) => longitude) as [number, number];
  const [south, north] = extent(coordinates[0], ([, latitude]) => latitude) as [number, number];
  return { area: { type: 'Polygon', coordinates }, west, east, south, north };
}

/** The same longitude in the turn of the patch. */
function besidePatch({ west, east }: Patch, longitude: number): number {
  return unwrapLongitude(longitude, (west + east) / 2);
}

function contains(patch: Patch, [longitude, latitude]: Position): boolean {
  const at = besidePatch(patch, longitude);
  if (at < patch.west || at > patch.east || latitude < patch.south || latitude > patch.north) return false;
  return pointInPolygon([at, latitude], patch.area.coordinates) !== false;
}

/** Where the straight line in degrees between two positions meets the boundary, as shares of it. */
function crossings(patch: Patch, from: Position, to: Position): number[] {
  const x = besidePatch(patch, from[0]);
  const y = from[1];
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  if (Math.max(x, x + dx) < patch.west || Math.min(x, x + dx) > patch.east) return [];
  if (Math.max(y, y + dy) < patch.south || Math.min(y, y + dy) > patch.north) return [];
  const found: number[] = [];
  for (const ring of patch.area.coordinates) {
    for (let i = 0; i + 1 < ring.length; i++) {
      const [ax, ay] = ring[i];
      const [ex, ey] = [ring[i + 1][0] - ax, ring[i + 1][1] - ay];
      const across = dx * ey - dy * ex;
      if (across === 0) continue; // side by side: the edges before and after cross instead
      const share = ((ax - x) * ey - (ay - y) * ex) / across;
      const onRing = ((ax - x) * dy - (ay - y) * dx) / across;
      if (share > 0 && share < 1 && onRing >= 0 && onRing <= 1) found.push(share);
    }
  }
  return found;
}
